"""What stands against a line, and what takes its place."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachhub.coaching.facts import AthleteFacts, PainFacts, RegionLoad, RestrictionFacts
from coachhub.coaching.obstacles import loaded_sides, loads_region
from tests.coaching.samples import ADULT, BRIDGE, GOBLET, GYM, HIP_HINGE, MINOR, ROAD, SQUAT, card, codes, kg, line

KNEE = RestrictionFacts(1, "region", region="knee", side="left")


def restricted(athlete: AthleteFacts = ADULT, **fields: Any) -> AthleteFacts:
    return replace(athlete, restrictions=(RestrictionFacts(1, **fields),))


@pytest.mark.parametrize(
    ("kind", "fields"),
    [
        ("region", {"region": "knee"}),
        ("pattern", {"pattern": "squat"}),
        ("exercise", {"exercise_id": SQUAT.id}),
    ],
)
def test_restricted_line_is_dropped_with_its_reason(kind: str, fields: dict[str, Any]) -> None:
    (front,) = card(line("5 @ 60 kg"), athlete=restricted(kind=kind, **fields))
    assert (front.status, codes(front)) == ("dropped", ["restricted", "dropped", "pattern_lost"])


@pytest.mark.parametrize(
    ("kind", "flag"),
    [("impact", "is_impact"), ("overhead", "is_overhead"), ("grip", "is_grip"), ("range", "is_deep_range")],
)
def test_restricted_demand_drops_only_what_makes_it(kind: str, flag: str) -> None:
    demanding = replace(SQUAT, **{flag: True})  # type: ignore[arg-type]
    athlete = restricted(kind=kind)
    (with_it,) = card(line("5"), athlete=athlete, exercises={1: demanding})
    (without,) = card(line("5"), athlete=athlete)
    assert (with_it.status, without.status) == ("dropped", "planned")


@pytest.mark.parametrize("kind", ["region", "impact", "overhead", "grip", "range"])
def test_exercise_nobody_reviewed_counts_as_loading_everything(kind: str) -> None:
    unknown = replace(BRIDGE, id=1, regions=(), is_regions_reviewed=False)
    (bridge,) = card(
        line("10", unknown),
        athlete=restricted(kind=kind, region="elbow" if kind == "region" else ""),
        exercises={1: unknown},
    )
    assert (bridge.status, codes(bridge)[0]) == ("dropped", "restricted_unreviewed")


def test_named_exception_lets_the_exercise_stay_up_to_its_cap() -> None:
    athlete = restricted(kind="region", region="knee", exceptions=((SQUAT.id, kg(20)),))
    (front,) = card(line("5 @ 60 kg"), athlete=athlete)
    assert (front.status, front.load, codes(front)[-1]) == ("planned", kg(20), "restriction_cap")


def test_coachs_swaps_are_tried_in_their_order() -> None:
    (first,) = card(line("5", swaps=(BRIDGE.id, HIP_HINGE.id)), athlete=restricted(kind="pattern", pattern="squat"))
    assert (first.exercise, first.written_id) == (BRIDGE, SQUAT.id)


def test_swap_that_is_restricted_too_is_passed_over() -> None:
    (first,) = card(line("5", swaps=(GOBLET.id, BRIDGE.id)), athlete=restricted(kind="region", region="knee"))
    assert first.exercise == BRIDGE


def test_swap_never_comes_twice_on_a_card() -> None:
    athlete = restricted(kind="region", region="knee")
    one, two = card(line("5", swaps=(BRIDGE.id,)), line("5", GOBLET, swaps=(BRIDGE.id,)), athlete=athlete)
    assert (one.exercise, two.status) == (BRIDGE, "dropped")


def test_equipment_that_is_not_there_swaps_or_drops() -> None:
    (front,) = card(line("5", swaps=(BRIDGE.id,)), venue=ROAD)
    (alone,) = card(line("5"), venue=ROAD)
    assert (front.exercise, alone.status, codes(alone)[:2]) == (BRIDGE, "dropped", ["no_equipment", "no_equipment"])


def test_any_kind_of_a_group_will_do() -> None:
    (goblet,) = card(line("5", GOBLET), venue=replace(GYM, kinds=frozenset(("kettlebell",))))
    assert goblet.status == "planned"


def test_minor_alone_gets_only_exercises_cleared_for_it() -> None:
    alone = replace(GYM, is_supervised=False)
    squat, bridge = card(line("5"), line("10", BRIDGE), athlete=MINOR, venue=alone)
    (adult,) = card(line("5"), venue=alone)
    assert (squat.status, codes(squat)[0], bridge.status, adult.status) == (
        "dropped",
        "unsupervised",
        "planned",
        "planned",
    )


@pytest.mark.parametrize("text", ["1 @ 100%", "1 @ 95%", "1 @ 0 RIR"])
def test_no_maximal_test_under_sixteen(text: str) -> None:
    (young,) = card(line(text), athlete=MINOR)
    (sixteen,) = card(line(text), athlete=replace(MINOR, age=16))
    assert (young.status, codes(young)[0], sixteen.status) == ("dropped", "maximal_young", "planned")


@pytest.mark.parametrize(
    ("athlete", "score", "status"),
    [(ADULT, 5, "planned"), (ADULT, 6, "dropped"), (MINOR, 2, "planned"), (MINOR, 3, "dropped")],
)
def test_pain_takes_lines_off_from_its_score_on(athlete: AthleteFacts, score: int, status: str) -> None:
    (front,) = card(line("5"), athlete=replace(athlete, pains=(PainFacts(4, "knee", "right", score, False),)))
    assert front.status == status


def test_pain_elsewhere_takes_nothing_off() -> None:
    (front,) = card(line("5"), athlete=replace(ADULT, pains=(PainFacts(4, "elbow", "right", 9, False),)))
    assert front.status == "planned"


def test_muscle_soreness_takes_nothing_off() -> None:
    (front,) = card(line("5"), athlete=replace(ADULT, pains=(PainFacts(4, "knee", "both", 8, True),)))
    assert front.status == "planned"


@pytest.mark.parametrize(
    ("sense", "worked", "loaded"),
    [
        ("working", {"left"}, {"left"}),
        ("other", {"left"}, {"right"}),
        ("both", {"left"}, {"left", "right"}),
        ("working", {"left", "right"}, {"left", "right"}),
    ],
)
def test_loaded_sides_follow_the_side_that_works(sense: Any, worked: set[str], loaded: set[str]) -> None:
    assert loaded_sides(RegionLoad("knee", sense), frozenset(worked)) == loaded


def test_one_sided_work_spares_the_other_knee() -> None:
    single = replace(SQUAT, regions=(RegionLoad("knee", "working"),))
    left, right = (loads_region(single, "knee", "left", frozenset((side,))) for side in ("left", "right"))
    assert (left, right) == (True, False)


regions = st.sampled_from(["knee", "hip", "low_back", "thigh_back", "shoulder"])


@given(st.lists(regions, max_size=3), st.permutations([GOBLET.id, HIP_HINGE.id, BRIDGE.id]), st.booleans())
def test_card_never_holds_a_restricted_region_or_missing_equipment(
    hurt: list[str], swaps: list[int], at_gym: bool
) -> None:
    athlete = replace(ADULT, restrictions=tuple(RestrictionFacts(n, "region", region=r) for n, r in enumerate(hurt)))
    venue = GYM if at_gym else ROAD
    for resolved in card(
        line("5", swaps=tuple(swaps)), line("8", HIP_HINGE, swaps=tuple(swaps)), athlete=athlete, venue=venue
    ):
        if resolved.status == "planned":
            assert not {load.region for load in resolved.exercise.regions} & set(hurt)
            assert all(venue.kinds.intersection(group) for group in resolved.exercise.needs)
