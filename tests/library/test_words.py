"""Codes in the words that people read."""

from __future__ import annotations

from decimal import Decimal

import pytest

from coachhub.library.models import EquipmentNeed, Exercise
from coachhub.library.words import demand_words, equipment_words, mass_words


@pytest.mark.parametrize(
    ("groups", "expected"),
    [
        ([], "nothing"),
        ([["bench"]], "bench"),
        ([["dumbbell", "kettlebell"]], "dumbbell or kettlebell"),
        ([["rack", "box", "wall"]], "rack or box or wall"),
        ([["barbell"], ["rack"], ["safety_arms", "partner"]], "barbell and rack and (safety arms or partner)"),
    ],
)
def test_equipment_reads_as_a_coach_would_say_it(groups: list[list[str]], expected: str) -> None:
    needs = [EquipmentNeed(group=n, kind=kind) for n, kinds in enumerate(groups) for kind in kinds]

    assert equipment_words(needs) == expected


def test_demands_are_listed_and_empty_without_any() -> None:
    assert demand_words(Exercise(is_impact=True, is_grip=True)) == "impact, heavy grip"
    assert demand_words(Exercise()) == ""


@pytest.mark.parametrize(("value", "expected"), [("20.00", "20 kg"), ("2.50", "2.5 kg"), ("100", "100 kg")])
def test_masses_drop_zeros_that_say_nothing(value: str, expected: str) -> None:
    assert mass_words(Decimal(value), "kg").replace("\N{NO-BREAK SPACE}", " ") == expected
