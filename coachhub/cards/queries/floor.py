"""One assignment as it stands on the floor: who is in which round of which block. Five queries for one or for sixty.

Rows are read as plain tuples, not as sheets: the page is asked for every few seconds by a coach's phone.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any, Final, cast

from django.db.models import Exists, F, OuterRef, Q, QuerySet, Subquery, Value
from django.db.models.functions import Concat

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.cards.models import (
    Assignment,
    Attendance,
    AttendanceStatus,
    Card,
    CardLine,
    CardRevision,
    LineStatus,
    SetEntry,
    SetMark,
    SetQuality,
    StationPlace,
)
from coachhub.coaching.entries import Counted, Slot, counting
from coachhub.coaching.facts import Mass
from coachhub.coaching.slips import is_as_planned, is_far_above
from coachhub.library.models import LoadMeaning
from coachhub.people.models import Athlete, Consent, ConsentKind, Guardianship, PainReport, RedFlag

_ENTRY: Final = (
    "pk", "uuid", "supersedes_uuid", "seq", "kind", "card_id", "line_key", "round", "side", "reps", "time_s",
    "distance_m", "height_cm", "load_value", "load_unit", "is_flagged", "exercise_id", "line__label", "line__name",
)  # fmt: skip
_LINE: Final = (
    "revision_id", "line_key", "group_key", "label", "name", "sets", "per", "status", "exercise_id", "load_meaning",
    "load_value", "load_unit", "load_high",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class FloorSet:
    """One set that counts; `fact` has the columns of an entry.

    `planned`: the load that was planned (low and high end of a range), where another one was taken.
    """

    label: str
    name: str
    fact: SetEntry
    quality: str
    planned: tuple[Mass, ...] = ()
    is_far: bool = False


@dataclass(frozen=True, slots=True)
class FloorCell:
    """One athlete in one block. `marked`: the latest round with a set in it, which is what a mark goes to.

    `marked_sets`: the sets done in that round, in the order of the card.
    `differing`: the set to look at first, far above the plan in any round, else off the plan in the latest one.
    `contested`: where several people wrote the same set, every version, the one that counts first.
    """

    group_key: str
    label: str
    rounds_min: int
    rounds_max: int
    rounds_done: int
    marked: int
    quality: str
    last: FloorSet | None
    differing: FloorSet | None
    marked_sets: tuple[FloorSet, ...]
    contested: tuple[tuple[FloorSet, ...], ...]

    @property
    def is_done(self) -> bool:
        return self.rounds_done >= self.rounds_min


@dataclass(frozen=True, slots=True)
class FloorRow:
    """`minutes_left` of who came late. `place`: where it is not the squad's. `guardian`: name and phone, if any.

    `has_consent`: to strength training, on file.
    """

    card_id: int
    athlete: Athlete
    revision_number: int
    is_begun: bool
    is_absent: bool
    minutes_left: int | None
    station: int | None
    place: str
    has_consent: bool
    guardian: str
    cells: tuple[FloorCell, ...]
    flagged: tuple[FloorSet, ...]


@dataclass(frozen=True, slots=True)
class FloorHead:
    """Which session, for whom, when and where."""

    assignment_id: int
    session: str
    squad: str
    venue: str
    on_date: date

    @property
    def is_coming(self) -> bool:
        return self.on_date > today()


def load_floor(actor: Actor, pk: int) -> tuple[FloorHead, list[FloorRow]]:
    """Return the head and everyone's row, in the order of names, for an assignment that the actor sees."""
    attendance = Attendance.objects.filter(card=OuterRef("card")).order_by("-pk")
    stations = StationPlace.objects.filter(card=OuterRef("card")).order_by("-pk")
    mine = Card.objects.visible_to(actor).filter(assignment=pk)
    revisions = list(
        CardRevision.objects.filter(card__in=mine, number=F("card__revision_number"))
        .select_related("card__athlete")
        .annotate(
            attendance_status=Subquery(attendance.values("status")[:1]),
            minutes_left=Subquery(attendance.values("minutes_left")[:1]),
            station=Subquery(stations.values("number")[:1]),
            guardian=Subquery(_guardian("card__athlete")),
            has_consent=Exists(_consent("card__athlete")),
            place=F("card__venue__name"),
            session_name=F("card__assignment__session__name"),
            squad_name=F("card__assignment__squad__name"),
            venue_name=F("card__assignment__venue__name"),
            on_date=F("card__assignment__on_date"),
        )
        .order_by("card__athlete__search_key", "card")
    )
    if not revisions:
        return _bare_head(pk), []
    lines = _lines([revision.pk for revision in revisions])
    entries = _entries([revision.card_id for revision in revisions])
    first: Any = revisions[0]
    head = FloorHead(pk, first.session_name, first.squad_name or "", first.venue_name, first.on_date)
    return head, [_row(revision, lines[revision.pk], entries[revision.card_id]) for revision in revisions]


