"""Reads the load after @: `60 kg`, `2 x 20-24 kg`, `75%`, `last`, `find`, `bw`, a quoted text."""

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, NoReturn

from coachhub.coaching.notation.cursor import Cursor, Figures
from coachhub.coaching.notation.dose import MOST_LOAD, MOST_PERCENT, MOST_WORDS, LoadRule, is_plain_words
from coachhub.coaching.notation.tokens import Token
from coachhub.science.units import Unit

_UNITS: dict[str, Unit] = {"kg": "kg", "kgs": "kg", "lb": "lb", "lbs": "lb"}
_NAMED: dict[str, LoadRule] = {"last": "last", "find": "find", "bw": "none", "bodyweight": "none"}


@dataclass(frozen=True, slots=True)
class Mass:
    """A mass or a range of masses; `first` and `last` say where it stands."""

    low: Decimal
    high: Decimal | None
    unit: Unit
    first: Token
    last: Token


@dataclass(frozen=True, slots=True)
class Load:
    """What stands after @; the reserve, if any, is read after it."""

    rule: LoadRule
    token: Token
    mass: Mass | None = None
    hands: Literal[1, 2] = 1
    percent: Decimal | None = None
    percent_high: Decimal | None = None
    words: str | None = None


def read_load(cursor: Cursor) -> Load:
    """Read `@` and what follows; the rule is "none" where no @ or only a reserve stands."""
    token = cursor.peek()
    if not cursor.accept("@"):
        return Load("none", token)
    token = cursor.peek()
    if token.kind == "quote":
        return _read_words(cursor)
    if cursor.accept(*_NAMED):
        return Load(_NAMED[token.text], token)
    if cursor.at("rir") or _reserve_ahead(cursor):
        return Load("none", token)
    if token.kind != "number":
        cursor.fail("load_missing", token)
    return _read_figures(cursor)


def read_mass(cursor: Cursor) -> Mass:
    """Read figures in kg or lb."""
    return _as_mass(cursor, cursor.figures())


def _reserve_ahead(cursor: Cursor) -> bool:
    return cursor.at_kind("number") and cursor.at("rir", offset=1)


def _read_figures(cursor: Cursor) -> Load:
    token = cursor.peek()
    hands = _read_hands(cursor)
    figures = cursor.figures()
    if hands is None and cursor.accept("%"):
        return _as_percent(cursor, figures)
    return Load("fixed", token, mass=_as_mass(cursor, figures), hands=hands or 1)


def _read_hands(cursor: Cursor) -> Literal[1, 2] | None:
    if not (cursor.at_kind("number") and cursor.at("x", offset=1)):
        return None
    number = cursor.take()
    cursor.take()
    if number.text not in {"1", "2"}:
        cursor.fail("hands", number)
    return 2 if number.text == "2" else 1


def _as_percent(cursor: Cursor, figures: Figures) -> Load:
    for number in figures.numbers:
        cursor.require_within("percent_limits", number, Decimal(number.text), 1, MOST_PERCENT)
    return Load("percent", figures.first, percent=figures.low, percent_high=figures.high)


def _as_mass(cursor: Cursor, figures: Figures) -> Mass:
    unit = _read_unit(cursor, figures)
    most = MOST_LOAD[unit]
    for number in figures.numbers:
        if not 0 < Decimal(number.text) <= most:
            cursor.fail("load_limits", number, high=most, unit=unit)
    return Mass(figures.low, figures.high, unit, figures.first, figures.last)


def _read_unit(cursor: Cursor, figures: Figures) -> Unit:
    if not cursor.at(*_UNITS):
        _refuse_unit(cursor, figures)
    return _UNITS[cursor.take().text]


def _refuse_unit(cursor: Cursor, figures: Figures) -> NoReturn:
    if cursor.at("rir"):
        cursor.fail("one_number", figures.first, figures.last)
    if cursor.at("%"):
        cursor.fail("mass_unit", cursor.peek())
    if cursor.at_kind("word"):
        cursor.fail("load_unit", cursor.peek())
    cursor.fail("load_unit_missing", figures.first, figures.last)


def _read_words(cursor: Cursor) -> Load:
    token = cursor.take()
    words = " ".join(token.text.split())
    if not words:
        cursor.fail("words_empty", token)
    if len(words) > MOST_WORDS:
        cursor.fail("words_limits", token, high=MOST_WORDS)
    if not is_plain_words(words):
        cursor.fail("words_unreadable", token)
    if not cursor.at_kind("number") or _reserve_ahead(cursor):
        return Load("words", token, words=words)
    hands = _read_hands(cursor) or 1
    return Load("words", token, mass=read_mass(cursor), hands=hands, words=words)
