"""What is known of athletes, as facts: health, history, known bests; the same few queries however many they are."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Any, Final, cast

from django.db.models import Count, Exists, OuterRef, Prefetch, QuerySet, Subquery

from coachhub.cards.models import BestSource, KnownBest, SetEntry, SetMark
from coachhub.cards.queries.own_and_gaps import gaps_of, own_work_of
from coachhub.coaching.entries import counting
from coachhub.coaching.facts import AthleteFacts, BestFacts, DoneSet, Mass, PainFacts, RestrictionFacts
from coachhub.people.models import Athlete, PainReport, Restriction
from coachhub.people.queries_levels import levels_on, stages_on

# Older sets no longer say what somebody can lift today.
HISTORY_DAYS: Final = 365
_SET: Final = (
    "pk", "uuid", "supersedes_uuid", "seq", "kind", "card_id", "line_key", "round", "side", "athlete_id",
    "exercise_id", "venue_id", "on_date", "reps", "load_value", "load_unit", "rir_half",
)  # fmt: skip


def athlete_facts(athletes: Sequence[Athlete], exercise_ids: Iterable[int], on_date: date) -> dict[int, AthleteFacts]:
    """Return facts per athlete as of that day, with history for the named exercises only."""
    ids = [athlete.pk for athlete in athletes]
    wanted = set(exercise_ids)
    restrictions, pains = restrictions_of(ids, on_date), pains_of(ids)
    history = _history(ids, wanted, on_date)
    bests, starts = _bests(ids, wanted)
    days = _logged_days(ids)
    levels, stages = levels_on(ids, on_date), stages_on(ids, on_date)
    gaps, own_work = gaps_of(ids, on_date), own_work_of(athletes, on_date)
    return {
        athlete.pk: facts_of(
            athlete,
            on_date,
            logged_days=days.get(athlete.pk, 0),
            restrictions=tuple(restrictions[athlete.pk]),
            pains=tuple(pains[athlete.pk]),
            history=history[athlete.pk],
            bests=bests[athlete.pk],
            starts=starts[athlete.pk],
            levels={family: level.exercise_id for family, level in levels[athlete.pk].items()},
            return_stage=stages[athlete.pk].stage if athlete.pk in stages else 0,
            gaps=gaps[athlete.pk],
            own_work=own_work[athlete.pk],
        )
        for athlete in athletes
    }


def with_history(
    facts: Mapping[int, AthleteFacts], exercise_ids: Iterable[int], on_date: date
) -> dict[int, AthleteFacts]:
    """Return the facts with what is known of some more exercises."""
    ids, wanted = list(facts), set(exercise_ids)
    history = _history(ids, wanted, on_date)
    bests, starts = _bests(ids, wanted)
    return {
        pk: replace(
            own,
            history=dict(sorted({**own.history, **history[pk]}.items())),
            bests={**own.bests, **bests[pk]},
            starts={**own.starts, **starts[pk]},
        )
        for pk, own in facts.items()
    }


def facts_of(athlete: Athlete, on_date: date, **known: Any) -> AthleteFacts:
    """What the athlete's own row says, with the rest that is `known`, by the names of `AthleteFacts`."""
    return AthleteFacts(
        id=athlete.pk,
        age=athlete.age_on(on_date),
        is_minor=athlete.is_minor_on(on_date),
        level=str(athlete.level),
        unit=cast(Any, str(athlete.unit)),
        is_rir_taught=athlete.is_rir_taught,
        **known,
    )


def restrictions_of(athlete_ids: Iterable[int], on_date: date) -> defaultdict[int, list[RestrictionFacts]]:
    """Return every restriction in force; a review date ends nothing, while an exception has a last day."""
    found: defaultdict[int, list[RestrictionFacts]] = defaultdict(list)
    rows = Restriction.objects.standing().filter(athlete__in=list(athlete_ids)).prefetch_related("exceptions")
    for row in rows.order_by("pk"):
        found[row.athlete_id].append(
            RestrictionFacts(
                id=row.pk,
                kind=row.kind,
                region=row.region,
                side=cast(Any, row.side),
                pattern=row.pattern,
                exercise_id=row.exercise_id,
                cap=_mass(row.cap_value, row.cap_unit),
                exceptions=tuple(
                    (e.exercise_id, _mass(e.cap_value, e.cap_unit))
                    for e in row.exceptions.all()
                    if e.until_on is None or e.until_on >= on_date
                ),
            )
        )
    return found


