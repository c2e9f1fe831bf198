"""Levels in families of exercises: of an athlete, of a squad, and the steps that their sets speak for."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.db.models import Q
from django.utils.translation import gettext as _

from coachhub.base.actor import READERS, Actor
from coachhub.base.clock import today
from coachhub.cards.actions.levels import step_reason
from coachhub.cards.models import Assignment
from coachhub.cards.queries.levels import Places, ProposedStep, families_of, places_of, proposed_steps
from coachhub.cards.queries.own_list import left_behind
from coachhub.desk.pages.own import behind_words, url
from coachhub.library.models import Exercise
from coachhub.library.queries import family_names
from coachhub.people.models import Athlete, AthleteLevel, Squad
from coachhub.people.queries_levels import levels_in, levels_told


@dataclass(frozen=True, slots=True)
class LevelRow:
    family: str
    variation: str
    from_on: date
    reason: str
    by: str

    @classmethod
    def of(cls, row: Any) -> LevelRow:
        variation = row.exercise.name if row.exercise else _("as the session is written")
        return cls(row.family, variation, row.from_on, row.reason, row.set_by.staff.name)


@dataclass(frozen=True, slots=True)
class StepRow:
    step: ProposedStep
    key: str
    written: str
    why: str

    @classmethod
    def of(cls, step: ProposedStep) -> StepRow:
        level: Any = step.level
        return cls(step, key_of(step), level.exercise.name, step_reason(step))


@dataclass(frozen=True, slots=True)
class LevelsPart:
    """On the athlete's page."""

    athlete_pk: int
    now: tuple[tuple[str, str], ...]
    steps: tuple[StepRow, ...]
    may_change: bool


@dataclass(frozen=True, slots=True)
class AthleteLevels:
    """`now`: the newest of each family; `past`: those before it, and those to come."""

    athlete: Athlete
    now: tuple[LevelRow, ...]
    past: tuple[LevelRow, ...]
    steps: tuple[StepRow, ...]
    behind: tuple[Assignment, ...]
    may_change: bool

    @classmethod
    def of(cls, actor: Actor, athlete: Athlete) -> AthleteLevels:
        rows = levels_told(athlete)
        newest = {row.family: row.pk for row in reversed(rows) if row.from_on <= today()}
        return cls(
            athlete=athlete,
            now=tuple(LevelRow.of(row) for row in rows if newest.get(row.family) == row.pk),
            past=tuple(LevelRow.of(row) for row in rows if newest.get(row.family) != row.pk),
            steps=step_rows([athlete]),
            behind=tuple(left_behind(actor, today(), Q(pk=athlete.pk))),
            may_change=actor.may_write,
        )

    @property
    def answer_url(self) -> str:
        return url("athlete_steps", self.athlete.pk)

    @property
    def behind_words(self) -> str:
        return behind_words(self.behind)


@dataclass(frozen=True, slots=True)
class Rung:
    """A variation, and who is there."""

    exercise: Exercise
    names: str


@dataclass(frozen=True, slots=True)
class SquadLevels:
    """`families`: those in which somebody has a level, each easiest first."""

    squad: Squad
    steps: tuple[StepRow, ...]
    families: tuple[tuple[str, tuple[Rung, ...]], ...]
    behind: tuple[Assignment, ...]
    may_change: bool

    @classmethod
    def of(cls, actor: Actor, squad: Squad) -> SquadLevels:
        athletes = members_of(squad)
        places = places_of(athletes, today())
        return cls(
            squad=squad,
            steps=_step_rows(athletes, places),
            families=ladders(athletes, places),
            behind=tuple(left_behind(actor, today(), Q(memberships__squad=squad))),
            may_change=actor.may_write,
        )

    @property
    def answer_url(self) -> str:
        return url("squad_steps", self.squad.pk)

    @property
    def behind_words(self) -> str:
        return behind_words(self.behind)


@dataclass(frozen=True, slots=True)
class LevelStep:
    """On the page of an exercise's history: where the athlete is in its family, and the next step either way."""

    family: str
    current: Exercise
    is_set: bool
    up: Exercise | None
    down: Exercise | None
    reason: str
    proposed: str = ""

    @classmethod
    def of(cls, athlete: Athlete, exercise: Exercise) -> LevelStep | None:
        """None for an exercise without a family."""
        members = families_of([exercise.family]).get(exercise.family, []) if exercise.family else []
        places = places_of([athlete], today())
        level = places.levels[athlete.pk].get(exercise.family)
        current = next((one for one in members if one.pk == (level.exercise_id if level else exercise.pk)), None)
        if current is None:
            return None
        place = members.index(current)
        proposal = next(
            (one for one in proposed_steps([athlete], places, today()) if one.family == exercise.family), None
        )
        return cls(
            family=exercise.family,
            current=current,
            is_set=level is not None,
            up=members[place + 1] if place + 1 < len(members) else None,
            down=members[place - 1] if place else None,
            reason=step_reason(proposal) if proposal else by_eye(),
            proposed=("up" if proposal.is_up else "down") if proposal else "",
        )

    def to(self, step: str) -> Exercise | None:
        return self.up if step == "up" else self.down

    def reason_of(self, step: str, written: str) -> str:
        """What the sets speak for is no reason for a step the other way."""
        return by_eye() if self.proposed not in ("", step) and written == self.reason else written


def by_eye() -> str:
    return _("as the coach saw it")


def levels_part(actor: Actor, athlete: Athlete) -> LevelsPart | None:
    """None for whoever reads no training."""
    if actor.kind not in READERS:
        return None
    places = places_of([athlete], today())
    told = ((family, row.exercise.name) for family, row in places.levels[athlete.pk].items() if row.exercise)
    return LevelsPart(athlete.pk, tuple(told), _step_rows([athlete], places), actor.may_write)


def step_rows(athletes: Sequence[Athlete]) -> tuple[StepRow, ...]:
    return _step_rows(athletes, places_of(athletes, today()))


def _step_rows(athletes: Sequence[Athlete], places: Places) -> tuple[StepRow, ...]:
    return tuple(map(StepRow.of, proposed_steps(athletes, places, today())))


def key_of(step: ProposedStep) -> str:
    """Names the step in a form: whose, where to."""
    return f"{step.athlete.pk}-{step.to.pk}"


def ladders(athletes: Sequence[Athlete], places: Places) -> tuple[tuple[str, tuple[Rung, ...]], ...]:
    names = {one.pk: one.name for one in athletes}
    there = _by_exercise((row for own in places.levels.values() for row in own.values()), names)
    return tuple(
        (family, tuple(Rung(one, there[one.pk]) for one in members)) for family, members in places.families.items()
    )


def family_rungs(actor: Actor, members: Sequence[Exercise]) -> tuple[Rung, ...]:
    """The family with who is where; without names for whoever reads no training."""
    rows = levels_in(actor, members[0].family, today()) if members and actor.kind in READERS else []
    there = _by_exercise(rows, {row.athlete_id: row.athlete.name for row in rows})
    return tuple(Rung(one, there[one.pk]) for one in members)


def _by_exercise(rows: Iterable[AthleteLevel], names: dict[int, str]) -> defaultdict[int, str]:
    found: defaultdict[int, list[str]] = defaultdict(list)
    for row in rows:
        found[row.exercise_id or 0].append(names[row.athlete_id])
    return defaultdict(str, {pk: "; ".join(own) for pk, own in found.items()})


def all_families() -> dict[str, list[Exercise]]:
    return families_of(family_names())


def members_of(squad: Squad) -> list[Athlete]:
    return list(Athlete.objects.members_of(squad.pk, today()))
