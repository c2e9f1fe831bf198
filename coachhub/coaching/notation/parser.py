"""Reads a whole line of the notation."""

from dataclasses import dataclass
from decimal import Decimal

from coachhub.coaching.notation.amount import read_amount, read_per, read_sets
from coachhub.coaching.notation.cursor import Cursor
from coachhub.coaching.notation.dose import MOST_RIR, Dose, LoadRule
from coachhub.coaching.notation.load import Load, Mass, read_load, read_mass
from coachhub.coaching.notation.tokens import Token
from coachhub.science.tempo import parse_tempo


@dataclass(slots=True)
class _Tail:
    """What follows the load, in any order."""

    ceiling: Mass | None = None
    rir_half: int | None = None
    tempo: str | None = None


def parse(text: str) -> Dose:
    """Read one line; NotationError, and nothing else, where it cannot be read."""
    cursor = Cursor(text)
    sets_min, sets_max = read_sets(cursor)
    amount = read_amount(cursor)
    per = read_per(cursor)
    load = read_load(cursor)
    tail = _read_tail(cursor)
    _require_end(cursor)
    rule = _rule(cursor, load, tail)
    _check_ceiling(cursor, load.mass, tail.ceiling, rule)
    mass = load.mass or tail.ceiling
    return Dose(
        sets_min=sets_min,
        sets_max=sets_max,
        kind=amount.kind,
        low=amount.low,
        high=amount.high,
        per=per,
        rule=rule,
        load=load.mass.low if load.mass else None,
        load_high=load.mass.high if load.mass else None,
        load_unit=mass.unit if mass else None,
        hands=load.hands,
        percent=load.percent,
        percent_high=load.percent_high,
        rir_half=tail.rir_half,
        tempo=tail.tempo,
        words=load.words,
        ceiling=tail.ceiling.low if tail.ceiling else None,
    )


def _read_tail(cursor: Cursor) -> _Tail:
    tail = _Tail()
    while True:
        token = cursor.peek()
        if cursor.accept("max"):
            _require_first(cursor, token, tail.ceiling)
            tail.ceiling = _read_ceiling(cursor)
        elif cursor.at("rir") or (token.kind == "number" and cursor.at("rir", offset=1)):
            _require_first(cursor, token, tail.rir_half)
            tail.rir_half = _read_reserve(cursor)
        elif token.kind == "tempo":
            _require_first(cursor, token, tail.tempo)
            tail.tempo = _read_tempo(cursor)
        else:
            return tail


def _require_first(cursor: Cursor, token: Token, known: Mass | int | str | None) -> None:
    if known is not None:
        cursor.fail("twice", token)


def _read_ceiling(cursor: Cursor) -> Mass:
    ceiling = read_mass(cursor)
    if ceiling.first is not ceiling.last:
        cursor.fail("one_number", ceiling.first, ceiling.last)
    return ceiling


def _read_reserve(cursor: Cursor) -> int:
    before = cursor.accept("rir")
    figures = cursor.figures("rir_needs_number")
    if figures.first is not figures.last:
        cursor.fail("one_number", figures.first, figures.last)
    if not before:
        cursor.take()
    cursor.require_within("rir_limits", figures.first, figures.low, 0, MOST_RIR)
    halves = 2 * figures.low
    if halves != int(halves):
        cursor.fail("half_steps", figures.first)
    return int(halves)


def _read_tempo(cursor: Cursor) -> str:
    token = cursor.take()
    try:
        return str(parse_tempo(token.text))
    except ValueError:
        cursor.fail("tempo", token)


def _require_end(cursor: Cursor) -> None:
    token = cursor.peek()
    if cursor.at("/", "each", "per"):
        cursor.fail("side_after_load", token)
    if cursor.at("@"):
        cursor.fail("twice", token)
    if token.kind != "end":
        cursor.fail("unexpected", token)


def _rule(cursor: Cursor, load: Load, tail: _Tail) -> LoadRule:
    if load.rule == "find" and tail.rir_half is None:
        cursor.fail("find_needs_rir", load.token)
    if load.rule == "none" and tail.rir_half is not None:
        return "rir"
    return load.rule


def _check_ceiling(cursor: Cursor, mass: Mass | None, ceiling: Mass | None, rule: LoadRule) -> None:
    if ceiling is None:
        return
    if rule in {"none", "fixed"}:
        cursor.fail("ceiling_unexpected", ceiling.first)
    if mass is None:
        return
    if mass.unit != ceiling.unit:
        cursor.fail("one_unit", ceiling.first, unit=mass.unit)
    highest: Decimal = mass.high or mass.low
    if ceiling.low < highest:
        cursor.fail("ceiling_below_load", ceiling.first, ceiling=ceiling.first.text, load=mass.last.text)
