"""What a line does in one week, typed in notation: only what differs from the line is kept."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, Final

from django.utils.translation import gettext as _

from coachhub.coaching.notation import MESSAGES, Dose, NotationError, format_dose, parse
from coachhub.plans.dose import RANGES, in_week
from coachhub.plans.models import DoseKind, PrescriptionWeek
from coachhub.plans.tree import Block, Line

COLUMNS: Final = ("sets", *(name for pair in RANGES for name in pair), "rir_half")
_LOAD: Final = ("load", "load_high", "load_unit", "percent", "percent_high", "rir_half", "words")
# Written in a week's cell these have to say what the line says; left out they are inherited.
_OF_THE_LINE: Final = ("tempo", "words", "ceiling")


class WeekError(ValueError):
    """What is wrong with the cell, as a sentence."""


def read_week(text: str, line: Line, block: Block) -> dict[str, Any]:
    """Values of every column; all None where nothing differs. WeekError for what a week cannot change."""
    none = dict.fromkeys(COLUMNS)
    if not text.strip():
        return none
    dose = _parsed(text)
    _check_same(dose, line.dose)
    values = {**none, "sets": _sets(dose, line, block), **_figures(dose, line.dose)}
    try:
        in_week(line.dose, PrescriptionWeek(**values))
    except ValueError:
        raise WeekError(_("This does not go with the line: %(dose)s.") % {"dose": format_dose(line.dose)}) from None
    return values


def week_text(values: PrescriptionWeek, line: Line) -> str:
    """The shortest that `read_week` reads back to these values: what is inherited is left out."""
    dose = replace(in_week(line.dose, values), tempo=None, ceiling=None)
    if values.rir_half is None and dose.rule not in ("rir", "find"):
        dose = replace(dose, rir_half=None)
    if values.rir_half is None and values.load is None and values.percent is None:
        bare: dict[str, Any] = {**dict.fromkeys(_LOAD), "rule": "none", "hands": 1}
        dose = replace(dose, **bare)
    text = format_dose(dose)
    return f"{values.sets} x {text}" if values.sets else text


def _parsed(text: str) -> Dose:
    try:
        return parse(text)
    except NotationError as error:
        raise WeekError(_(MESSAGES[error.code]) % error.params) from None


def _check_same(dose: Dose, base: Dose) -> None:
    if dose.kind != base.kind:
        raise WeekError(_("This line is counted in %(kind)s.") % {"kind": DoseKind(base.kind).label})
    if dose.per not in ("", base.per) or dose.rule not in ("none", base.rule):
        raise WeekError(_not_here())
    if dose.load is not None and (dose.load_unit, dose.hands) != (base.load_unit, base.hands):
        raise WeekError(_("The load of this line is written as %(dose)s.") % {"dose": format_dose(base)})
    if any(getattr(dose, name) not in (None, getattr(base, name)) for name in _OF_THE_LINE):
        raise WeekError(_not_here())


def _not_here() -> str:
    return _("A week changes sets, amount, load, % and reserve. For more than that, change the line itself.")


def _sets(dose: Dose, line: Line, block: Block) -> int | None:
    low, high, own = dose.sets_min, dose.sets_max, line.row.sets
    if low is None or (own is None and (low, high) == (block.rounds.low, block.rounds.high)):
        return None
    if low != high:
        raise WeekError(_("In a week, sets are one number."))
    if low > block.rounds.high:
        raise WeekError(_("The block has %(rounds)s rounds: write up to that.") % {"rounds": block.rounds})
    return None if low == own else low


def _figures(dose: Dose, base: Dose) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for low, high in RANGES:
        own = (getattr(dose, low), getattr(dose, high))
        if own[0] is not None and own != (getattr(base, low), getattr(base, high)):
            found |= {low: own[0], high: own[1]}
    if dose.rir_half is not None and dose.rir_half != base.rir_half:
        found["rir_half"] = dose.rir_half
    return found
