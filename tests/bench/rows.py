"""What a bench says: a figure, the bar it is held to, and what it was measured against."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Row:
    """`yardstick`: what it was measured against in the same run; `is_upper`: the figure must not pass the bar."""

    what: str
    figure: float
    bar: float
    yardstick: str = ""
    is_upper: bool = False

    @property
    def is_met(self) -> bool:
        return self.figure <= self.bar if self.is_upper else self.figure >= self.bar

    def __str__(self) -> str:
        sign, state = "≤" if self.is_upper else "≥", "ok" if self.is_met else "MISSED"
        bar = f"{sign} {short(self.bar)}"
        return f"{self.what:48} {short(self.figure):>8}   {bar:10} {state:8} {self.yardstick}".rstrip()


def short(value: float) -> str:
    return f"{value:,.0f}" if value >= 100 else f"{value:.3g}"
