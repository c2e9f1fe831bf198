"""Whether rest fits the intent, judged by the time until the same pattern comes round again."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from coachhub.coaching.review.findings import Finding, params
from coachhub.coaching.review.flow import has_rest, sets_in_order, until_pattern
from coachhub.coaching.review.reading import ReadLine, ReadSession
from coachhub.coaching.review.rules import Thresholds, finding


def rest_heavy(session: ReadSession, thresholds: Thresholds) -> Iterator[Finding]:
    yield from _too_short("rest_heavy", session, thresholds, lambda line: line.is_heavy)


def rest_moderate(session: ReadSession, thresholds: Thresholds) -> Iterator[Finding]:
    """Loaded work for muscle: a shorter rest than the least for it."""
    yield from _too_short("rest_moderate", session, thresholds, _is_moderate)


def _is_moderate(line: ReadLine) -> bool:
    return line.is_loaded and line.reps is not None and not line.is_heavy and not line.is_speed


def rest_long(session: ReadSession, thresholds: Thresholds) -> Iterator[Finding]:
    """Time that is filled with nothing, whatever the goal."""
    most_s = thresholds.whole("rest_long")
    for block in session.blocks:
        rest_s = block.group.rest_max_s or block.group.rest_min_s or 0
        if block.group.segment == "strength" and block.group.rounds_max > 1 and rest_s > most_s:
            yield finding(
                "rest_long",
                about=block.group.key,
                where=(block.where,),
                found=str(rest_s),
                limit=str(most_s),
                suggestion="shorter_rest",
            )


def _too_short(
    code: str, session: ReadSession, thresholds: Thresholds, concerns: Callable[[ReadLine], bool]
) -> Iterator[Finding]:
    least_s = thresholds.whole(code)
    for block in session.blocks:
        lines = [line for line in block.lines if concerns(line)]
        if block.group.segment != "strength" or not lines or not has_rest(block):
            continue
        sets = sets_in_order(block)
        for line in lines:
            gap_s = until_pattern(line, sets)
            if gap_s is not None and gap_s < least_s:
                yield finding(
                    code,
                    about=line.facts.key,
                    where=(line.where,),
                    params=params(name=line.exercise.name, pattern=line.main),
                    found=str(gap_s),
                    limit=str(least_s),
                    suggestion="more_rest",
                )
