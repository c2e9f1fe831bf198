"""Writes a dose in the canonical spelling."""

from decimal import Decimal

from coachhub.coaching.notation.dose import Dose, DoseKind

_AFTER_AMOUNT: dict[DoseKind, str] = {
    "reps": "",
    "time": " s",
    "distance": " m",
    "contacts": " contacts",
    "hold": " s hold",
}


def format_dose(dose: Dose) -> str:
    """Write `dose` on one line that `parse` reads back to an equal dose."""
    parts = [_sets(dose), _amount(dose), _load(dose), _ceiling(dose), _reserve_after(dose), _tempo(dose)]
    return " ".join(part for part in parts if part)


def _sets(dose: Dose) -> str:
    if dose.sets_min is None:
        return ""
    high = dose.sets_max if dose.sets_max != dose.sets_min else None
    return f"{_range(dose.sets_min, high)} x"


def _amount(dose: Dose) -> str:
    per = f"/{dose.per}" if dose.per else ""
    return f"{_range(dose.low, dose.high)}{_AFTER_AMOUNT[dose.kind]}{per}"


def _load(dose: Dose) -> str:
    written = {
        "none": "",
        "fixed": _mass(dose),
        "percent": _percent(dose),
        "rir": _reserve(dose),
        "last": "last",
        "find": f"find {_reserve(dose)}",
        "words": f'"{dose.words}" {_mass(dose)}'.rstrip(),
    }[dose.rule]
    return written and f"@ {written}"


def _mass(dose: Dose) -> str:
    if dose.load is None:
        return ""
    hands = "2 x " if dose.hands == 2 else ""
    return f"{hands}{_range(dose.load, dose.load_high)} {dose.load_unit}"


def _percent(dose: Dose) -> str:
    return "" if dose.percent is None else f"{_range(dose.percent, dose.percent_high)}%"


def _ceiling(dose: Dose) -> str:
    return "" if dose.ceiling is None else f"max {_number(dose.ceiling)} {dose.load_unit}"


def _reserve_after(dose: Dose) -> str:
    return "" if dose.rule in {"rir", "find"} else _reserve(dose)


def _reserve(dose: Dose) -> str:
    return "" if dose.rir_half is None else f"{_number(Decimal(dose.rir_half) / 2)} RIR"


def _tempo(dose: Dose) -> str:
    return "" if dose.tempo is None else f"t{dose.tempo}"


def _range(low: int | Decimal, high: int | Decimal | None) -> str:
    return _number(low) if high is None else f"{_number(low)}-{_number(high)}"


def _number(value: int | Decimal) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")
