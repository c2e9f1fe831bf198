"""Between the columns of a prescription and a `coaching.notation.Dose`, without loss either way."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal
from typing import Any, Final, cast

from coachhub.coaching.notation import Dose, format_dose
from coachhub.plans.models import DoseColumns, OwnDose, Prescription, PrescriptionWeek

# A week that has a figure of its own has no more than it: the end of the range goes with its beginning.
RANGES: Final = (("low", "high"), ("load", "load_high"), ("percent", "percent_high"))


def plain_dose(row: DoseColumns) -> Dose:
    """The dose of these columns, without sets."""
    columns = cast(Any, row)  # codes and units are held to their lists by the database
    return Dose(
        kind=columns.dose_kind,
        low=_figure(row.low),
        high=None if row.high is None else _figure(row.high),
        per=columns.per,
        rule=columns.load_rule,
        load=row.load,
        load_high=row.load_high,
        load_unit=columns.load_unit or None,
        hands=columns.hands,
        percent=row.percent,
        percent_high=row.percent_high,
        rir_half=row.rir_half,
        tempo=row.tempo or None,
        words=row.words or None,
        ceiling=row.ceiling,
    )


def dose_of(prescription: Prescription, rounds_min: int, rounds_max: int) -> Dose:
    """The whole dose: one set in each round of the block, or the fewer sets of the line's own."""
    sets = prescription.sets
    return replace(plain_dose(prescription), sets_min=sets or rounds_min, sets_max=sets or rounds_max)


def written_dose(prescription: Prescription) -> Dose:
    """As the line stands in its block: the sets only where they are fewer than the rounds."""
    return replace(plain_dose(prescription), sets_min=prescription.sets, sets_max=prescription.sets)


def sets_and_dose(item: OwnDose) -> Dose:
    """The whole dose of an item of own activation work."""
    return replace(plain_dose(item), sets_min=item.sets, sets_max=item.sets)


def in_week(dose: Dose, values: PrescriptionWeek) -> Dose:
    """The dose with what this week has of its own, except for its sets; ValueError where they do not go together."""
    changed: dict[str, Any] = {}
    for low, high in RANGES:
        if getattr(values, low) is not None:
            changed |= {low: getattr(values, low), high: getattr(values, high)}
    if values.rir_half is not None:
        changed["rir_half"] = values.rir_half
    for name in ("low", "high"):
        if changed.get(name) is not None:
            changed[name] = _figure(Decimal(changed[name]))
    return replace(dose, **changed)


def columns_of(dose: Dose) -> dict[str, Any]:
    """Values of every column of `DoseColumns`; the sets live elsewhere (see `coaching.rounds`)."""
    return {
        "dose_kind": dose.kind,
        "low": Decimal(dose.low),
        "high": None if dose.high is None else Decimal(dose.high),
        "per": dose.per,
        "load_rule": dose.rule,
        "load": dose.load,
        "load_high": dose.load_high,
        "ceiling": dose.ceiling,
        "load_unit": dose.load_unit or "",
        "hands": dose.hands,
        "percent": dose.percent,
        "percent_high": dose.percent_high,
        "rir_half": dose.rir_half,
        "tempo": dose.tempo or "",
        "words": dose.words or "",
    }


def show_dose(dose: Dose) -> str:
    """The canonical line as print sets it: `3–4 × 6–8 @ 2 RIR`; quoted words stay as typed."""
    pieces = format_dose(dose).split('"')
    return '"'.join(piece if place % 2 else _typeset(piece) for place, piece in enumerate(pieces))


def _typeset(text: str) -> str:
    return re.sub(r"(?<=\d)-(?=\d)", "–", text).replace(" x ", " × ")


def _figure(value: Decimal) -> int | Decimal:
    return int(value) if value == value.to_integral_value() else value
