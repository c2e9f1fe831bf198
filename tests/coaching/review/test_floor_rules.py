"""The checks of a floor: stock and staff against those who come."""

from __future__ import annotations

from dataclasses import replace

import pytest

from coachhub.coaching.facts import SessionFacts
from coachhub.coaching.review import RULES, Finding, Floor, Thresholds, read, review_floor
from tests.coaching.review.written import EXERCISES, rows, session, with_line

ADULTS = Floor((24,) * 12)
# A set of 15 s and 30 s to the next: each athlete at the rack takes 45 s, and rests 180 s.
SQUATS = session(rows("A", 4, "front_squat 5 @ 85%", rest=(180, 180)))
BENCHES = session(rows("A", 3, "bench 8 @ 2 RIR", rest=(120, 120)))


def found_on(floor: Floor, written: SessionFacts = SQUATS) -> tuple[Finding, ...]:
    return review_floor(read(written), floor)


def test_floor_of_which_nothing_is_known_gives_nothing() -> None:
    assert found_on(Floor(())) == ()


@pytest.mark.parametrize(("athletes", "found"), [(6, ()), (7, ("90",))])
def test_equipment_is_short_when_the_last_one_waits_too_long(athletes: int, found: tuple[str, ...]) -> None:
    """Six at one rack: 5 × 45 s = 225 s of others' work in 180 s of rest; 45 s of waiting. Seven: 90 s."""
    floor = Floor((24,) * athletes, counts={"barbell": 3, "rack": 1})

    result = found_on(floor)

    assert tuple(one.found for one in result) == found
    assert all((one.code, one.limit, one.suggestion) == ("equipment_short", "60", "spread_out") for one in result)


def test_equipment_short_names_line_athletes_and_stations() -> None:
    (short,) = found_on(Floor((24,) * 20, counts={"barbell": 3, "rack": 2}))

    assert (short.labels, dict(short.params)) == (("A1",), {"name": "Front squat", "athletes": "20", "stations": "2"})


def test_pair_of_dumbbells_is_counted_as_two() -> None:
    lunges = session(rows("A", 3, "lunge 8/side", rest=(60, 60)))

    (short,) = found_on(Floor((24,) * 8, counts={"dumbbell": 3}), lunges)

    assert dict(short.params)["stations"] == "1"


def test_line_without_its_equipment_is_missing_unless_a_swap_can_be_done() -> None:
    bands = Floor((24,) * 4, counts={"mini_band": 10})
    swapped = session(with_line(SQUATS.groups[0], 1, swap_ids=(EXERCISES["press_up"].id,)))

    (missing,) = found_on(bands)

    assert (missing.code, missing.labels, missing.suggestion) == ("equipment_missing", ("A1",), "allow_swap")
    assert found_on(bands, swapped) == ()


def test_unsupervised_floor_names_all_that_wants_a_supervisor() -> None:
    written = session(rows("A", 3, "bench 8 @ 2 RIR", "goblet 8", "rdl 8 @ 3 RIR"))

    (alone,) = found_on(replace(ADULTS, is_supervised=False), written)

    assert (alone.code, alone.severity, alone.labels, alone.suggestion) == (
        "alone",
        "warning",
        ("A1", "A3"),
        "supervise",
    )
    assert found_on(replace(ADULTS, is_supervised=True), written) == ()


@pytest.mark.parametrize(
    ("ages", "staff", "code", "figures"),
    [
        ((14,) * 11, 1, "ratio_to_14", ("11", "10")),
        ((17,) * 16, 1, "ratio_to_17", ("16", "15")),
        ((24,) * 21, 1, "ratio_adults", ("21", "20")),
        ((24,) * 20 + (15,), 1, "ratio_to_17", ("21", "15")),
        ((24,), 0, "ratio_adults", ("1", "20")),
    ],
)
def test_too_many_athletes_for_the_staff_are_a_warning(
    ages: tuple[int, ...], staff: int, code: str, figures: tuple[str, str]
) -> None:
    (found,) = found_on(Floor(ages, staff=staff))

    assert (found.code, found.severity, (found.found, found.limit)) == (code, "warning", figures)
    assert (found.suggestion, dict(found.params)["athletes"]) == ("more_staff", str(len(ages)))


@pytest.mark.parametrize(("ages", "staff"), [((14,) * 10, 1), ((15,) * 15, 1), ((18,) * 20, 1), ((14,) * 20, 2)])
def test_athletes_at_the_ratio_are_no_finding(ages: tuple[int, ...], staff: int) -> None:
    assert found_on(Floor(ages, staff=staff)) == ()


@pytest.mark.parametrize(("benches", "codes"), [(2, []), (3, ["spotting_stations"])])
def test_more_spotting_stations_than_staff_can_watch_are_a_warning(benches: int, codes: list[str]) -> None:
    counts = {"barbell": 9, "bench": benches}

    found = found_on(Floor((24,) * 6, staff=1, counts=counts), BENCHES)

    assert [one.code for one in found] == codes
    assert [(one.labels, one.found, one.limit) for one in found] == [(("A1",), "3", "2")] * len(codes)


@pytest.mark.parametrize("code", [code for code, rule in RULES.items() if rule.scope == "floor"])
def test_floor_rule_that_is_off_says_nothing(code: str) -> None:
    everything_wrong = session(rows("A", 3, "bench 8 @ 2 RIR", "front_squat 5 @ 85%", "row 8/side", rest=(30, 30)))
    floors = [
        Floor((age,) * 60, staff=staff, is_supervised=is_supervised, counts={"barbell": 9, "bench": 9, "rack": 1})
        for age in (13, 16, 24)
        for staff, is_supervised in ((1, True), (None, False))
    ]

    said = {one.code for floor in floors for one in found_on(floor, everything_wrong)}
    off = Thresholds(off=frozenset({code}))
    left = {one.code for floor in floors for one in review_floor(read(everything_wrong), floor, off)}

    assert left == said - {code}
    assert said == {code for code, rule in RULES.items() if rule.scope == "floor"}
