"""Reads sets and amount: `3-4 x 6-8/side`, `30 s`, `20 m`, `10 contacts`, `20 s hold`."""

from dataclasses import dataclass
from decimal import Decimal

from coachhub.coaching.notation.cursor import Cursor, Figures
from coachhub.coaching.notation.dose import MOST_OF, MOST_SETS, DoseKind, Per
from coachhub.coaching.notation.tokens import Token

_SECONDS = ("s", "sec", "secs", "second", "seconds")
_MINUTES = ("min", "mins", "minute", "minutes")
_METRES = ("m", "metre", "metres", "meter", "meters")
_CONTACTS = ("contact", "contacts")
_REPS = ("rep", "reps", "repetition", "repetitions")
_HOLD = ("hold", "holds")
_MASSES = ("kg", "kgs", "lb", "lbs", "%")
_AFTER_AMOUNT = ("each", "per", "rir", "max", *_HOLD)
_PER: dict[str, Per] = {
    "side": "side",
    "leg": "side",
    "arm": "side",
    "direction": "direction",
    "way": "direction",
}


@dataclass(frozen=True, slots=True)
class Amount:
    kind: DoseKind
    low: int | Decimal
    high: int | Decimal | None


def read_sets(cursor: Cursor) -> tuple[int | None, int | None]:
    """Read `3 x` or `3-4 x`, or nothing where the line starts with the amount."""
    if not _sets_ahead(cursor):
        return None, None
    sets = cursor.figures()
    cursor.take()
    for number in sets.numbers:
        value = Decimal(number.text)
        cursor.require_within("sets_limits", number, value, 1, MOST_SETS)
        cursor.require_whole(number, value)
    return int(sets.low), int(sets.high or sets.low)


def _sets_ahead(cursor: Cursor) -> bool:
    cross = 3 if cursor.at("-", offset=1) else 1
    return cursor.at_kind("number") and cursor.at("x", offset=cross)


def read_amount(cursor: Cursor) -> Amount:
    """Read the amount with its unit; times come out in seconds."""
    before = cursor.accept(*_HOLD)
    figures = cursor.figures("amount_missing")
    kind, factor = _read_unit(cursor, figures)
    hold = before or cursor.accept(*_HOLD)
    if hold:
        kind = _as_hold(cursor, kind, hold)
    values = [_value(cursor, number, kind, factor) for number in figures.numbers]
    return Amount(kind, values[0], values[-1] if values[-1] > values[0] else None)


def _read_unit(cursor: Cursor, figures: Figures) -> tuple[DoseKind, int]:
    if cursor.accept(*_SECONDS):
        return "time", 1
    if cursor.accept(*_MINUTES):
        return "time", 60
    if cursor.accept(*_METRES):
        return "distance", 1
    if cursor.accept(*_CONTACTS):
        return "contacts", 1
    if not cursor.accept(*_REPS):
        _check_what_follows(cursor, figures)
    return "reps", 1


def _check_what_follows(cursor: Cursor, figures: Figures) -> None:
    if cursor.at(*_MASSES):
        cursor.fail("load_needs_at", figures.first, cursor.peek())
    if cursor.at("rir") and not cursor.at_kind("number", offset=1):
        cursor.fail("amount_missing", figures.first, cursor.peek())
    if cursor.at_kind("word") and not cursor.at(*_AFTER_AMOUNT):
        cursor.fail("unit_unknown", cursor.peek())


def _as_hold(cursor: Cursor, kind: DoseKind, hold: Token) -> DoseKind:
    if kind != "time":
        cursor.fail("hold_needs_time", hold)
    return "hold"


def _value(cursor: Cursor, number: Token, kind: DoseKind, factor: int) -> int | Decimal:
    value = Decimal(number.text) * factor
    limits = "time_limits" if kind == "hold" else f"{kind}_limits"
    cursor.require_within(limits, number, value, 1, MOST_OF[kind])
    if kind == "distance":
        return value
    cursor.require_whole(number, value)
    return int(value)


def read_per(cursor: Cursor) -> Per:
    """Read `/side`, `each leg`, `per direction` and the like, or nothing."""
    if not cursor.accept("/", "each", "per"):
        return ""
    if not cursor.at(*_PER):
        cursor.fail("side_missing", cursor.peek())
    return _PER[cursor.take().text]
