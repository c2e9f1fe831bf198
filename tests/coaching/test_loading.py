from decimal import Decimal
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachhub.coaching.loading import (
    Bar,
    BarLoad,
    Plate,
    TooLight,
    Weight,
    at_or_below,
    load_bar,
    loadable_totals,
    pick_weight,
    step_above,
)
from coachhub.science.units import to_kg

BAR = Bar("bar", Decimal(20), "kg")
MASSES = tuple(map(Decimal, ("0.25", "0.5", "1", "1.25", "2", "2.5", "5", "7.5", "10", "15", "20", "25")))
plates = st.lists(st.builds(Plate, st.sampled_from(MASSES), st.just("kg"), st.integers(0, 3)), max_size=5).map(tuple)
bars = st.builds(
    Bar,
    st.just("bar"),
    st.sampled_from((Decimal(7), Decimal(15), Decimal(20))),
    st.just("kg"),
    st.sampled_from(MASSES[:6]),
)
targets = st.decimals(min_value=0, max_value=300, places=3)


def kg(*plates: tuple[str, int]) -> tuple[Plate, ...]:
    return tuple(Plate(Decimal(mass), "kg", pairs) for mass, pairs in plates)


def every_side(stock: tuple[Plate, ...]) -> list[tuple[Decimal, ...]]:
    """Every way to load one side, by trying all counts."""
    ways = product(*(range(plate.pairs + 1) for plate in stock))
    sides = ([plate.mass for plate, used in zip(stock, way, strict=True) for _ in range(used)] for way in ways)
    return [tuple(sorted(side, reverse=True)) for side in sides]


@given(target=targets, bar=bars, stock=plates)
def test_load_equals_trying_everything(target: Decimal, bar: Bar, stock: tuple[Plate, ...]) -> None:
    empty = bar.mass + 2 * bar.collar
    fitting = [side for side in every_side(stock) if empty + 2 * sum(side) <= target]
    expected: BarLoad | TooLight = TooLight(empty, "kg")
    if fitting:
        side = max(fitting, key=lambda side: (sum(side), -len(side), [-mass for mass in side]))
        total = empty + 2 * sum(side, Decimal(0))
        expected = BarLoad(total, side, target - total)
    assert load_bar(target, bar, stock) == expected


@given(bar=bars, stock=plates)
def test_totals_equal_trying_everything(bar: Bar, stock: tuple[Plate, ...]) -> None:
    empty = bar.mass + 2 * bar.collar
    assert loadable_totals(bar, stock) == tuple(sorted({empty + 2 * sum(side) for side in every_side(stock)}))


@given(bar=bars, stock=plates)
def test_every_total_loads_without_remainder(bar: Bar, stock: tuple[Plate, ...]) -> None:
    loads = [load_bar(total, bar, stock) for total in loadable_totals(bar, stock)]
    assert [load.short_by for load in loads if isinstance(load, BarLoad)] == [0] * len(loads)


def test_load_where_the_heaviest_first_fails() -> None:
    load = load_bar(Decimal(80), BAR, kg(("25", 1), ("15", 2)))
    assert load == BarLoad(Decimal(80), (Decimal(15), Decimal(15)), Decimal(0))


def test_load_with_as_many_plates_prefers_the_even_one() -> None:
    load = load_bar(Decimal(80), BAR, kg(("10", 1), ("20", 1), ("5", 1), ("25", 1)))
    assert load == BarLoad(Decimal(80), (Decimal(20), Decimal(10)), Decimal(0))


def test_load_ignores_the_order_of_the_stock() -> None:
    stock = kg(("25", 1), ("15", 2), ("5", 1))
    assert load_bar(Decimal("71.7"), BAR, stock) == load_bar(Decimal("71.7"), BAR, stock[::-1])


def test_load_ignores_plates_of_the_other_unit() -> None:
    mixed = (*kg(("10", 1)), Plate(Decimal(45), "lb", 2))
    assert load_bar(Decimal(120), BAR, mixed) == BarLoad(Decimal(40), (Decimal(10),), Decimal(80))


def test_load_below_the_bar_and_collars_is_too_light() -> None:
    bar = Bar("bar", Decimal(20), "kg", Decimal("2.5"))
    assert load_bar(Decimal("24.9"), bar, kg(("5", 1))) == TooLight(Decimal(25), "kg")


def test_step_above_the_last_total_is_none() -> None:
    totals = loadable_totals(BAR, kg(("5", 1), ("1.25", 1)))
    found = [step_above(Decimal(value), totals) for value in ("0", "20", "22.4", "30", "32.5")]
    assert found == [Decimal(20), Decimal("22.5"), Decimal("22.5"), Decimal("32.5"), None]


def test_at_or_below_the_first_total_is_none() -> None:
    totals = loadable_totals(BAR, kg(("5", 1), ("1.25", 1)))
    found = [at_or_below(Decimal(value), totals) for value in ("19.9", "20", "22.4", "30", "99")]
    assert found == [None, Decimal(20), Decimal(20), Decimal(30), Decimal("32.5")]


def test_target_that_is_not_finite_is_refused() -> None:
    with pytest.raises(ValueError, match="target must be finite"):
        load_bar(Decimal("NaN"), BAR, ())


@pytest.mark.parametrize("mass", ["0", "-5", "1.2345", "NaN", "Infinity"])
def test_plate_without_a_mass_is_refused(mass: str) -> None:
    with pytest.raises(ValueError, match="plate's mass must"):
        Plate(Decimal(mass), "kg", 1)


def test_negative_pairs_are_refused() -> None:
    with pytest.raises(ValueError, match="pairs must be 0 or more"):
        Plate(Decimal(5), "kg", -1)


def test_negative_collar_is_refused() -> None:
    with pytest.raises(ValueError, match="collar's mass must be 0 or more"):
        Bar("bar", Decimal(20), "kg", Decimal(-1))


RACK = tuple(
    Weight("dumbbell", Decimal(mass), "kg", count) for mass, count in (("16", 2), ("12", 2), ("8", 1), ("14", 1))
)


@pytest.mark.parametrize(
    ("target", "pair", "expected"),
    [
        ("16", True, RACK[0]),
        ("15.9", True, RACK[1]),
        ("15.9", False, RACK[3]),
        ("99", False, RACK[0]),
        ("11", True, TooLight(Decimal(12), "kg")),
        ("7", False, TooLight(Decimal(8), "kg")),
    ],
)
def test_pick_is_the_heaviest_that_fits(target: str, pair: bool, expected: Weight | TooLight) -> None:
    assert pick_weight(Decimal(target), RACK, pair=pair) == expected


def test_pick_from_a_rack_without_pairs_is_none() -> None:
    assert pick_weight(Decimal(20), RACK[2:], pair=True) is None


@given(target=targets)
def test_pick_from_mixed_units_compares_exactly(target: Decimal) -> None:
    rack = (Weight("kettlebell", Decimal(16), "kg", 1), Weight("dumbbell", Decimal(35), "lb", 1))
    fitting = [weight for weight in rack if to_kg(weight.mass, weight.unit) <= target]
    expected = max(fitting, key=lambda weight: to_kg(weight.mass, weight.unit), default=TooLight(Decimal(35), "lb"))
    assert pick_weight(target, rack, pair=False) == expected


def test_pick_of_equal_weights_is_the_first_listed() -> None:
    rack = (Weight("dumbbell", Decimal(16), "kg", 2), Weight("kettlebell", Decimal(16), "kg", 2))
    assert pick_weight(Decimal(16), rack, pair=True) == rack[0]
