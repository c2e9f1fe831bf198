"""Strategies for doses and for texts that look like one."""

from decimal import Decimal
from typing import Any

from hypothesis import strategies as st

from coachhub.coaching.notation.dose import MOST_LOAD, MOST_OF, Dose, DoseKind, LoadRule, is_plain_words
from coachhub.science.units import Unit

KINDS: tuple[DoseKind, ...] = ("reps", "time", "distance", "contacts", "hold")
RULES: tuple[LoadRule, ...] = ("none", "fixed", "percent", "rir", "last", "find", "words")
UNITS: tuple[Unit, ...] = ("kg", "lb")

figures = st.text("0123456789X", min_size=4, max_size=4)
tempos = figures.filter(lambda text: "X" not in text[1::2] and text != "0000")
words = st.text(min_size=1, max_size=40).map(lambda text: " ".join(text.split())).filter(is_plain_words)
SHAPES = [
    ["3", "4-6", "8", "62,5", "20", "0", "999"],
    ["x", "×", "@", "/", "%", "-", "–", ",", "."],
    ["kg", "lb", "kgg", "m", "s", "min", "sec", "hold", "contacts", "reps"],
    ["RIR", "last", "find", "bw", "max", "side", "leg", "each", "per", "direction"],
    ["t3110", "t20X1", "t311", "tempo", '"heavy"', '"', "“"],
    ["#", "½", "É", "٣"],
]
PIECES = [piece for shape in SHAPES for piece in shape]


@st.composite
def doses(draw: st.DrawFn) -> Dose:
    kind = draw(st.sampled_from(KINDS))
    rule = draw(st.sampled_from(RULES))
    low, high = draw(_amounts(kind))
    return Dose(
        **draw(_sets()),
        kind=kind,
        low=low,
        high=high,
        per=draw(st.sampled_from(("", "side", "direction"))),
        rule=rule,
        **draw(_masses(rule)),
        **draw(_percents(rule)),
        rir_half=draw(_reserves(rule)),
        tempo=draw(st.none() | tempos),
        words=draw(words) if rule == "words" else None,
    )


def notation_like() -> st.SearchStrategy[str]:
    pieces = st.lists(st.sampled_from(PIECES), max_size=14)
    return st.builds(str.join, st.sampled_from(("", " ", "  ")), pieces)


def _ends(low: Any, high: Any) -> tuple[Any, Any]:
    low, high = sorted((low, high))
    return low, None if low == high else high


@st.composite
def _sets(draw: st.DrawFn) -> dict[str, Any]:
    if draw(st.booleans()):
        return {}
    low, high = sorted((draw(st.integers(1, 20)), draw(st.integers(1, 20))))
    return {"sets_min": low, "sets_max": high}


@st.composite
def _amounts(draw: st.DrawFn, kind: DoseKind) -> tuple[Any, Any]:
    whole = st.integers(1, MOST_OF[kind])
    amount: st.SearchStrategy[int | Decimal] = whole
    if kind == "distance":
        amount = st.decimals(1, MOST_OF[kind], places=2)
    low = draw(amount)
    return _ends(low, draw(st.just(low) | amount))


@st.composite
def _masses(draw: st.DrawFn, rule: LoadRule) -> dict[str, Any]:
    unit = draw(st.sampled_from(UNITS))
    mass = st.decimals(Decimal("0.01"), MOST_LOAD[unit], places=2)
    parts: dict[str, Any] = {}
    if rule == "fixed" or (rule == "words" and draw(st.booleans())):
        load, load_high = _ends(draw(mass), draw(mass))
        parts = {"load": load, "load_high": load_high, "hands": draw(st.sampled_from((1, 2)))}
    if rule not in {"none", "fixed"} and draw(st.booleans()):
        lowest = parts.get("load_high") or parts.get("load") or Decimal("0.01")
        parts["ceiling"] = draw(st.decimals(lowest, MOST_LOAD[unit], places=2))
    return {**parts, "load_unit": unit} if parts else {}


@st.composite
def _percents(draw: st.DrawFn, rule: LoadRule) -> dict[str, Any]:
    if rule != "percent":
        return {}
    percent = st.decimals(1, 100, places=1)
    low, high = _ends(draw(percent), draw(percent))
    return {"percent": low, "percent_high": high}


def _reserves(rule: LoadRule) -> st.SearchStrategy[int | None]:
    reserve = st.integers(0, 12)
    if rule == "none":
        return st.none()
    return reserve if rule in {"rir", "find"} else st.none() | reserve
