"""Lifting tempo: four signs for lowering, pause, raising, pause."""

import re
from dataclasses import dataclass

X_COUNTS_AS_S = 1
"""What "as fast as possible" is counted as when times are summed."""

_TEMPO = re.compile(r"[0-9X][0-9][0-9X][0-9]")


@dataclass(frozen=True, slots=True)
class Tempo:
    """Seconds of each phase; None in a moving phase is X, as fast as possible."""

    eccentric_s: int | None
    bottom_s: int
    concentric_s: int | None
    top_s: int

    def __str__(self) -> str:
        phases = (self.eccentric_s, self.bottom_s, self.concentric_s, self.top_s)
        return "".join("X" if phase is None else str(phase) for phase in phases)


def parse_tempo(text: str) -> Tempo:
    """Read a tempo such as 3110 or 20X1 (x may be small); ValueError for anything else.

    The first figure is always the lowering, even where the lift starts at the bottom.
    Source: common practice, notation of eccentric, bottom, concentric, top.
    """
    written = text.upper()
    if not _TEMPO.fullmatch(written) or written == "0000":
        raise ValueError(f"tempo must be four figures such as 3110 or 20X1, not {text!r}")
    eccentric, bottom, concentric, top = (None if c == "X" else int(c) for c in written)
    return Tempo(eccentric, bottom or 0, concentric, top or 0)


def seconds_per_rep(tempo: Tempo, *, x_counts_as_s: int = X_COUNTS_AS_S) -> int:
    """Return the seconds of one repetition.

    Source: common practice, the sum of the four phases, X counted as one second.
    """
    moving = (tempo.eccentric_s, tempo.concentric_s)
    return tempo.bottom_s + tempo.top_s + sum(x_counts_as_s if s is None else s for s in moving)


def time_under_tension_s(tempo: Tempo, reps: int, *, x_counts_as_s: int = X_COUNTS_AS_S) -> int:
    """Return the seconds of a set; ValueError for negative repetitions.

    Source: common practice, repetitions times the sum of the four phases.
    """
    if reps < 0:
        raise ValueError(f"reps must be 0 or more, not {reps}")
    return reps * seconds_per_rep(tempo, x_counts_as_s=x_counts_as_s)