def _guardian(athlete: str) -> QuerySet[Guardianship, Any]:
    """Name and phone of the first guardian who has one."""
    rows = Guardianship.objects.filter(athlete=OuterRef(athlete), guardian__archived_at=None)
    called = rows.exclude(guardian__phone="").annotate(call=Concat("guardian__name", Value(" "), "guardian__phone"))
    return called.order_by("pk").values("call")[:1]


def _consent(athlete: str) -> QuerySet[Consent]:
    return Consent.objects.filter(athlete=OuterRef(athlete), kind=ConsentKind.TRAINING, withdrawn_on=None)


def _bare_head(pk: int) -> FloorHead:
    """Of an assignment without a card that the actor sees."""
    row = Assignment.objects.select_related("session", "squad", "venue").get(pk=pk)
    return FloorHead(pk, row.session.name, row.squad.name if row.squad else "", row.venue.name, row.on_date)


def _lines(revision_ids: Collection[int]) -> dict[int, dict[str, Any]]:
    """Return per revision its lines by key, those left out too: a set may have been done on one before it went."""
    found: defaultdict[int, dict[str, Any]] = defaultdict(dict)
    rows = CardLine.objects.filter(revision__in=revision_ids).order_by("position", "pk")
    for row in rows.values_list(*_LINE, named=True):
        found[row.revision_id][row.line_key] = row
    return found


def _entries(card_ids: Collection[int]) -> dict[int, list[SetEntry]]:
    found: defaultdict[int, list[SetEntry]] = defaultdict(list)
    marks = SetMark.objects.filter(entry=OuterRef("pk")).order_by("-pk")
    rows = SetEntry.objects.filter(card__in=card_ids).annotate(quality=Subquery(marks.values("quality")[:1]))
    for row in rows.order_by("pk").values_list(*_ENTRY, "quality", named=True):
        found[row.card_id].append(cast(SetEntry, row))
    return found


def _row(revision: Any, lines: Mapping[str, Any], entries: Iterable[SetEntry]) -> FloorRow:
    card = revision.card
    counted = counting(entries)
    flagged = [_set(c.fact) for c in counted.values() if c.fact.is_flagged and c.fact.kind == "done"]
    return FloorRow(
        card_id=card.pk,
        athlete=card.athlete,
        revision_number=card.revision_number,
        is_begun=card.started_at is not None,
        is_absent=revision.attendance_status == AttendanceStatus.ABSENT,
        minutes_left=revision.minutes_left,
        station=revision.station,
        place=revision.place or "",
        has_consent=revision.has_consent,
        guardian=revision.guardian or "",
        cells=tuple(_cell(plan, lines, counted) for plan in revision.layout if plan["label"]),
        flagged=tuple(sorted(flagged, key=lambda one: one.fact.pk)),
    )


