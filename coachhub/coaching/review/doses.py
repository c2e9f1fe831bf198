"""What is asked of minors, against the published guidance for youth; and whether the five patterns are there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from coachhub.coaching.coverage import COUNTED_PARTS, PRIMARY
from coachhub.coaching.limits import ADULT_AGE, MAXIMAL_AGE
from coachhub.coaching.review.findings import Finding, joined, params
from coachhub.coaching.review.reading import ReadLine, ReadSession
from coachhub.coaching.review.rules import Thresholds, finding


@dataclass(frozen=True, slots=True)
class Person:
    """Who trains, or the oldest of a squad that is for the young; `level` as the records have it."""

    age: int
    level: str = "intermediate"

    @property
    def is_minor(self) -> bool:
        return self.age < ADULT_AGE

    @property
    def is_novice(self) -> bool:
        return self.level == "novice"

    @property
    def is_experienced(self) -> bool:
        """Heavier sets of few repetitions have their time for them, now and then (consensus of 2014)."""
        return self.level == "advanced" or (self.age >= MAXIMAL_AGE and not self.is_novice)


# The rules of novices that stand in for those of all.
_NOVICE: Final = {"youth_sets": "youth_sets_novice", "youth_load": "youth_load_novice"}
_SUGGESTED: Final = {
    "youth_sets": "sets_at_most",
    "youth_sets_novice": "sets_at_most",
    "youth_reps_few": "more_reps",
    "youth_reps_many": "more_load",
    "youth_load": "less_load",
    "youth_load_novice": "less_load",
}


def pattern_missing(session: ReadSession, thresholds: Thresholds) -> Iterator[Finding]:
    """Fewer of the five than asked for, in a session with strength work."""
    if not session.is_strength:
        return
    counted = [line for line in session.lines if line.group.segment in COUNTED_PARTS]
    there = {pattern for line in counted for pattern in line.exercise.patterns}
    missing = [pattern for pattern in PRIMARY if pattern not in there]
    wanted = thresholds.whole("pattern_missing")
    if len(PRIMARY) - len(missing) < wanted:
        yield finding(
            "pattern_missing",
            about=joined(missing),
            params=params(patterns=",".join(missing)),
            found=str(len(PRIMARY) - len(missing)),
            limit=str(wanted),
            suggestion="add_pattern",
        )


def youth_doses(session: ReadSession, who: Person, thresholds: Thresholds) -> Iterator[Finding]:
    """Sets, repetitions and loads outside the guidance; only what is loaded, and done for strength."""
    if not who.is_minor:
        return
    for line in session.lines:
        if line.is_strength and line.is_loaded and not line.is_speed and line.reps is not None:
            yield from _dose(line, line.reps, who, thresholds)


def _dose(line: ReadLine, reps: int, who: Person, thresholds: Thresholds) -> Iterator[Finding]:
    own = _NOVICE if who.is_novice else {}
    yield from _over(own.get("youth_sets", "youth_sets"), line, line.facts.sets, thresholds)
    yield from _over("youth_reps_many", line, reps, thresholds)
    if who.is_experienced:
        return
    if thresholds.is_on("youth_reps_few") and reps < thresholds.of("youth_reps_few"):
        yield _about_dose("youth_reps_few", line, reps, thresholds)
    # What the rep-max table makes of a reserve is no figure for somebody who has not learned to judge one.
    percent = line.written_percent if who.is_novice else line.percent
    if percent is not None:
        yield from _over(own.get("youth_load", "youth_load"), line, percent, thresholds)


def _over(code: str, line: ReadLine, found: float, thresholds: Thresholds) -> Iterator[Finding]:
    if thresholds.is_on(code) and found > thresholds.of(code):
        yield _about_dose(code, line, found, thresholds)


def _about_dose(code: str, line: ReadLine, found: float, thresholds: Thresholds) -> Finding:
    return finding(
        code,
        about=line.facts.key,
        where=(line.where,),
        params=params(name=line.exercise.name),
        found=f"{found:g}",
        limit=f"{thresholds.of(code).normalize():f}",
        suggestion=_SUGGESTED[code],
    )
