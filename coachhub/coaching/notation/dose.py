"""A dose: how much of an exercise, at what load."""

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from coachhub.science.tempo import parse_tempo
from coachhub.science.units import Unit

DoseKind = Literal["reps", "time", "distance", "contacts", "hold"]
LoadRule = Literal["none", "fixed", "percent", "rir", "last", "find", "words"]
Per = Literal["", "side", "direction"]

MOST_SETS = 20
MOST_RIR = 6
MOST_PERCENT = 100
MOST_LOAD: dict[Unit, int] = {"kg": 500, "lb": 1100}
MOST_OF: dict[DoseKind, int] = {"reps": 100, "time": 7200, "distance": 5000, "contacts": 200, "hold": 7200}
MOST_WORDS = 120
"""Characters between the quotation marks."""
QUOTES = '"“”'

_MASS_RULES = ("fixed", "words")
_CEILING_RULES = ("percent", "rir", "last", "find", "words")


@dataclass(frozen=True, slots=True, kw_only=True)
class Dose:
    """One line's prescription; ValueError where the parts contradict each other.

    `sets_min` and `sets_max` are both set or both None; `high`, `load_high` and
    `percent_high` are None for a single figure. Times are in seconds, distances in
    metres, `rir_half` in half repetitions in reserve. `load` is per hand where
    `hands` is 2. The rule is "rir" where the reserve alone decides the load, and
    "none" where nothing is said of a load (bodyweight).
    """

    sets_min: int | None = None
    sets_max: int | None = None
    kind: DoseKind = "reps"
    low: int | Decimal
    high: int | Decimal | None = None
    per: Per = ""
    rule: LoadRule = "none"
    load: Decimal | None = None
    load_high: Decimal | None = None
    load_unit: Unit | None = None
    hands: Literal[1, 2] = 1
    percent: Decimal | None = None
    percent_high: Decimal | None = None
    rir_half: int | None = None
    tempo: str | None = None
    words: str | None = None
    ceiling: Decimal | None = None

    def __post_init__(self) -> None:
        _check_sets(self)
        _check_amount(self)
        _check_masses(self)
        _check_percent(self)
        _check_reserve(self)
        _check_words(self)
        if self.tempo is not None:
            _require(str(parse_tempo(self.tempo)) == self.tempo, "the tempo has a capital X")


def _require(holds: bool, rule: str) -> None:
    if not holds:
        raise ValueError(f"not a dose: {rule}")


def _is_range(low: int | Decimal, high: int | Decimal | None) -> bool:
    return high is None or low < high


def _is_within(value: int | Decimal, lowest: int, most: int) -> bool:
    finite = isinstance(value, int) or value.is_finite()
    return finite and lowest <= value <= most and value == round(value, 2)


def _check_sets(dose: Dose) -> None:
    if dose.sets_min is None or dose.sets_max is None:
        _require(dose.sets_min is dose.sets_max, "both ends of the sets, or none")
    else:
        _require(1 <= dose.sets_min <= dose.sets_max <= MOST_SETS, f"1 to {MOST_SETS} sets")


def _check_amount(dose: Dose) -> None:
    most = MOST_OF[dose.kind]
    for value in (dose.low, dose.low if dose.high is None else dose.high):
        _require(_is_within(value, 1, most), f"{dose.kind} from 1 to {most}")
        _require(dose.kind == "distance" or value == int(value), f"whole {dose.kind}")
    _require(_is_range(dose.low, dose.high), "the smaller amount first")


def _check_masses(dose: Dose) -> None:
    masses = [mass for mass in (dose.load, dose.load_high, dose.ceiling) if mass is not None]
    _require((dose.load_unit is None) == (not masses), "a unit exactly where a mass is")
    for mass in masses:
        most = MOST_LOAD[dose.load_unit or "kg"]
        _require(_is_within(mass, 0, most) and mass > 0, f"a load above 0 and at most {most}")
    _check_load(dose)
    _check_ceiling(dose)


def _check_load(dose: Dose) -> None:
    if dose.load is None:
        _require(dose.rule != "fixed", "a fixed load has a mass")
        _require(dose.load_high is None and dose.hands == 1, "a range or a pair has a mass")
    else:
        _require(dose.rule in _MASS_RULES, "a mass goes with a fixed load or words")
        _require(dose.hands in (1, 2) and _is_range(dose.load, dose.load_high), "the smaller load first")


def _check_ceiling(dose: Dose) -> None:
    if dose.ceiling is not None:
        _require(dose.rule in _CEILING_RULES, "a ceiling goes with a load that is still to be found")
        _require(dose.ceiling >= (dose.load_high or dose.load or 0), "a ceiling at or above the load")


def _check_percent(dose: Dose) -> None:
    _require((dose.percent is not None) == (dose.rule == "percent"), "a percentage where the rule is percent")
    if dose.percent is None:
        _require(dose.percent_high is None, "a range has a lower end")
        return
    for value in (dose.percent, dose.percent_high or dose.percent):
        _require(_is_within(value, 1, MOST_PERCENT), f"1 to {MOST_PERCENT} %")
    _require(_is_range(dose.percent, dose.percent_high), "the smaller percentage first")


def _check_reserve(dose: Dose) -> None:
    if dose.rir_half is None:
        _require(dose.rule not in ("rir", "find"), "this rule has a reserve")
    else:
        _require(dose.rule != "none", "a reserve alone is the rule rir")
        _require(0 <= dose.rir_half <= 2 * MOST_RIR, f"0 to {MOST_RIR} in reserve")


def _check_words(dose: Dose) -> None:
    _require((dose.words is not None) == (dose.rule == "words"), "words where the rule is words")
    if dose.words is not None:
        _require(is_plain_words(dose.words), "words on one line, without quotation marks")


def is_plain_words(words: str) -> bool:
    """Whether `words` can stand between quotation marks as they are."""
    return (
        0 < len(words) <= MOST_WORDS
        and words == " ".join(words.split())
        and words.isprintable()
        and not any(quote in words for quote in QUOTES)
    )
