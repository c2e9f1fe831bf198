"""Whether the room, its stock and its staff carry the session for those who come."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import ceil
from typing import Final

from coachhub.coaching.coverage import COUNTED_PARTS
from coachhub.coaching.facts import ExerciseFacts
from coachhub.coaching.limits import ADULT_AGE
from coachhub.coaching.review.findings import Finding, joined, params
from coachhub.coaching.review.flow import change_over, sets_in_order, until_line
from coachhub.coaching.review.reading import ReadBlock, ReadLine, ReadSession
from coachhub.coaching.review.rules import Thresholds, finding
from coachhub.coaching.timing import set_seconds

# Middle school ends with it (from memory); from the next year on the ratio of secondary school holds.
MIDDLE_SCHOOL_AGE: Final = 14
# A partner spots dumbbells at the wrists; at the head of a bench stands somebody who is trained for it.
SPOTTED: Final = frozenset({"head"})
# One in each hand.
_PAIRED: Final = frozenset({"dumbbell", "kettlebell"})


@dataclass(frozen=True, slots=True)
class Floor:
    """Who comes, and where; what is None is not known, and its checks stay silent.

    `counts`: pieces of each kind of equipment; what is found everywhere is the caller's to add.
    """

    ages: tuple[int, ...]
    staff: int | None = None
    is_supervised: bool | None = None
    counts: Mapping[str, int] | None = None

    @property
    def athletes(self) -> int:
        return len(self.ages)


def stations(exercise: ExerciseFacts, counts: Mapping[str, int]) -> int | None:
    """How many can do it at once; None where it needs nothing."""
    pieces = 2 if exercise.load_meaning == "per_hand" else 1
    each = [
        sum(counts.get(kind, 0) // (pieces if kind in _PAIRED else 1) for kind in group) for group in exercise.needs
    ]
    return min(each, default=None)


def equipment_missing(session: ReadSession, floor: Floor, thresholds: Thresholds) -> Iterator[Finding]:
    """A line that cannot be done here, nor any swap that the coach allows for it."""
    if floor.counts is None:
        return
    known = session.facts.exercises
    for line in session.lines:
        choices = [line.exercise, *(known[pk] for pk in line.facts.swap_ids if pk in known)]
        if all(stations(one, floor.counts) == 0 for one in choices):
            yield finding(
                "equipment_missing",
                about=line.facts.key,
                where=(line.where,),
                params=params(name=line.exercise.name),
                suggestion="allow_swap",
            )


def equipment_short(session: ReadSession, floor: Floor, thresholds: Thresholds) -> Iterator[Finding]:
    """How long the last one of a station waits each round, over the rest that is there anyway.

    Source: common practice, rest of at least (athletes at the station - 1) x work.
    """
    if floor.counts is None:
        return
    most_s = thresholds.whole("equipment_short")
    for block in session.blocks:
        for line in block.lines if block.group.segment in COUNTED_PARTS else ():
            there = stations(line.exercise, floor.counts)
            wait_s = _wait(block, line, ceil(floor.athletes / there)) if there else None
            if wait_s is not None and wait_s > most_s:
                yield finding(
                    "equipment_short",
                    about=line.facts.key,
                    where=(line.where,),
                    params=params(name=line.exercise.name, athletes=floor.athletes, stations=there),
                    found=str(wait_s),
                    limit=str(most_s),
                    suggestion="spread_out",
                )


def _wait(block: ReadBlock, line: ReadLine, sharing: int) -> int | None:
    free_s = until_line(line, sets_in_order(block))
    if free_s is None:
        return None
    return (sharing - 1) * (set_seconds(line.timed) + change_over(block)) - free_s


def alone(session: ReadSession, floor: Floor, thresholds: Thresholds) -> Iterator[Finding]:
    if floor.is_supervised is not False:
        return
    lines = [line for line in session.lines if line.exercise.needs_supervision]
    if lines:
        yield finding(
            "alone",
            about=joined(line.facts.key for line in lines),
            where=tuple(line.where for line in lines),
            suggestion="supervise",
        )


def ratio_code(ages: tuple[int, ...]) -> str:
    """By the youngest who comes."""
    youngest = min(ages)
    if youngest <= MIDDLE_SCHOOL_AGE:
        return "ratio_to_14"
    return "ratio_to_17" if youngest < ADULT_AGE else "ratio_adults"


def supervision_ratio(session: ReadSession, floor: Floor, thresholds: Thresholds) -> Iterator[Finding]:
    if floor.staff is None or not floor.ages or floor.is_supervised is False:
        return
    code = ratio_code(floor.ages)
    most = thresholds.whole(code)
    if thresholds.is_on(code) and floor.athletes > most * floor.staff:
        needed = ceil(floor.athletes / most)
        yield finding(
            code,
            params=params(athletes=floor.athletes, staff=floor.staff, needed=needed),
            found=str(ceil(floor.athletes / floor.staff) if floor.staff else floor.athletes),
            limit=str(most),
            suggestion="more_staff",
        )


def spotting_stations(session: ReadSession, floor: Floor, thresholds: Thresholds) -> Iterator[Finding]:
    """Stations of one block at which somebody spots, against the staff who watch them."""
    if floor.staff is None or floor.counts is None or floor.is_supervised is False:
        return
    most = thresholds.whole("spotting_stations")
    for block in session.blocks:
        lines = [line for line in block.lines if line.exercise.spotting in SPOTTED]
        used = sum(_in_use(line, floor.counts, ceil(floor.athletes / len(block.lines))) for line in lines)
        if used > most * floor.staff:
            yield finding(
                "spotting_stations",
                about=joined(line.facts.key for line in lines),
                where=tuple(line.where for line in lines),
                params=params(stations=used, staff=floor.staff),
                found=str(used),
                limit=str(most * floor.staff),
                suggestion="fewer_stations",
            )


def _in_use(line: ReadLine, counts: Mapping[str, int], athletes: int) -> int:
    """The athletes of a block are spread over its lines."""
    there = stations(line.exercise, counts)
    return athletes if there is None else min(there, athletes)
