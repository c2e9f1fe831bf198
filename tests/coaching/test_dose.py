from decimal import Decimal
from typing import Any

import pytest

from coachhub.coaching.notation import Dose

FIXED: dict[str, Any] = {"rule": "fixed", "load": Decimal(60), "load_unit": "kg"}


@pytest.mark.parametrize(
    ("parts", "rule"),
    [
        ({"sets_min": 3}, "both ends of the sets"),
        ({"sets_min": 4, "sets_max": 3}, "1 to 20 sets"),
        ({"low": 0}, "reps from 1 to 100"),
        ({"high": 8}, "the smaller amount first"),
        ({"low": Decimal("8.5")}, "whole reps"),
        ({"kind": "distance", "low": Decimal("7.125")}, "distance from 1 to 5000"),
        ({"kind": "distance", "low": Decimal("NaN")}, "distance from 1 to 5000"),
        ({"load_unit": "kg"}, "a unit exactly where a mass is"),
        ({"rule": "fixed"}, "a fixed load has a mass"),
        ({"rule": "fixed", "load": Decimal(60)}, "a unit exactly where a mass is"),
        ({**FIXED, "load": Decimal(0)}, "a load above 0"),
        ({**FIXED, "load": Decimal(501)}, "at most 500"),
        ({**FIXED, "load_high": Decimal(60)}, "the smaller load first"),
        ({**FIXED, "ceiling": Decimal(80)}, "a ceiling goes with"),
        ({**FIXED, "rule": "last"}, "a mass goes with"),
        ({**FIXED, "hands": 3}, "the smaller load first"),
        ({"hands": 2}, "a range or a pair has a mass"),
        ({"rule": "percent"}, "a percentage where the rule is percent"),
        ({"percent_high": Decimal(80)}, "a range has a lower end"),
        ({"rule": "percent", "percent": Decimal(101)}, "1 to 100 %"),
        ({"rule": "percent", "percent": Decimal(80), "percent_high": Decimal(75)}, "the smaller percentage first"),
        ({"rule": "find"}, "this rule has a reserve"),
        ({"rir_half": 4}, "a reserve alone is the rule rir"),
        ({"rule": "rir", "rir_half": 13}, "0 to 6 in reserve"),
        ({"rule": "words"}, "words where the rule is words"),
        ({"rule": "words", "words": 'say "heavy"'}, "without quotation marks"),
        ({"rule": "words", "words": " heavy"}, "words on one line"),
        ({"tempo": "20x1"}, "the tempo has a capital X"),
        ({"tempo": "311"}, "tempo must be four figures"),
    ],
)
def test_contradicting_dose_is_refused(parts: dict[str, Any], rule: str) -> None:
    with pytest.raises(ValueError, match=rule):
        Dose(**{"low": 8, **parts})