def _cell(plan: Mapping[str, Any], lines: Mapping[str, Any], counted: Mapping[Slot, Counted[SetEntry]]) -> FloorCell:
    mine = [line for line in lines.values() if line.group_key == plan["key"]]
    planned = [line for line in mine if line.status == LineStatus.PLANNED]
    keys = {line.line_key: line for line in mine}
    own = [c for slot, c in counted.items() if slot[0] in keys]
    latest = max(own, key=lambda c: (c.fact.seq, c.fact.pk), default=None)
    marked = max((c.fact.round for c in own if c.fact.kind == "done"), default=0)
    sets = [_set(c.fact, line) for key, line in keys.items() for c in own if c.fact.line_key == key]
    marked_sets = tuple(one for one in sets if one.fact.round == marked and one.fact.kind == "done")
    marks = {one.quality for one in marked_sets}
    return FloorCell(
        group_key=plan["key"],
        label=plan["label"],
        rounds_min=plan["rounds_min"],
        rounds_max=plan["rounds_max"],
        rounds_done=_rounds_done(plan["rounds_max"], planned, counted),
        marked=marked,
        quality=marks.pop() if len(marks) == 1 else "",
        last=_set(latest.fact) if latest else None,
        differing=_differing(sets, latest.fact.round) if latest else None,
        marked_sets=marked_sets,
        contested=tuple(tuple(map(_set, (c.fact, *c.rivals))) for c in own if c.is_contested),
    )


def _rounds_done(rounds: int, lines: Collection[Any], counted: Mapping[Slot, Counted[SetEntry]]) -> int:
    """How many rounds are written in full; a round that no line reaches any more does not count."""
    return sum(
        1
        for number in range(1, rounds + 1)
        if any(number <= line.sets for line in lines)
        and all(_is_written(line, number, counted) for line in lines if number <= line.sets)
    )


def _is_written(line: Any, number: int, counted: Mapping[Slot, Counted[SetEntry]]) -> bool:
    sides = ("left", "right") if line.per == "side" else ("both",)
    return (line.line_key, number, "both") in counted or all((line.line_key, number, s) in counted for s in sides)


def _differing(sets: Iterable[FloorSet], latest: int) -> FloorSet | None:
    """A slip stays in sight until it is put right or seen; an honest difference only as long as it is news."""
    told = [one for one in sets if one.planned and (one.is_far or one.fact.round == latest)]
    return max(told, key=lambda one: (one.is_far, one.fact.round), default=None)


def _set(fact: Any, line: Any = None) -> FloorSet:
    """Named by the line it was written on, which a later revision may no longer have."""
    planned = _planned_instead(fact, line) if line else ()
    is_far = bool(planned) and fact.quality != SetQuality.CLEAN and _is_far(fact, line, planned[-1])
    return FloorSet(fact.line__label, fact.line__name, fact, fact.quality or "", planned, is_far)


def _planned_instead(fact: Any, line: Any) -> tuple[Mass, ...]:
    """The planned load, low and high end, where the set has another one of the same exercise; else nothing."""
    done, low, high = fact.load_value, line.load_value, line.load_high or line.load_value
    if fact.kind != "done" or done is None or low is None or fact.exercise_id != line.exercise_id:
        return ()
    if fact.load_unit == line.load_unit and low <= done <= high:
        return ()
    planned = Mass(low, line.load_unit), Mass(high, line.load_unit)
    if is_as_planned(Mass(done, fact.load_unit), *planned):
        return ()
    return planned if line.load_high else planned[:1]


def _is_far(fact: Any, line: Any, planned: Mass) -> bool:
    """Much more help than planned is no danger; numbers of plates are no kilograms."""
    if line.load_meaning == LoadMeaning.ASSISTANCE or "pl" in (fact.load_unit, planned.unit):
        return False
    return is_far_above(Mass(fact.load_value, fact.load_unit).kg, planned.kg, is_new=False)


def flags_and_pains(athlete_ids: Collection[int]) -> tuple[list[RedFlag], list[PainReport]]:
    """Return what nobody has cleared, the latest first. Two queries."""
    asks = Q(score__gt=0) | Q(is_sore_only=True)
    flags = RedFlag.objects.filter(athlete__in=athlete_ids, cleared_at=None)
    pains = PainReport.objects.filter(asks, athlete__in=athlete_ids, cleared_at=None)
    return list(flags), list(pains)
