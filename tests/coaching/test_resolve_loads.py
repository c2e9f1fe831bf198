"""The load on a line. Percentages are those of the rep-max table (NSCA Essentials, 4th ed., Table 17.7)."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachhub.coaching.facts import AthleteFacts, DoneSet, Mass, PainFacts, RestrictionFacts
from coachhub.coaching.loading import Bar, Stock, Weight
from coachhub.coaching.rungs import ladder_for
from tests.coaching.samples import (
    ADULT,
    BAR,
    BRIDGE,
    GOBLET,
    GYM,
    HIP_HINGE,
    MINOR,
    SQUAT,
    STOCK,
    best,
    card,
    codes,
    done,
    kg,
    line,
)


def with_history(*sets: DoneSet, athlete: AthleteFacts = ADULT, **more: Any) -> AthleteFacts:
    return replace(athlete, history={SQUAT.id: sets}, **more)


def test_fixed_load_is_what_is_written() -> None:
    (front,) = card(line("5 @ 60 kg"))
    assert (front.load, front.rule, front.per_side) == (kg(60), "fixed", (Decimal(20),))


def test_fixed_load_between_steps_is_rounded_down() -> None:
    (front,) = card(line("5 @ 61 kg"))
    assert (front.load, codes(front)) == (kg(60), ["fixed", "rounded_down"])


def test_percent_of_a_known_single() -> None:
    (front,) = card(line("5 @ 75%"), athlete=replace(ADULT, bests={SQUAT.id: best(100)}))
    assert front.load == kg(75)


def test_percent_of_a_known_best_for_reps_goes_through_the_table() -> None:
    # 80 x 8 is a maximum of 100 by the table (80 %), so 75 % is 75.
    (front,) = card(line("5 @ 75%"), athlete=replace(ADULT, bests={SQUAT.id: best(80, 8)}))
    assert front.load == kg(75)


def test_reps_in_reserve_uses_the_top_of_the_range() -> None:
    # 8 reps with 2 in reserve are a 10-rep load: 75 %.
    (front,) = card(line("6-8 @ 2 RIR"), athlete=replace(ADULT, bests={SQUAT.id: best(100)}))
    assert (front.load, front.rir_half) == (kg(75), 4)


def test_reps_in_reserve_not_taught_sets_no_load_and_is_not_asked() -> None:
    novice = replace(ADULT, is_rir_taught=False, bests={SQUAT.id: best(100)})
    (front,) = card(line("6-8 @ 2 RIR"), athlete=novice)
    assert (front.load, front.rir_half, codes(front)) == (None, None, ["rir_not_taught", "no_history"])


def test_as_last_time_takes_the_heaviest_set_of_the_last_day() -> None:
    (front,) = card(line("5 @ last"), athlete=with_history(done(50, days=20), done(55, days=6), done(52, days=6)))
    assert (front.load, front.rule) == (kg(55), "last")


def test_nothing_known_is_find_it_never_an_invented_number() -> None:
    (front,) = card(line("5 @ last"))
    assert (front.load, front.rule, codes(front)) == (None, "find", ["no_history"])


def test_words_keep_their_range_under_the_ceiling() -> None:
    (front,) = card(line('5 @ "as heavy as stays crisp" 60-80 kg max 80 kg'))
    assert (front.load, front.load_high, front.words) == (kg(60), kg(80), "as heavy as stays crisp")


def test_words_range_is_held_by_a_cap() -> None:
    capped = replace(ADULT, restrictions=(RestrictionFacts(1, "load_cap", cap=kg(70)),))
    (front,) = card(line('5 @ "as heavy as stays crisp" 60-80 kg'), athlete=capped)
    assert (front.load, front.load_high) == (kg(60), kg(70))


def test_set_without_weight_is_no_last_load() -> None:
    (front,) = card(line("5 @ last"), athlete=with_history(done(40, days=20), done(0, days=6)))
    assert front.load == kg(40)


def test_set_without_repetition_proves_no_load() -> None:
    newcomer = with_history(done(40, days=20), done(55, reps=0, days=12), athlete=replace(ADULT, level="novice"))
    (front,) = card(line("1 @ 60 kg"), athlete=newcomer)
    assert front.load == kg(40)


def test_never_more_than_one_step_above_the_heaviest_really_done() -> None:
    strong = with_history(done(60), bests={SQUAT.id: best(120, 1)})
    (front,) = card(line("5 @ 85%"), athlete=strong)
    assert (front.load, codes(front)[-1]) == (kg("62.5"), "one_step")


def test_sets_of_far_fewer_reps_prove_nothing_for_more() -> None:
    strong = with_history(done(60, reps=8), done(100, reps=2))
    (front,) = card(line("8 @ 90 kg"), athlete=strong)
    assert front.load == kg("62.5")


def test_minor_rises_only_after_a_set_marked_clean() -> None:
    held = with_history(done(40), athlete=MINOR)
    risen = with_history(done(40, clean=True), athlete=MINOR)
    (before,), (after,) = card(line("5 @ 50 kg"), athlete=held), card(line("5 @ 50 kg"), athlete=risen)
    assert (before.load, codes(before)[-1], after.load) == (kg(40), "rise_wants_clean", kg("42.5"))


def test_minor_rises_once_a_week() -> None:
    risen = with_history(done(40, days=9, clean=True), done("42.5", days=2, clean=True), athlete=MINOR)
    (front,) = card(line("5 @ 50 kg"), athlete=risen)
    assert (front.load, codes(front)[-1]) == (kg("42.5"), "one_rise_a_week")


@pytest.mark.parametrize(
    "newcomer", [replace(ADULT, level="novice"), replace(ADULT, logged_days=7)], ids=["novice", "seven days logged"]
)
def test_newcomer_rises_only_after_a_set_marked_clean(newcomer: AthleteFacts) -> None:
    (front,) = card(line("5 @ 50 kg"), athlete=with_history(done(40), athlete=newcomer))
    assert front.load == kg(40)


def test_pain_not_cleared_holds_the_load_from_rising() -> None:
    sore = with_history(done(60), pains=(PainFacts(3, "knee", "left", 2, False),))
    (front,) = card(line("5 @ 80 kg"), athlete=sore)
    assert (front.load, codes(front)) == (kg(60), ["fixed", "one_step", "pain_hold"])


def test_sore_muscles_hold_nothing() -> None:
    sore = with_history(done(60), pains=(PainFacts(3, "knee", "left", 5, True),))
    (front,) = card(line("5 @ 80 kg"), athlete=sore)
    assert front.load == kg("62.5")


def test_load_cap_is_never_passed() -> None:
    capped = replace(ADULT, restrictions=(RestrictionFacts(1, "load_cap", cap=kg(50)),))
    (front,) = card(line("5 @ 60 kg"), athlete=capped)
    assert (front.load, codes(front)) == (kg(50), ["fixed", "restriction_cap"])


def test_swap_never_inherits_the_load() -> None:
    no_bar = replace(GYM, kinds=frozenset(("dumbbell",)))
    (goblet,) = card(line("5 @ 60 kg", swaps=(GOBLET.id,)), venue=no_bar)
    assert (goblet.exercise, goblet.load, goblet.rule) == (GOBLET, None, "find")


def test_swap_starts_from_its_own_last_time() -> None:
    no_bar = replace(GYM, kinds=frozenset(("dumbbell",)))
    known = replace(ADULT, history={GOBLET.id: (done(20),)})
    (goblet,) = card(line("5 @ 60 kg", swaps=(GOBLET.id,)), venue=no_bar, athlete=known)
    assert (goblet.load, goblet.rule) == (kg(20), "last")


def test_below_the_empty_bar_takes_the_lighter_tool() -> None:
    (goblet,) = card(line("5 @ 12 kg", swaps=(GOBLET.id,)))
    assert (goblet.exercise, codes(goblet)[:3]) == (GOBLET, ["fixed", "below_lightest", "swapped"])


def test_below_the_empty_bar_without_a_swap_says_so_and_gives_no_number() -> None:
    (front,) = card(line("5 @ 12 kg"))
    assert (front.load, codes(front)[-2:]) == (None, ["below_lightest", "ask_for_lighter"])


def test_machine_number_never_carries_over_to_another_venue() -> None:
    pulldown = replace(SQUAT, id=9, name="Lat pulldown", load_meaning="machine", needs=())
    known = replace(ADULT, history={9: (done(45),)})
    here, away = GYM, replace(GYM, id=5)
    (same,), (other,) = (
        card(line("8 @ last", pulldown), athlete=known, venue=venue, exercises={9: pulldown}) for venue in (here, away)
    )
    assert (same.load, other.load) == (kg(45), None)


def test_pounds_in_a_kilogram_room_become_the_rooms_own_step() -> None:
    (front,) = card(line("5 @ 135 lb"))
    assert front.load == kg(60)


def test_kilograms_in_a_pound_room_become_the_rooms_own_step() -> None:
    stock = Stock("lb", (Bar("barbell", Decimal(45), "lb"),))
    (front,) = card(line("5 @ 60 kg"), venue=replace(GYM, unit="lb", stock=stock))
    assert front.load == Mass(Decimal(45), "lb")


def test_per_hand_needs_two_of_the_same() -> None:
    single = tuple(replace(w, count=1) if w.mass == 12 else w for w in STOCK.dumbbells)
    (hinge,) = card(line("8 @ 12 kg", HIP_HINGE), venue=replace(GYM, stock=replace(STOCK, dumbbells=single)))
    assert hinge.load == kg(10)


def test_landmine_is_loaded_on_one_end() -> None:
    press = replace(SQUAT, name="Landmine press", needs=(("landmine",), ("barbell",)))
    room = replace(GYM, kinds=GYM.kinds | {"landmine"})
    (pressed,) = card(line("8 @ 33 kg", press), venue=room, exercises={1: press})
    assert (pressed.load, pressed.per_side) == (kg("32.5"), (Decimal(10), Decimal("2.5")))


def test_throw_takes_a_ball_not_a_dumbbell() -> None:
    throw = replace(HIP_HINGE, name="Chest pass", load_meaning="single", needs=(("medicine_ball",),))
    balls = (Weight("medicine_ball", Decimal(2), "kg", 6), Weight("medicine_ball", Decimal(3), "kg", 6))
    room = replace(GYM, kinds=frozenset(("medicine_ball",)), stock=replace(STOCK, balls=balls))
    (thrown,) = card(line("5 @ 3 kg", throw), venue=room, exercises={HIP_HINGE.id: throw})
    assert (thrown.load, thrown.steps) == (kg(3), (kg(2), kg(3)))


def test_bodyweight_has_no_load() -> None:
    (bridge,) = card(line("10", BRIDGE))
    assert (bridge.load, bridge.rule, bridge.trace) == (None, "none", ())


def test_ramp_ups_are_lighter_and_loadable() -> None:
    (front,) = card(line("5 @ 100 kg", ramp_up_sets=3))
    assert front.ramp_ups == ((kg(40), 5), (kg(60), 5), (kg(80), 5))


def test_ramp_ups_stay_on_the_bar_of_the_working_load() -> None:
    light = Bar("barbell", Decimal(15), "kg")
    room = replace(GYM, stock=replace(STOCK, bars=(BAR, light)))
    (front,) = card(line("5 @ 60 kg", ramp_up_sets=2), venue=room)
    assert (front.bar, front.ramp_ups) == ("barbell 20 kg", ((kg(30), 5), (kg(45), 5)))
    assert front.ramp_plates == ((Decimal(5),), (Decimal(10), Decimal("2.5")))


def test_no_ramp_up_where_the_bar_of_the_working_load_makes_nothing_lighter() -> None:
    light = Bar("barbell", Decimal(15), "kg")
    room = replace(GYM, stock=replace(STOCK, bars=(BAR, light)))
    (front,) = card(line("5 @ 20 kg", ramp_up_sets=1), venue=room)
    assert (front.bar, front.ramp_ups) == ("barbell 20 kg", ())


loads = st.decimals(min_value=1, max_value=150, places=2)


@given(target=loads, past=st.lists(loads, max_size=4), percent=st.integers(30, 100), one_rm=loads)
def test_any_load_is_one_the_room_can_make_and_no_limit_is_passed(
    target: Decimal, past: list[Decimal], percent: int, one_rm: Decimal
) -> None:
    ladder = ladder_for(SQUAT, STOCK) or ()
    athlete = with_history(*(done(str(p)) for p in past), bests={SQUAT.id: best(str(one_rm), 3)})
    steps = [rung.kg for rung in ladder]
    for text in (f"5 @ {target} kg", f"5 @ {percent}%", "5 @ 2 RIR", "5 @ last"):
        (front,) = card(line(text), athlete=athlete)
        heaviest = max(past, default=None)
        if front.load is not None:
            assert front.load.kg in steps
            if heaviest is not None:
                assert front.load.kg <= min((s for s in steps if s > heaviest), default=heaviest)


BAG = replace(GOBLET, id=9, name="Packed bag row", needs=())


@pytest.mark.parametrize(
    ("dose", "athlete", "load"),
    [
        ("8 @ 2 RIR", ADULT, None),
        ("8 @ 2 RIR", replace(ADULT, history={BAG.id: (done(11, days=6),)}), kg(11)),
        ("8 @ 2 RIR", replace(ADULT, bests={BAG.id: best(17)}), None),
        ("8 @ 13 kg", ADULT, kg(13)),
    ],
)
def test_bag_that_people_bring_is_held_to_no_dumbbells(dose: str, athlete: AthleteFacts, load: Mass | None) -> None:
    (row,) = card(line(dose, BAG), athlete=athlete, exercises={BAG.id: BAG})
    assert (row.load, row.steps) == (load, ())
