"""How long a session takes, part by part and block by block, against the slot it has.

Every range counts at its upper end: what is written has to fit. Defaults are named below; whatever the coach has
written (tempo, seconds, rests, minutes of a part) goes before them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil
from typing import Final

from coachhub.coaching.notation import Dose
from coachhub.science.duration import block_seconds, whole_minutes, work_seconds
from coachhub.science.tempo import parse_tempo, seconds_per_rep

# All defaults: common practice.
REP_S: Final = 3
CONTACT_S: Final = 2  # a jump and standing ready for the next
METRE_S: Final = 1  # the pace of a loaded carry, or of a run with the walk back
SETUP_S: Final = 60  # a bar or a machine is set up and loaded
LIGHT_SETUP_S: Final = 30  # hand weights, bands, the floor
CHANGE_OVER_S: Final = 30
LIGHT_CHANGE_OVER_S: Final = 15
RAMP_UP_REPS: Final = 5
RAMP_UP_REST_S: Final = 60  # plates are changed meanwhile


@dataclass(frozen=True, slots=True)
class TimedLine:
    """`sets`: the most that are done; `is_loaded_up`: a bar or a machine has to be made ready for it."""

    dose: Dose
    sets: int
    ramp_up_sets: int = 0
    rest_after_s: int = 0
    directions: int = 1
    is_loaded_up: bool = False


@dataclass(frozen=True, slots=True)
class TimedBlock:
    """`rest_s`: the longest rest between rounds that is written, None where none is."""

    label: str
    rounds: int
    lines: tuple[TimedLine, ...]
    rest_s: int | None = None
    rest_after_s: int = 0
    is_optional: bool = False

    @property
    def is_loaded_up(self) -> bool:
        return any(line.is_loaded_up for line in self.lines)


@dataclass(frozen=True, slots=True)
class TimedPart:
    """`minutes`: the time the coach gives it, whatever is in it."""

    kind: str
    blocks: tuple[TimedBlock, ...]
    minutes: int | None = None


@dataclass(frozen=True, slots=True)
class BlockTime:
    label: str
    seconds: int
    is_optional: bool
    has_no_rest: bool

    @property
    def minutes(self) -> int:
        return whole_minutes(self.seconds)


@dataclass(frozen=True, slots=True)
class PartTime:
    """`seconds` counts; `written_s` is what its blocks come to, which may be more than its fixed minutes."""

    kind: str
    seconds: int
    written_s: int
    is_fixed: bool
    blocks: tuple[BlockTime, ...]

    @property
    def minutes(self) -> int:
        return whole_minutes(self.seconds)

    @property
    def is_overfull(self) -> bool:
        return self.written_s > self.seconds


@dataclass(frozen=True, slots=True)
class SessionTime:
    slot_minutes: int
    parts: tuple[PartTime, ...]

    @property
    def seconds(self) -> int:
        return sum(part.seconds for part in self.parts)

    @property
    def minutes(self) -> int:
        return whole_minutes(self.seconds)

    @property
    def free_minutes(self) -> int:
        """Negative by as much as it goes over the slot."""
        return self.slot_minutes - self.minutes

    @property
    def minutes_without_optional(self) -> int:
        """Blocks marked optional left out; those of a part with fixed minutes give nothing back."""
        blocks = (block for part in self.parts if not part.is_fixed for block in part.blocks)
        spared = sum(block.seconds for block in blocks if block.is_optional)
        return whole_minutes(self.seconds - spared)


def time_session(parts: Sequence[TimedPart], slot_minutes: int) -> SessionTime:
    """Return the time of each part and block. The rest after the very last block is not counted."""
    last = next((block for part in reversed(parts) for block in reversed(part.blocks) if block.lines), None)
    return SessionTime(slot_minutes, tuple(_time_part(part, last) for part in parts))


def _time_part(part: TimedPart, last: TimedBlock | None) -> PartTime:
    blocks = tuple(_time_block(block, is_last=block is last) for block in part.blocks)
    written_s = sum(block.seconds for block in blocks)
    is_fixed = part.minutes is not None
    return PartTime(part.kind, 60 * (part.minutes or 0) if is_fixed else written_s, written_s, is_fixed, blocks)


def _time_block(block: TimedBlock, *, is_last: bool) -> BlockTime:
    rounds = [going for n in range(block.rounds) if (going := [line for line in block.lines if line.sets > n])]
    has_no_rest = block.rest_s is None and len(rounds) > 1 and not any(line.rest_after_s for line in block.lines)
    if not rounds:
        return BlockTime(block.label, 0, block.is_optional, has_no_rest=False)
    seconds = (
        (SETUP_S if block.is_loaded_up else LIGHT_SETUP_S)
        + sum(ramp_up_seconds(line) for line in block.lines)
        + sum(_round_seconds(block, going) for going in rounds)
        + sum(_rest_seconds(block, going) for going in rounds[:-1])
        + (0 if is_last else block.rest_after_s)
    )
    return BlockTime(block.label, seconds, block.is_optional, has_no_rest)


def _round_seconds(block: TimedBlock, going: Sequence[TimedLine]) -> int:
    """One round. The way to the next exercise lies within the rest before it, where one is written."""
    change_over_s = _change_over(block)
    longer = [max(0, line.rest_after_s - change_over_s) for line in going[:-1]]
    works_s = [set_seconds(line) + extra for line, extra in zip(going, [*longer, 0], strict=True)]
    return block_seconds(setup_s=0, rounds=1, works_s=works_s, change_over_s=change_over_s, rest_s=0)


def _rest_seconds(block: TimedBlock, going: Sequence[TimedLine]) -> int:
    """Between this round and the next: at the least the way back to the first exercise."""
    way_back_s = _change_over(block) if len(going) > 1 else 0
    return max(block.rest_s or 0, going[-1].rest_after_s, way_back_s)


def _change_over(block: TimedBlock) -> int:
    return CHANGE_OVER_S if block.is_loaded_up else LIGHT_CHANGE_OVER_S


def set_seconds(line: TimedLine) -> int:
    """Return the seconds of one set, both sides or every direction included."""
    return _amount_seconds(line, ceil(line.dose.high or line.dose.low))


def ramp_up_seconds(line: TimedLine) -> int:
    """Return the seconds of the lighter sets before the first hard one, with a rest after each."""
    reps = min(RAMP_UP_REPS, ceil(line.dose.high or line.dose.low)) if line.dose.kind == "reps" else 0
    work_s = _amount_seconds(line, reps) if reps else set_seconds(line)
    return line.ramp_up_sets * (work_s + RAMP_UP_REST_S)


def _amount_seconds(line: TimedLine, amount: int) -> int:
    dose = line.dose
    times = {"side": 2, "direction": max(1, line.directions)}.get(dose.per, 1)
    each_s = {"contacts": CONTACT_S, "distance": METRE_S, "time": 1, "hold": 1}.get(dose.kind, REP_S)
    if dose.kind == "reps" and dose.tempo:
        each_s = seconds_per_rep(parse_tempo(dose.tempo))
    return work_seconds(amount, each_s, times)
