"""Sets parted into scales, and what a day's sets add up to."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pytest

from coachhub.coaching.facts import Mass
from coachhub.insight.strands import DoneSet, strands_of
from tests.published.figures import rows

DAY = date(2026, 3, 2)
D = Decimal


def done(value: str = "", unit: str = "kg", *, reps: int | None = 5, days: int = 0, **more: Any) -> DoneSet:
    told: dict[str, Any] = {"venue_id": 1, "venue": "Mill Lane gym", "meaning": "bar_total"} | more
    load = Mass(D(value), unit) if value else None  # type: ignore[arg-type]  # a unit written in the test
    return DoneSet(on_date=DAY + timedelta(days=days), load=load, reps=reps, **told)


def scales(*sets: DoneSet, unit: Any = "kg") -> list[tuple[str, str, str, str]]:
    return [(s.meaning, s.venue, s.scale, s.work_scale) for s in strands_of(sets, unit)]


def test_kilograms_and_pounds_share_a_scale_exactly() -> None:
    (strand,) = strands_of([done("100"), done("220.462262", "lb", days=1)], "kg")
    assert [dot.value.quantize(D("0.00001")) for day in strand.days for dot in day.dots] == [D(100), D("100.00000")]


def test_scale_is_the_one_that_the_athlete_reads() -> None:
    (strand,) = strands_of([done("45.359237")], "lb")
    assert (strand.scale, strand.days[0].best.value) == ("lb", D(100))


def test_machine_settings_stay_apart_by_venue() -> None:
    hall: dict[str, Any] = {"venue_id": 2, "venue": "School hall", "meaning": "machine"}
    assert scales(done("40", meaning="machine", days=1), done("60", **hall)) == [
        ("machine", "Mill Lane gym", "kg", "kg"),
        ("machine", "School hall", "kg", "kg"),
    ]


def test_bar_is_the_same_bar_at_every_venue() -> None:
    assert len(strands_of([done("40"), done("60", venue_id=2, venue="School hall")], "kg")) == 1


def test_plate_numbers_stand_apart_from_masses_and_are_never_converted() -> None:
    machine: dict[str, Any] = {"meaning": "machine"}
    strands = strands_of([done("40", **machine, days=1), done("7", "pl", **machine)], "lb")
    assert [(s.scale, s.work_scale, s.days[0].best.value.quantize(D(1))) for s in strands] == [
        ("lb", "lb", D(88)),
        ("pl", "reps", D(7)),
    ]


def test_set_without_a_load_stands_apart_from_those_with_one() -> None:
    chin: dict[str, Any] = {"meaning": "added"}
    assert scales(done("5", **chin), done(**chin)) == [("added", "", "kg", "reps"), ("", "", "reps", "reps")]


@pytest.mark.parametrize(
    ("more", "scale", "work_scale"),
    [
        ({"time_s": 30}, "s", "s"),
        ({"distance_m": D(20)}, "m", "m"),
        ({"height_cm": D(41)}, "cm", ""),
    ],
)
def test_sets_without_a_load_are_read_in_what_they_are_measured_by(
    more: dict[str, Any], scale: str, work_scale: str
) -> None:
    assert scales(done(reps=None, **more)) == [("", "", scale, work_scale)]


def test_best_set_is_the_heaviest_then_the_one_with_most_reps() -> None:
    (strand,) = strands_of([done("60", reps=8), done("62.5", reps=3), done("62.5")], "kg")
    best = strand.days[0].best
    assert (best.value, best.done.reps) == (D("62.5"), 5)


def test_best_assisted_set_is_the_one_with_least_help() -> None:
    (strand,) = strands_of([done("20", meaning="assistance"), done("15", meaning="assistance")], "kg")
    assert strand.days[0].best.value == D(15)


def volume(*sets: DoneSet) -> Decimal | None:
    (strand,) = strands_of(sets, "kg")
    (day,) = strand.days
    return day.work


@pytest.mark.parametrize("row", rows("volume_load_checks.csv"), ids=lambda row: row["sets_load_x_reps"])
def test_volume_of_a_day_is_as_the_checked_table_has_it(row: dict[str, str]) -> None:
    """Source: NSCA Essentials of Strength Training and Conditioning, volume-load."""
    sets = [one.split("x") for one in row["sets_load_x_reps"].split()]
    assert volume(*(done(load, reps=int(reps)) for load, reps in sets)) == D(row["volume_load_kg"])


def test_pair_of_dumbbells_counts_with_both_masses() -> None:
    assert volume(done("12", meaning="per_hand", reps=8)) == D(192)  # 2 x 12 kg x 8


def test_both_sides_under_one_entry_count_twice() -> None:
    assert volume(done("20", meaning="single", times=2)) == D(200)


def test_added_load_is_not_multiplied() -> None:
    """The body is part of what was lifted, and nobody weighs it here: repetitions are all that adds up."""
    assert volume(done("5", meaning="added"), done("5", meaning="added", reps=4)) == D(9)


def test_loaded_carry_adds_up_its_metres() -> None:
    walk: dict[str, Any] = {"meaning": "per_hand", "reps": None, "distance_m": D(20)}
    (strand,) = strands_of([done("24", **walk), done("24", **walk)], "kg")
    assert (strand.work_scale, strand.days[0].work) == ("m", D(40))


def test_loaded_sets_counted_in_different_things_add_up_to_nothing() -> None:
    (strand,) = strands_of([done("24"), done("24", reps=None, time_s=30)], "kg")
    assert (strand.work_scale, strand.days[0].work) == ("", None)
