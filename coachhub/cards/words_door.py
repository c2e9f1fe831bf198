"""Puts a change at the door into words: "round 4 of block A cut"."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from coachhub.cards.models import RevisionReason
from coachhub.cards.sheet import RevisionInfo
from coachhub.coaching.door import DoorStep

WHYS: Final[dict[str, Promise]] = {
    "begun": gettext_lazy("a set is written on it already"),
    "written": gettext_lazy("further rounds are written already"),
    "on_card": gettext_lazy("the exercise is on this card already"),
    "elsewhere": gettext_lazy("trains at another place today"),
    "again": gettext_lazy("the card was changed again since"),
    "gone": gettext_lazy("not on this card"),
}


def step_text(step: DoorStep) -> str:
    told = {"label": step.label, "was": step.was, "now": step.now}
    match step.do:
        case "block":
            return _("block %(label)s left out") % told
        case "swap":
            return _("%(label)s: %(now)s instead of %(was)s") % told
        case "venue":
            return _("moved to %(now)s") % told
        case _:
            return _rounds_text(step)


def _rounds_text(step: DoorStep) -> str:
    was, now = int(step.was), step.value
    told = {"label": step.label, "first": min(was, now) + 1, "last": max(was, now)}
    if told["first"] == told["last"]:
        text = _("round %(last)s of block %(label)s cut") if now < was else _("round %(last)s of block %(label)s added")
    elif now < was:
        text = _("rounds %(first)s–%(last)s of block %(label)s cut")
    else:
        text = _("rounds %(first)s–%(last)s of block %(label)s added")
    return text % told


def steps_text(steps: Iterable[DoorStep]) -> str:
    return "; ".join(map(step_text, steps))


def door_text(steps: Iterable[DoorStep], *, is_undone: bool) -> str:
    """Return what a card says of the change that made it."""
    told = {"what": steps_text(steps)}
    return _("Undone: %(what)s.") % told if is_undone else _("Changed at the door: %(what)s.") % told


def revision_text(revision: RevisionInfo) -> str:
    """Return why a revision was made: "changed at the door: round 4 of block A cut"."""
    label = str(RevisionReason(revision.reason).label)
    return f"{label}: {steps_text(revision.steps)}" if revision.steps else label
