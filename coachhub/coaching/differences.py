"""What two resolutions of one session say differently for the same athlete, line by line."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal

Aspect = Literal[
    "exercise", "block", "sets", "amount", "load", "reserve", "tempo", "ramp_ups", "rest", "cue", "rounds", "round_rest"
]
Kind = Literal["new", "gone", "left_out", "back", "changed"]

# In the order in which they matter to whoever reads the card.
OF_A_LINE: Final[tuple[Aspect, ...]] = (
    "exercise", "block", "sets", "amount", "load", "reserve", "tempo", "ramp_ups", "rest", "cue",
)  # fmt: skip
OF_A_BLOCK: Final[tuple[Aspect, ...]] = ("rounds", "round_rest")


@dataclass(frozen=True, slots=True)
class Said:
    """A line, or a block, as one resolution has it: its key and the value of each aspect."""

    key: str
    values: Mapping[Aspect, Hashable]
    is_left_out: bool = False


@dataclass(frozen=True, slots=True)
class Difference:
    """`aspects` of a line or block that changed; empty for one that comes, goes or is left out."""

    key: str
    kind: Kind
    aspects: tuple[Aspect, ...] = ()


def differences(before: Sequence[Said], after: Sequence[Said], aspects: Sequence[Aspect]) -> tuple[Difference, ...]:
    """Return what changed, in the order of `after`, then what is gone. A line left out before and after is no change.

    Order alone is no difference: a line that only stands elsewhere in its block is trained the same.
    """
    was = {one.key: one for one in before}
    found = [_difference(was.get(one.key), one, aspects) for one in after]
    kept = {one.key for one in after}
    gone = [Difference(one.key, "gone") for one in before if one.key not in kept and not one.is_left_out]
    return tuple(one for one in (*found, *gone) if one is not None)


def _difference(was: Said | None, now: Said, aspects: Sequence[Aspect]) -> Difference | None:
    if was is None:
        return Difference(now.key, "left_out" if now.is_left_out else "new")
    if was.is_left_out != now.is_left_out:
        return Difference(now.key, "left_out" if now.is_left_out else "back")
    changed = tuple(one for one in aspects if was.values[one] != now.values[one])
    return Difference(now.key, "changed", changed) if changed and not now.is_left_out else None
