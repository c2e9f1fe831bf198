"""The checks of a week: what is pushed and pulled, bent at the knee and at the hip, done on two legs and on one.

Hard sets count: those of the strength part that do not wait for time to be left, ramp-up sets not among them.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from coachhub.coaching.coverage import PRIMARY
from coachhub.coaching.facts import SessionFacts
from coachhub.coaching.review.findings import Finding, params, warnings_first
from coachhub.coaching.review.phases import Phase
from coachhub.coaching.review.reading import LEGS, ONE_SIDED, ReadLine, read, sets_of
from coachhub.coaching.review.rules import DEFAULTS, Thresholds, finding


def review_week(
    sessions: Sequence[SessionFacts], phase: Phase | None = None, thresholds: Thresholds = DEFAULTS
) -> tuple[Finding, ...]:
    """Return what is remarked on the week as a whole. Without a phase nothing is said of the number of sets."""
    lines = [line for session in sessions for line in read(session).lines]
    found = [*_ratios(lines, thresholds)]
    if phase is not None and thresholds.is_on("week_hard_sets"):
        found += _hard_sets(hard_sets(lines), phase, thresholds)
    return warnings_first(found)


def hard_sets(lines: Sequence[ReadLine]) -> dict[str, int]:
    """Return the hard sets of each primary pattern, in trade order."""
    counted: Counter[str] = Counter()
    for line in lines:
        counted[line.primary] += sets_of(line)
    return {pattern: counted[pattern] for pattern in PRIMARY}


def _ratios(lines: Sequence[ReadLine], thresholds: Thresholds) -> Iterator[Finding]:
    by_pattern = hard_sets(lines)
    knee, hip = by_pattern["squat"] + by_pattern["lunge"], by_pattern["hinge"]
    yield from _ratio("week_push_pull", ("push", by_pattern["push"]), ("pull", by_pattern["pull"]), thresholds)
    yield from _ratio("week_knee_hip", ("knee", knee), ("hip", hip), thresholds)
    legs = [line for line in lines if line.primary in LEGS]
    one = sum(sets_of(line) for line in legs if line.exercise.laterality in ONE_SIDED)
    two = sum(sets_of(line) for line in legs) - one
    yield from _ratio("week_two_one_leg", ("two_legs", two), ("one_leg", one), thresholds)


def _ratio(code: str, first: tuple[str, int], second: tuple[str, int], thresholds: Thresholds) -> Iterator[Finding]:
    """Either side may be the larger; where nothing at all is done there is nothing to weigh."""
    if not thresholds.is_on(code):
        return
    (more, most), (less, least) = sorted((first, second), key=lambda side: side[1], reverse=True)
    if most > thresholds.of(code) * least:
        yield finding(
            code,
            about=more,
            params=params(more=more, most=most, less=less, least=least),
            found=f"{most / least:.1f}" if least else "",
            limit=f"{thresholds.of(code).normalize():f}",
            suggestion="balance",
        )


def _hard_sets(by_pattern: dict[str, int], phase: Phase, thresholds: Thresholds) -> Iterator[Finding]:
    """One remark for each pattern outside its range by more than the club lets pass."""
    spare = thresholds.whole("week_hard_sets")
    for pattern, sets in by_pattern.items():
        target = phase.targets.get(pattern)
        if target is None or target.low - spare <= sets <= target.high + spare:
            continue
        yield finding(
            "week_hard_sets",
            about=f"{pattern}.{'few' if sets < target.low else 'many'}",
            params=params(pattern=pattern, sets=sets, low=target.low, high=target.high, phase=phase.code),
            found=str(sets),
            limit=f"{target.low}–{target.high}",
            suggestion="more_sets" if sets < target.low else "fewer_sets",
        )
