"""Puts into words what renewing a card would change."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from coachhub.cards.queries.changing import BlockChange, LineChange
from coachhub.cards.sheet import SheetGroup, SheetLine
from coachhub.cards.words import (
    amount_text,
    clock,
    directions_text,
    load_text,
    mass_text,
    plan_text,
    rest_text,
    rir_text,
    rounds_text,
)
from coachhub.coaching.differences import Aspect

_NAMES: Final[dict[Aspect, Promise]] = {
    "exercise": gettext_lazy("exercise"),
    "block": gettext_lazy("place"),
    "sets": gettext_lazy("sets"),
    "amount": gettext_lazy("amount"),
    "load": gettext_lazy("load"),
    "reserve": gettext_lazy("reserve"),
    "tempo": gettext_lazy("tempo"),
    "ramp_ups": gettext_lazy("ramp-up"),
    "rest": gettext_lazy("rest after it"),
    "cue": gettext_lazy("cue"),
    "rounds": gettext_lazy("rounds"),
    "round_rest": gettext_lazy("rest"),
}


def change_title(change: LineChange) -> str:
    """Return "A1 Front squat", as the card will have it, or had it."""
    line = change.after or change.before
    return f"{line.label} {line.name}" if line else ""


def change_texts(change: LineChange, unit: str = "") -> tuple[str, ...]:
    """Return "load: 60 kg → 62.5 kg" and the like, one for each aspect, or what comes or goes."""
    before, after, kind = change.before, change.after, change.difference.kind
    if kind == "new" or (kind == "back" and after):
        text = _("new: %(plan)s") if kind == "new" else _("back on the card: %(plan)s")
        return (text % {"plan": plan_text(after, unit) if after else ""},)
    if kind in ("gone", "left_out") or before is None or after is None:
        return (_("left out for this athlete") if kind == "left_out" else _("no longer on the card"),)
    return tuple(_arrow(one, _line_text(one, before, unit), _line_text(one, after, unit)) for one in _aspects(change))


def block_change_texts(change: BlockChange) -> tuple[str, ...]:
    before, after = change.before, change.after
    if before is None or after is None:
        return ()
    return tuple(_arrow(one, _block_text(one, before), _block_text(one, after)) for one in change.difference.aspects)


def _aspects(change: LineChange) -> tuple[Aspect, ...]:
    return change.difference.aspects


def _arrow(aspect: Aspect, before: str, after: str) -> str:
    return f"{_NAMES[aspect]}: {before or '–'} → {after or '–'}"


def _line_text(aspect: Aspect, line: SheetLine, unit: str) -> str:
    texts: dict[Aspect, Callable[[], str]] = {
        "exercise": lambda: line.name,
        "block": lambda: line.label,
        "sets": lambda: str(line.sets),
        "amount": lambda: " ".join(filter(None, (amount_text(line), directions_text(line)))),
        "load": lambda: load_text(line, unit),
        "reserve": lambda: rir_text(line),
        "tempo": lambda: line.tempo,
        "ramp_ups": lambda: ", ".join(f"{mass_text(mass, unit)} × {reps}" for mass, reps in line.ramp_ups),
        "rest": lambda: clock(line.rest_after_s) if line.rest_after_s else "",
        "cue": lambda: line.cue,
    }
    return texts[aspect]()


def _block_text(aspect: Aspect, group: SheetGroup) -> str:
    if aspect == "rounds":
        return " ".join(filter(None, (rounds_text(group), _("optional") if group.is_optional else "")))
    after = _("%(rest)s after the block") % {"rest": clock(group.rest_after_s)} if group.rest_after_s else ""
    return ", ".join(filter(None, (rest_text(group), group.rest_note, after)))
