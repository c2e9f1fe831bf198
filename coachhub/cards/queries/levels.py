"""Steps in a family that the sets of an athlete speak for."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from typing import Final

from coachhub.cards.models import SetEntry
from coachhub.cards.queries.athlete_facts import counting_entries
from coachhub.coaching.facts import Note
from coachhub.coaching.levels import LevelSet, propose
from coachhub.library.models import Exercise
from coachhub.people.models import Athlete, AthleteLevel
from coachhub.people.queries_levels import levels_on

# Two sessions running fall within these, or say nothing of today.
RECENT_DAYS: Final = 60
# What is counted of a set, by the kind of amount on its line.
_AMOUNT: Final = {"reps": "reps", "contacts": "reps", "time": "time_s", "hold": "time_s", "distance": "distance_m"}


@dataclass(frozen=True, slots=True)
class ProposedStep:
    """From the athlete's level to its neighbour, with why."""

    athlete: Athlete
    level: AthleteLevel
    to: Exercise
    is_up: bool
    trace: tuple[Note, ...]

    @property
    def family(self) -> str:
        return self.level.family


@dataclass(frozen=True, slots=True)
class Places:
    """Per athlete and family the level that counts; the members of those families, easiest first."""

    levels: dict[int, dict[str, AthleteLevel]]
    families: dict[str, list[Exercise]]


def places_of(athletes: Sequence[Athlete], day: date) -> Places:
    levels = levels_on([one.pk for one in athletes], day)
    return Places(levels, families_of({family for own in levels.values() for family in own}))


def proposed_steps(athletes: Sequence[Athlete], places: Places, day: date) -> list[ProposedStep]:
    """In the order of the athletes, for levels that a coach has set; as many queries for one as for thirty."""
    levels, families = places.levels, places.families
    exercise_ids = {row.exercise_id for own in levels.values() for row in own.values() if row.exercise_id}
    since = day - timedelta(days=RECENT_DAYS)
    sets = _sets([pk for pk, own in levels.items() if own], exercise_ids, since) if exercise_ids else {}
    steps = []
    for athlete in athletes:
        for family, level in levels[athlete.pk].items():
            members = {one.pk: one for one in families.get(family, ())}
            current = level.exercise_id or 0
            found = propose(tuple(members), current, level.from_on, sets.get((athlete.pk, current), ()), day)
            if found:
                steps.append(ProposedStep(athlete, level, members[found.to_id], found.step == "up", found.trace))
    return steps


def families_of(names: Collection[str]) -> dict[str, list[Exercise]]:
    """The members in use of each family, easiest first."""
    found: defaultdict[str, list[Exercise]] = defaultdict(list)
    rows = Exercise.objects.live().filter(family__in=names) if names else Exercise.objects.none()
    for row in rows.order_by("family", "family_rank", "search_key", "pk"):
        found[row.family].append(row)
    return dict(found)


def _sets(
    athlete_ids: Collection[int], exercise_ids: Collection[int], since: date
) -> dict[tuple[int, int], list[LevelSet]]:
    found: defaultdict[tuple[int, int], list[LevelSet]] = defaultdict(list)
    for entry in counting_entries(athlete_ids, exercise_ids, since=since):
        if (one := _set(entry)) is not None:
            found[entry.athlete_id, entry.exercise_id].append(one)
    return found


def _set(entry: SetEntry) -> LevelSet | None:
    """None where another amount was written than the line asked for, or another exercise stood on it."""
    line = entry.line
    amount = getattr(entry, _AMOUNT[line.dose_kind])
    if amount is None or line.exercise_id != entry.exercise_id:
        return None
    quality = next((mark.quality for mark in entry.marks.all()), "")
    return LevelSet(
        entry.pk,
        entry.on_date,
        Decimal(amount),
        line.low,
        line.high or line.low,
        quality == "clean" if quality else None,
    )
