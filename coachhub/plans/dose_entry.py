"""A dose typed in plain fields, read by way of the one-line notation, so that both have the same rules and limits."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import Any, Final

from django.utils.translation import gettext as _

from coachhub.coaching.notation import MESSAGES, Dose, NotationError, parse
from coachhub.plans.models import DoseKind, LoadRule

DOSE_FIELDS: Final = (
    "sets", "low", "high", "dose_kind", "per", "load_rule", "load", "load_high", "load_unit", "hands",
    "percent", "percent_high", "rir", "words", "ceiling", "tempo",
)  # fmt: skip
_NUMBERS: Final = ("low", "high", "load", "load_high", "percent", "percent_high", "rir", "ceiling")
_NUMBER: Final = re.compile(r"\d+(?:[.,]\d{1,2})?")
_SETS: Final = re.compile(r"\d+(?:\s*[-–]\s*\d+)?")
_UNIT_OF: Final[Mapping[str, str]] = {
    DoseKind.REPS: "", DoseKind.TIME: " s", DoseKind.DISTANCE: " m", DoseKind.CONTACTS: " contacts",
    DoseKind.HOLD: " s hold",
}  # fmt: skip
_NEEDED: Final[Mapping[str, str]] = {
    LoadRule.FIXED: "load", LoadRule.PERCENT: "percent", LoadRule.RIR: "rir", LoadRule.FIND: "rir",
    LoadRule.WORDS: "words",
}  # fmt: skip
# What goes with each rule, besides amount, sets and tempo.
_FITTING: Final[Mapping[str, frozenset[str]]] = {
    LoadRule.NONE: frozenset(),
    LoadRule.FIXED: frozenset({"load", "load_high", "rir"}),
    LoadRule.PERCENT: frozenset({"percent", "percent_high", "rir", "ceiling"}),
    LoadRule.RIR: frozenset({"rir", "ceiling"}),
    LoadRule.LAST: frozenset({"rir", "ceiling"}),
    LoadRule.FIND: frozenset({"rir", "ceiling"}),
    LoadRule.WORDS: frozenset({"words", "load", "load_high", "rir", "ceiling"}),
}
_LOAD_FIELDS: Final = ("load", "load_high", "percent", "percent_high", "rir", "words", "ceiling")

Pieces = Iterator[tuple[str, str]]


class DoseEntryError(ValueError):
    """What is wrong, and in which field."""

    def __init__(self, field: str, message: str) -> None:
        self.field = field
        self.message = message
        super().__init__(message)


def read_entry(typed: Mapping[str, str]) -> Dose:
    """The dose of these fields, all texts; DoseEntryError names the first one that is wrong."""
    _check_figures(typed)
    _check_words(typed["words"])
    _check_rule(typed)
    places: list[tuple[int, str]] = []
    text = ""
    for field, piece in _pieces(typed):
        places.append((len(text), field))
        text += piece
    try:
        return parse(text)
    except NotationError as error:
        field = next(field for start, field in reversed(places) if start <= error.start)
        raise DoseEntryError(field, _(MESSAGES[error.code]) % error.params) from None


def entry_of(dose: Dose) -> dict[str, Any]:
    """The texts that `read_entry` reads back to this dose."""
    sets = "" if dose.sets_min is None else str(dose.sets_min)
    if dose.sets_max != dose.sets_min:
        sets = f"{dose.sets_min}-{dose.sets_max}"
    return {
        "sets": sets,
        "low": _text(dose.low),
        "high": _text(dose.high),
        "dose_kind": dose.kind,
        "per": dose.per,
        "load_rule": dose.rule,
        "load": _text(dose.load),
        "load_high": _text(dose.load_high),
        "load_unit": dose.load_unit or "kg",
        "hands": str(dose.hands),
        "percent": _text(dose.percent),
        "percent_high": _text(dose.percent_high),
        "rir": "" if dose.rir_half is None else _text(Decimal(dose.rir_half) / 2),
        "words": dose.words or "",
        "ceiling": _text(dose.ceiling),
        "tempo": dose.tempo or "",
    }


def _check_figures(typed: Mapping[str, str]) -> None:
    if typed["sets"] and not _SETS.fullmatch(typed["sets"]):
        raise DoseEntryError("sets", _("Sets are a number or a range, such as 3 or 3-4."))
    for field in _NUMBERS:
        if typed[field] and not _NUMBER.fullmatch(typed[field]):
            raise DoseEntryError(field, _("A number comes here, such as 60 or 62.5, above 0 and without a unit."))
    if not typed["low"]:
        raise DoseEntryError("low", _("An amount is needed."))
    if typed["tempo"] and not re.fullmatch(r"[0-9xX]{4}", typed["tempo"]):
        raise DoseEntryError("tempo", _("A tempo is four figures such as 3110 or 20X1."))


def _check_words(words: str) -> None:
    if any(quote in words for quote in '"“”'):
        raise DoseEntryError("words", _("Leave out the quotation marks."))


def _check_rule(typed: Mapping[str, str]) -> None:
    """A value that would be lost is an error, as is one that is missing."""
    rule = LoadRule(typed["load_rule"])
    for field in _LOAD_FIELDS:
        if typed[field] and field not in _FITTING[rule]:
            message = _("This does not go with the load rule “%(rule)s”: empty it, or choose another rule.")
            raise DoseEntryError(field, message % {"rule": rule.label})
    needed = _NEEDED.get(rule)
    if needed and not typed[needed]:
        raise DoseEntryError(needed, _("The load rule “%(rule)s” needs this.") % {"rule": rule.label})
    for low, high in (("load", "load_high"), ("percent", "percent_high")):
        if typed[high] and not typed[low]:
            raise DoseEntryError(low, _("The lower end of the range is missing."))


def _pieces(typed: Mapping[str, str]) -> Pieces:
    if typed["sets"]:
        yield "sets", f"{typed['sets']} x "
    yield from _span(typed, "low", "high")
    yield "dose_kind", _UNIT_OF[typed["dose_kind"]]
    if typed["per"]:
        yield "per", f"/{typed['per']}"
    rule = typed["load_rule"]
    if rule != LoadRule.NONE:
        yield "load_rule", " @ "
        yield from _load_pieces(typed, rule)
    if typed["tempo"]:
        yield "tempo", f" t{typed['tempo']}"


def _load_pieces(typed: Mapping[str, str], rule: str) -> Pieces:
    if rule == LoadRule.WORDS:
        yield "words", f'"{typed["words"]}" '
    if rule in {LoadRule.LAST, LoadRule.FIND}:
        yield "load_rule", f"{rule} "
    if typed["load"]:
        yield "hands", "2 x " if typed["hands"] == "2" else ""
        yield from _span(typed, "load", "load_high")
        yield "load_unit", f" {typed['load_unit']}"
    if typed["percent"]:
        yield from _span(typed, "percent", "percent_high")
        yield "percent", "%"
    if typed["rir"]:
        yield "rir", f" {typed['rir']} RIR"
    if typed["ceiling"]:
        yield "ceiling", f" max {typed['ceiling']} {typed['load_unit']}"


def _span(typed: Mapping[str, str], low: str, high: str) -> Pieces:
    yield low, typed[low]
    if typed[high]:
        yield high, f"-{typed[high]}"


def _text(value: int | Decimal | None) -> str:
    return "" if value is None else f"{value:.2f}".rstrip("0").rstrip(".")
