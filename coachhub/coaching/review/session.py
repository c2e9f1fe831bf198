"""The checks of one session as it is written, and of the floor it is given on."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Final

from coachhub.coaching.facts import SessionFacts
from coachhub.coaching.review import doses, floor, order, rests
from coachhub.coaching.review.findings import Finding, params, warnings_first
from coachhub.coaching.review.reading import ReadSession, read
from coachhub.coaching.review.rules import DEFAULTS, Thresholds, finding
from coachhub.coaching.timing import time_session

_Check = Callable[[ReadSession, Thresholds], Iterator[Finding]]
_FloorCheck = Callable[[ReadSession, floor.Floor, Thresholds], Iterator[Finding]]


@dataclass(frozen=True, slots=True)
class Setting:
    """`bare_minutes`: of parts that have their time but no exercise yet.

    `youth`: the oldest of a squad that is for the young; None where somebody in it is older, or nobody is known.
    """

    slot_minutes: int
    bare_minutes: int = 0
    youth: doses.Person | None = None


CHECKS: Final[dict[str, _Check]] = {
    "pattern_missing": doses.pattern_missing,
    "speed_after_strength": order.speed_after_strength,
    "jump_pair_apart": order.jump_pair_apart,
    "jump_pair_reps": order.jump_pair_reps,
    "jump_dense": order.jump_dense,
    "grip_in_row": order.grip_in_row,
    "trunk_in_row": order.trunk_in_row,
    "rest_heavy": rests.rest_heavy,
    "rest_moderate": rests.rest_moderate,
    "rest_long": rests.rest_long,
}
FLOOR_CHECKS: Final[dict[str, _FloorCheck]] = {
    "equipment_missing": floor.equipment_missing,
    "equipment_short": floor.equipment_short,
    "alone": floor.alone,
    "spotting_stations": floor.spotting_stations,
}


def review_session(session: SessionFacts, setting: Setting, thresholds: Thresholds = DEFAULTS) -> tuple[Finding, ...]:
    """What a good coach would remark on, warnings first; empty where there is nothing."""
    one = read(session)
    found = [item for code, check in CHECKS.items() if thresholds.is_on(code) for item in check(one, thresholds)]
    if thresholds.is_on("over_slot"):
        found += _over_slot(one, setting, thresholds)
    if setting.youth is not None:
        found += doses.youth_doses(one, setting.youth, thresholds)
    return warnings_first(found)


def review_floor(session: ReadSession, given: floor.Floor, thresholds: Thresholds = DEFAULTS) -> tuple[Finding, ...]:
    """The same for a session that is given to athletes at a venue."""
    checks = [check for code, check in FLOOR_CHECKS.items() if thresholds.is_on(code)]
    found = [item for check in (*checks, floor.supervision_ratio) for item in check(session, given, thresholds)]
    return warnings_first(found)


def _over_slot(session: ReadSession, setting: Setting, thresholds: Thresholds) -> Iterator[Finding]:
    """What is optional is left out of it: it is done if there is time."""
    time = time_session(session.parts, setting.slot_minutes)
    minutes = time.minutes_without_optional + setting.bare_minutes
    if minutes > setting.slot_minutes + thresholds.of("over_slot"):
        yield finding(
            "over_slot",
            params=params(minutes=minutes, slot=setting.slot_minutes),
            found=str(minutes - setting.slot_minutes),
            limit=str(thresholds.whole("over_slot")),
            suggestion="cut_time",
        )
