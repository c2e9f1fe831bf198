"""A session as the checks read it: each line with its exercise, its label, its effort and its time.

How heavy a line is comes from its percentage, else from its repetitions and reserve by the rep-max table, at the top
of every range, as loads are.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import count, groupby
from typing import Final

from coachhub.coaching.coverage import PRIMARY
from coachhub.coaching.facts import ExerciseFacts, GroupFacts, LineFacts, SessionFacts
from coachhub.coaching.review.findings import Where
from coachhub.coaching.timing import TimedBlock, TimedLine, TimedPart
from coachhub.science.rep_max import MOST_REPS, percent_for_reps

SPEED: Final = frozenset({"jump", "landing", "sprint", "agility"})
THROWN: Final = frozenset({"medicine_ball", "slam_ball"})
LEGS: Final = frozenset({"hinge", "squat", "lunge"})
UNLOADED: Final = frozenset({"none", "assistance"})
LOADED_UP: Final = frozenset({"bar_total", "machine"})
ONE_SIDED: Final = frozenset({"unilateral", "alternating"})
# The strength and power rows of the handbook's loading by goal: up to 6 repetitions from 85 %, up to 5 from 75 %.
STRENGTH_REPS, STRENGTH_PERCENT = 6, 85
POWER_REPS, POWER_PERCENT = 5, 75
# From here on legs are still heavy two days later (common practice; the handbook's power rows end and strength begins).
HEAVY_PERCENT: Final = 80


@dataclass(frozen=True, slots=True)
class ReadLine:
    facts: LineFacts
    exercise: ExerciseFacts
    group: GroupFacts
    label: str

    @property
    def where(self) -> Where:
        return Where(self.facts.key, self.label)

    @property
    def is_strength(self) -> bool:
        return self.group.segment == "strength"

    @property
    def is_speed(self) -> bool:
        """Jumps, landings, sprints, changes of direction and throws: done fresh and fast, or not at all."""
        kinds = {kind for group in self.exercise.needs for kind in group}
        return bool(SPEED & set(self.exercise.patterns) or THROWN & kinds)

    @property
    def is_jump(self) -> bool:
        return "jump" in self.exercise.patterns

    @property
    def is_loaded(self) -> bool:
        """It takes a load and is written with one; `added` to the body counts once something is said of it."""
        meaning = self.exercise.load_meaning
        return meaning not in UNLOADED and (meaning != "added" or self.facts.dose.rule != "none")

    @property
    def main(self) -> str:
        """The pattern that comes round again: the first; what is done for speed is none of its lift's."""
        if self.is_jump:
            return "jump"
        if self.is_speed:
            return next((pattern for pattern in self.exercise.patterns if pattern in SPEED), "throw")
        return next(iter(self.exercise.patterns), "")

    @property
    def primary(self) -> str:
        """The primary pattern its hard sets count for; none for what is done for speed."""
        if self.is_speed:
            return ""
        return next((pattern for pattern in self.exercise.patterns if pattern in PRIMARY), "")

    @property
    def reps(self) -> int | None:
        """Of one side, at the top of the range; None where it is not counted in repetitions."""
        dose = self.facts.dose
        return int(dose.high or dose.low) if dose.kind in {"reps", "contacts"} else None

    @property
    def written_percent(self) -> float | None:
        dose = self.facts.dose
        percent = dose.percent_high or dose.percent
        return None if dose.rule != "percent" or percent is None else float(percent)

    @property
    def percent(self) -> float | None:
        """Of the one-repetition maximum, as far as the dose says so."""
        dose, reps = self.facts.dose, self.reps
        if self.written_percent is not None:
            return self.written_percent
        if dose.kind != "reps" or reps is None or dose.rir_half is None or reps + dose.rir_half / 2 > MOST_REPS:
            return None
        return percent_for_reps(reps, dose.rir_half / 2)

    @property
    def is_heavy(self) -> bool:
        """In the handbook's rows of strength or power. Where nothing tells, a bar for so few repetitions is."""
        reps, percent = self.reps, self.percent
        if not self.is_strength or self.is_speed or not self.is_loaded or reps is None:
            return False
        if percent is None:
            return reps <= POWER_REPS and self.exercise.load_meaning == "bar_total"
        is_power = reps <= POWER_REPS and percent >= POWER_PERCENT
        return is_power or (reps <= STRENGTH_REPS and percent >= STRENGTH_PERCENT)

    @property
    def is_heavy_for_legs(self) -> bool:
        return self.primary in LEGS and self.is_heavy and (self.percent or HEAVY_PERCENT) >= HEAVY_PERCENT

    @property
    def contacts(self) -> int:
        """Ground contacts of jumps and landings over all its sets."""
        patterns = self.exercise.patterns
        is_landing = "landing" in patterns and "agility" not in patterns
        if not (self.is_jump or is_landing) or self.reps is None:
            return 0
        times = {"side": 2, "direction": max(1, len(self.facts.directions))}.get(self.facts.dose.per, 1)
        return self.reps * times * self.facts.sets

    @property
    def timed(self) -> TimedLine:
        line = self.facts
        directions = len(line.directions) or 1
        is_loaded_up = self.exercise.load_meaning in LOADED_UP
        return TimedLine(line.dose, line.sets, line.ramp_up_sets, line.rest_after_s, directions, is_loaded_up)


