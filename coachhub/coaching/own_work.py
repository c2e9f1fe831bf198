"""An athlete's own activation work joins the session: trimmed to the time of the part, the most important first."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from coachhub.coaching.facts import GroupFacts, LineFacts, OwnItem
from coachhub.coaching.timing import LIGHT_CHANGE_OVER_S, TimedBlock, TimedLine, TimedPart, set_seconds, time_session

# Where the coach has given the part no minutes of its own (common practice).
OWN_WORK_MINUTES: Final = 5
OWN_KEY: Final = "own"
IF_TIME_KEY: Final = "own_if_time"
_PART: Final = "activation"


def with_own_work(groups: tuple[GroupFacts, ...], items: Sequence[OwnItem]) -> tuple[GroupFacts, ...]:
    """Return the groups with the athlete's own items after the written activation, or after the warm-up without one.

    What the session has already is not asked for twice. The first item always stays; from the first that no longer
    fits, all are "if time".
    """
    written = {line.exercise_id for group in groups for line in group.lines}
    wanted = [item for item in items if item.exercise.id not in written]
    if not wanted:
        return groups
    place = _place(groups)
    activation = [group for group in groups if group.segment == _PART]
    fit = _how_many_fit(wanted, _budget_s(activation))
    own = [_group(OWN_KEY, wanted[:fit], is_optional=False)]
    if fit < len(wanted):
        own.append(_group(IF_TIME_KEY, wanted[fit:], is_optional=True))
    return (*groups[:place], *own, *groups[place:])


def item_seconds(item: OwnItem) -> int:
    """Return the seconds that an item takes, the way to the next one included."""
    return item.sets * (set_seconds(TimedLine(item.dose, item.sets)) + LIGHT_CHANGE_OVER_S)


def _place(groups: Sequence[GroupFacts]) -> int:
    for part in (_PART, "warm_up"):
        places = [place for place, group in enumerate(groups, 1) if group.segment == part]
        if places:
            return places[-1]
    return 0


def _budget_s(activation: Sequence[GroupFacts]) -> int:
    minutes = activation[0].segment_minutes if activation else None
    if minutes is None:
        return 60 * OWN_WORK_MINUTES
    blocks = tuple(
        TimedBlock(
            group.label,
            group.rounds_max,
            tuple(TimedLine(line.dose, line.sets, rest_after_s=line.rest_after_s) for line in group.lines),
            group.rest_max_s or group.rest_min_s,
            group.rest_after_s or 0,
        )
        for group in activation
    )
    return 60 * minutes - time_session([TimedPart(_PART, blocks)], 0).parts[0].written_s


def _how_many_fit(items: Sequence[OwnItem], budget_s: int) -> int:
    left, fit = budget_s, 0
    for item in items:
        left -= item_seconds(item)
        if left < 0:
            break
        fit += 1
    return max(1, fit)


def _group(key: str, items: Sequence[OwnItem], *, is_optional: bool) -> GroupFacts:
    """Without minutes of its own: its time is within that of the written part."""
    sets = max(item.sets for item in items)
    return GroupFacts(
        key=key,
        label="",
        segment=_PART,
        segment_minutes=None,
        is_optional=is_optional,
        rounds_min=sets,
        rounds_max=sets,
        rest_min_s=None,
        rest_max_s=None,
        rest_note="",
        rest_after_s=None,
        intent="",
        lines=tuple(LineFacts(item.key, item.exercise.id, item.dose, item.sets, cue=item.goal) for item in items),
    )
