"""What looks wrong to a rule of thumb and is right, and what looks right and is wrong."""

from __future__ import annotations

import pytest

from coachhub.coaching.facts import GroupFacts
from coachhub.coaching.review import Setting, read, review_session
from coachhub.coaching.review.flow import sets_in_order, until_line, until_pattern
from tests.coaching.review.test_session_rules import FILL, HEAVY
from tests.coaching.review.written import block, line, rows, session, with_line

ROOMY = Setting(300)


def codes(*blocks: GroupFacts) -> list[str]:
    return [one.code for one in review_session(session(*blocks), ROOMY)]


def test_partner_exercises_count_as_rest() -> None:
    """30 s between rounds, but row and plank lie between one squat and the next."""
    alone = rows("A", 4, HEAVY, rest=(30, 30))
    superset = rows("A", 4, HEAVY, "row 8/side", "plank 40 s/side", rest=(30, 30))

    assert codes(alone, FILL) == ["rest_heavy"]
    assert codes(superset, FILL) == []


def test_partner_with_fewer_sets_leaves_the_last_rounds_short() -> None:
    partner = block("A", line(f"A1 {HEAVY}", 4), line("A2 chin_up 10", 2), line("A3 plank 60 s", 2), rest=(60, 60))

    found = review_session(session(partner, FILL), ROOMY)

    assert [(one.code, one.labels, one.found) for one in found] == [("rest_heavy", ("A1",), "60")]


def test_same_pattern_on_another_line_comes_round_sooner() -> None:
    both = rows("A", 3, HEAVY, "goblet 8", rest=(180, 180))

    (found,) = review_session(session(both, FILL), ROOMY)

    assert (found.code, found.labels, found.found) == ("rest_heavy", ("A1",), "30")


def test_jump_of_a_lift_is_not_its_pattern_again() -> None:
    lifts = read(session(rows("A", 2, HEAVY, "box_jump 3", rest=(150, 180)))).blocks[0]
    sets = sets_in_order(lifts)

    # 30 s to the box, 9 s of jumps, 150 s of rest; then 15 s of squats and 30 s to the box again.
    assert [until_pattern(one, sets) for one in lifts.lines] == [189, 195]
    assert [until_line(one, sets) for one in lifts.lines] == [189, 195]


@pytest.mark.parametrize("rest", [None, (0, None)])
def test_rest_is_judged_only_where_one_is_written(rest: tuple[int, int | None] | None) -> None:
    """Without one it is unknown, and the time beside the session says so."""
    assert codes(rows("A", 4, HEAVY, rest=rest), FILL) == ([] if rest is None else ["rest_heavy"])


@pytest.mark.parametrize("dose", ["deadlift 10 @ 3 RIR", "deadlift 8 @ 65%", "deadlift 6 @ 75%"])
def test_grip_and_trunk_are_left_alone_in_moderate_blocks(dose: str) -> None:
    assert codes(rows("A", 3, dose, "row 8/side", "carry 20 m", rest=(90, 90)), FILL) == []


def test_dumbbells_that_are_pressed_do_not_tire_the_grip() -> None:
    assert codes(rows("A", 3, "deadlift 5 @ 85%", "incline 8", rest=(150, 180)), FILL) == []
    assert codes(rows("A", 3, "deadlift 5 @ 85%", "row 8/side", rest=(150, 180)), FILL) == ["grip_in_row"]


def test_jump_first_in_its_block_is_fresh() -> None:
    assert codes(rows("A", 3, "box_jump 3", HEAVY, rest=(150, 180)), FILL) == []


def test_jump_straight_behind_a_heavy_lift_belongs_to_it_without_being_told() -> None:
    assert codes(rows("A", 3, HEAVY, "box_jump 4", rest=(150, 180)), FILL) == []
    assert codes(rows("A", 3, "goblet 10", "box_jump 4", rest=(150, 180)), FILL) == ["speed_after_strength"]


def test_jump_that_the_coach_paired_with_a_lighter_lift_is_theirs_to_decide() -> None:
    light = with_line(rows("A", 3, "front_squat 6 @ 3 RIR", "bound 3/side", rest=(120, 150)), 2, pair_with="A1")

    assert codes(light, FILL) == []


def test_throw_behind_a_heavy_press_belongs_to_it() -> None:
    assert codes(rows("A", 3, "bench 4 @ 85%", "chest_pass 4", rest=(150, 180)), FILL) == []


def test_sprints_for_conditioning_are_no_speed_work() -> None:
    assert codes(FILL, rows("z", 6, "sprint 40 m", rest=(40, 60))) == []


@pytest.mark.parametrize(("sets", "expected"), [(2, []), (3, ["jump_dense"])])
def test_few_rounds_make_no_dense_block(sets: int, expected: list[str]) -> None:
    assert codes(rows("s", sets, "box_jump 5", rest=(20, 20)), FILL) == expected


def test_warm_up_is_not_judged() -> None:
    assert codes(rows("w", 5, "box_jump 3", rest=(5, 5)), FILL) == []


def test_five_patterns_may_come_from_second_patterns() -> None:
    """A hex-bar deadlift is a squat as well, as the list of patterns beside the session says."""
    assert codes(rows("A", 3, "deadlift 8 @ 65%", "lunge 8/side", "press_up 8", "row 8/side", rest=(90, 90))) == []


def test_session_without_strength_work_is_asked_no_patterns() -> None:
    assert codes(rows("s", 3, "sprint 10 m", "box_jump 3", rest=(90, 90))) == []