@dataclass(frozen=True, slots=True)
class ReadBlock:
    group: GroupFacts
    lines: tuple[ReadLine, ...]

    @property
    def where(self) -> Where:
        return Where(self.group.key, self.group.label)

    @property
    def is_heavy(self) -> bool:
        """A block for strength or power."""
        return any(line.is_heavy for line in self.lines)

    @property
    def is_loaded_up(self) -> bool:
        """A bar or a machine is in it, so that going from one exercise to the next takes longer."""
        return any(line.exercise.load_meaning in LOADED_UP for line in self.lines)

    @property
    def timed(self) -> TimedBlock:
        group = self.group
        rest_s = group.rest_min_s if group.rest_max_s is None else group.rest_max_s
        lines = tuple(line.timed for line in self.lines)
        return TimedBlock(group.label, group.rounds_max, lines, rest_s, group.rest_after_s or 0, group.is_optional)


@dataclass(frozen=True, slots=True)
class ReadSession:
    facts: SessionFacts
    blocks: tuple[ReadBlock, ...]

    @property
    def lines(self) -> tuple[ReadLine, ...]:
        return tuple(line for block in self.blocks for line in block.lines)

    @property
    def parts(self) -> tuple[TimedPart, ...]:
        """To be timed; neighbouring blocks of one kind are one part."""
        return tuple(_part(list(blocks)) for _key, blocks in groupby(self.blocks, lambda one: _part_key(one.group)))

    @property
    def is_strength(self) -> bool:
        return any(line.is_strength for line in self.lines)

    @property
    def heavy_legs(self) -> tuple[ReadLine, ...]:
        return tuple(line for line in self.lines if line.is_heavy_for_legs)

    @property
    def contacts(self) -> int:
        return sum(line.contacts for line in self.lines)


def read(session: SessionFacts) -> ReadSession:
    """Lines of parts without letters are counted through the part."""
    blocks: list[ReadBlock] = []
    for _part_of, groups in groupby(session.groups, _part_key):
        blocks += _read_part(session, list(groups))
    return ReadSession(session, tuple(blocks))


def _read_part(session: SessionFacts, groups: Sequence[GroupFacts]) -> Iterator[ReadBlock]:
    through = count(1)
    for group in groups:
        numbers = count(1) if group.label else through
        lines = [
            ReadLine(line, session.exercises[line.exercise_id], group, f"{group.label}{next(numbers)}")
            for line in group.lines
        ]
        yield ReadBlock(group, tuple(lines))


def _part_key(group: GroupFacts) -> tuple[str, int | None]:
    return group.segment, group.segment_minutes


def _part(blocks: Sequence[ReadBlock]) -> TimedPart:
    group = blocks[0].group
    return TimedPart(group.segment, tuple(block.timed for block in blocks), group.segment_minutes)


def sets_of(line: ReadLine) -> int:
    """Hard sets that can be counted on: none where the block is only done if there is time."""
    return 0 if line.group.is_optional or not line.is_strength else line.facts.sets