def pains_of(athlete_ids: Iterable[int]) -> defaultdict[int, list[PainFacts]]:
    found: defaultdict[int, list[PainFacts]] = defaultdict(list)
    for row in PainReport.objects.filter(athlete__in=list(athlete_ids), cleared_at=None).order_by("pk"):
        found[row.athlete_id].append(PainFacts(row.pk, row.region, cast(Any, row.side), row.score, row.is_sore_only))
    return found


def counting_entries(
    athlete_ids: Iterable[int], exercise_ids: Iterable[int], *, since: date | None = None
) -> list[SetEntry]:
    """Return the done entries that count, oldest first, with their marks; `since`: of that day on, with their lines."""
    marks = Prefetch("marks", SetMark.objects.order_by("-pk"))
    rows = _entries(athlete_ids, exercise_ids).prefetch_related(marks)
    return _counting(rows.filter(on_date__gte=since).select_related("line") if since else rows)


def _entries(athlete_ids: Iterable[int], exercise_ids: Iterable[int]) -> QuerySet[SetEntry]:
    newer = SetEntry.objects.filter(supersedes_uuid=OuterRef("uuid"), card=OuterRef("card"))
    rows = SetEntry.objects.filter(~Exists(newer), athlete__in=list(athlete_ids), exercise__in=list(exercise_ids))
    return rows.order_by("on_date", "pk")


def _counting(rows: Iterable[SetEntry]) -> list[SetEntry]:
    by_card: dict[int, list[SetEntry]] = {}
    for row in rows:
        by_card.setdefault(row.card_id, []).append(row)
    return [
        counted.fact
        for entries in by_card.values()
        for counted in counting(entries).values()
        if counted.fact.kind == "done"
    ]


def _history(ids: list[int], wanted: set[int], on_date: date) -> dict[int, dict[int, tuple[DoneSet, ...]]]:
    since = on_date - timedelta(days=HISTORY_DAYS)
    found: dict[int, dict[int, list[DoneSet]]] = {pk: {} for pk in ids}
    marks = SetMark.objects.filter(entry=OuterRef("pk")).order_by("-pk").values("quality")[:1]
    rows = _entries(ids, wanted).filter(on_date__gte=since).annotate(quality=Subquery(marks))
    # Plain tuples: a squad's year of sets is read each time that a session is given.
    for entry in _counting(cast(Any, rows.values_list(*_SET, "quality", named=True))):
        found[entry.athlete_id].setdefault(entry.exercise_id, []).append(_done(entry))
    return {pk: {ex: tuple(rows[ex]) for ex in sorted(rows)} for pk, rows in found.items()}


def _done(entry: Any) -> DoneSet:
    return DoneSet(
        entry_id=entry.pk,
        on_date=entry.on_date,
        venue_id=entry.venue_id,
        reps=entry.reps,
        load=_mass(entry.load_value, entry.load_unit),
        rir_half=entry.rir_half,
        is_clean=entry.quality == "clean" if entry.quality else None,
    )


def _bests(ids: list[int], wanted: set[int]) -> tuple[dict[int, dict[int, BestFacts]], dict[int, dict[int, BestFacts]]]:
    """Return the newest known best, and the newest start load of a coach, per athlete and exercise."""
    bests: dict[int, dict[int, BestFacts]] = {pk: {} for pk in ids}
    starts: dict[int, dict[int, BestFacts]] = {pk: {} for pk in ids}
    rows = KnownBest.objects.filter(athlete__in=ids, exercise__in=wanted).order_by("exercise", "-on_date", "-pk")
    for row in rows:
        facts = best_of(row)
        (starts if facts.is_start else bests)[row.athlete_id].setdefault(row.exercise_id, facts)
    return bests, starts


def best_of(row: KnownBest) -> BestFacts:
    load = Mass(row.load_value, cast(Any, row.load_unit))
    return BestFacts(row.pk, load, row.reps, row.rir_half, row.on_date, row.source == BestSource.COACH)


def _logged_days(ids: list[int]) -> dict[int, int]:
    rows = SetEntry.objects.filter(athlete__in=ids, kind="done").order_by().values("athlete")
    return {row["athlete"]: row["days"] for row in rows.annotate(days=Count("on_date", distinct=True))}


def _mass(value: Any, unit: str) -> Mass | None:
    return None if value is None or not unit else Mass(value, cast(Any, unit))
