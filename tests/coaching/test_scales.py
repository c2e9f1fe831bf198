"""Machines, cables and assistance by the scale that stands at the venue. Rules: the product's own; common practice."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from coachhub.coaching.facts import AthleteFacts, DoneSet, Mass, PainFacts, RestrictionFacts, VenueFacts
from coachhub.coaching.loading import LoadUnit, Scale
from coachhub.coaching.resolve import ResolvedLine
from coachhub.coaching.rungs import ladder_for
from tests.coaching.samples import ADULT, GYM, MINOR, SQUAT, card, codes, done, kg, line

ROW = replace(SQUAT, name="Cable row", load_meaning="machine", needs=(("cable", "long_band"),))
CHIN = replace(SQUAT, name="Helped chin-up", load_meaning="assistance", needs=(("machine",),))


def scale(*settings: str, kind: str = "cable", unit: LoadUnit = "kg", exercise_id: int | None = None) -> Scale:
    return Scale(kind, unit, tuple(map(Decimal, settings)), exercise_id)


def gym(*scales: Scale) -> VenueFacts:
    return replace(GYM, kinds=GYM.kinds | {"cable", "machine"}, stock=replace(GYM.stock, scales=scales))


def settings(exercise: Any, *scales: Scale) -> list[str] | None:
    ladder = ladder_for(exercise, gym(*scales).stock)
    return None if ladder is None else [str(rung.mass.value) for rung in ladder]


def resolved(
    exercise: Any, dose: str, venue: VenueFacts, *sets: DoneSet, athlete: AthleteFacts = ADULT
) -> ResolvedLine:
    trained = replace(athlete, history={exercise.id: sets})
    return card(line(dose), athlete=trained, venue=venue, exercises={exercise.id: exercise})[0]


def plates(done_set: DoneSet) -> DoneSet:
    assert done_set.load
    return replace(done_set, load=Mass(done_set.load.value, "pl"))


def test_ladder_is_the_scale_of_its_kind() -> None:
    assert settings(ROW, scale("5", "10"), scale("7", kind="machine")) == ["5", "10"]


def test_ladder_of_two_alike_is_what_either_can_do() -> None:
    assert settings(ROW, scale("5", "10"), scale("5", "7.5")) == ["5", "7.5", "10"]


def test_machine_for_this_exercise_alone_beats_one_for_any() -> None:
    assert settings(ROW, scale("5"), scale("8", kind="machine", exercise_id=ROW.id)) == ["8"]
    assert settings(ROW, scale("5"), scale("8", exercise_id=99)) == ["5"]


@pytest.mark.parametrize("scales", [(), (scale("5", kind="machine"),), (scale("5"), scale("1", unit="pl"))])
def test_without_one_plain_scale_nothing_bounds_the_number(scales: tuple[Scale, ...]) -> None:
    assert settings(ROW, *scales) is None


def test_written_number_goes_down_to_what_can_be_set() -> None:
    row = resolved(ROW, "8 @ 12 kg", gym(scale("5", "10", "15")))

    assert (row.load, codes(row), row.steps) == (kg(10), ["fixed", "rounded_down"], (kg(5), kg(10), kg(15)))


def test_rise_is_one_setting_of_this_machine() -> None:
    row = resolved(ROW, "8 @ 40 kg", gym(scale("5", "10", "15", "20")), done(10, reps=8))

    assert (row.load, codes(row)) == (kg(15), ["fixed", "one_step"])


def test_number_of_another_venue_never_carries_over() -> None:
    row = resolved(ROW, "8 @ last", gym(scale("5", "10", "15")), replace(done(15, reps=8), venue_id=9))

    assert (row.load, row.rule, row.last) == (None, "find", None)


def test_written_kilograms_say_nothing_on_numbered_plates() -> None:
    row = resolved(ROW, "8 @ 30 kg", gym(scale("1", "2", "3", unit="pl")))

    assert (row.load, row.rule, codes(row)[-1]) == (None, "find", "numbered_plates")
    assert row.steps == tuple(Mass(Decimal(n), "pl") for n in (1, 2, 3))


def test_last_time_on_numbered_plates_is_a_plate() -> None:
    numbered = gym(scale("1", "2", "3", unit="pl"))
    row = resolved(ROW, "8 @ last", numbered, plates(done(2, reps=8)), done(30, reps=8, days=9))

    assert (row.load, codes(row)) == (Mass(Decimal(2), "pl"), ["last_time"])


def test_cap_in_kilograms_leaves_only_the_first_plate() -> None:
    capped = replace(ADULT, restrictions=(RestrictionFacts(7, "load_cap", cap=kg(20)),))
    row = resolved(ROW, "8 @ last", gym(scale("1", "2", unit="pl")), plates(done(2, reps=8)), athlete=capped)

    assert (row.load, codes(row)) == (Mass(Decimal(1), "pl"), ["last_time", "restriction_cap"])


# --- assistance: less is harder


HELP = scale("5", "10", "15", "20", kind="machine")


def test_help_goes_up_to_what_can_be_set() -> None:
    chin = resolved(CHIN, "6 @ 12 kg", gym(HELP))

    assert (chin.load, codes(chin)) == (kg(15), ["fixed", "help_rounded"])


def test_help_asked_beyond_the_machine_is_all_that_it_has() -> None:
    assert resolved(CHIN, "6 @ 60 kg", gym(HELP)).load == kg(20)


def test_help_goes_down_by_one_setting_at_most() -> None:
    chin = resolved(CHIN, "6 @ 5 kg", gym(HELP), done(20, days=20), done(15, days=9))

    assert (chin.load, codes(chin)) == (kg(10), ["fixed", "one_step_less"])


def test_more_help_than_last_time_is_always_allowed() -> None:
    assert resolved(CHIN, "6 @ 20 kg", gym(HELP), done(5)).load == kg(20)


@pytest.mark.parametrize(
    ("sets", "code", "load"),
    [
        ((done(20, days=20), done(15, days=2, clean=True)), "one_easing_a_week", 15),
        ((done(15, days=9),), "easing_wants_clean", 15),
        ((done(15, days=9, clean=True),), "one_step_less", 10),
    ],
)
def test_help_of_a_minor_goes_down_after_a_clean_set_once_a_week(
    sets: tuple[DoneSet, ...], code: str, load: int
) -> None:
    chin = resolved(CHIN, "6 @ 5 kg", gym(HELP), *sets, athlete=MINOR)

    assert (chin.load, codes(chin)[-1]) == (kg(load), code)


def test_pain_keeps_the_help_of_last_time() -> None:
    sore = replace(ADULT, pains=(PainFacts(3, "knee", "both", 2, False),))
    chin = resolved(CHIN, "6 @ 5 kg", gym(HELP), done(15), athlete=sore)

    assert (chin.load, codes(chin)[-1]) == (kg(15), "pain_hold")


def test_cap_on_loads_does_not_take_help_away() -> None:
    capped = replace(ADULT, restrictions=(RestrictionFacts(7, "load_cap", cap=kg(5)),))

    assert resolved(CHIN, "6 @ 15 kg", gym(HELP), athlete=capped).load == kg(15)


def test_unknown_help_starts_with_the_most() -> None:
    chin = resolved(CHIN, "6 @ last", gym(HELP))

    assert (chin.load, chin.steps) == (None, (kg(20), kg(15), kg(10), kg(5)))


def test_help_needs_no_ramp_up() -> None:
    chin = resolved(CHIN, "6 @ 15 kg", gym(HELP))
    ramped = card(line("6 @ 15 kg", ramp_up_sets=3), venue=gym(HELP), exercises={CHIN.id: CHIN})[0]

    assert (chin.ramp_ups, ramped.ramp_ups) == ((), ())


def test_help_without_a_scale_is_as_written() -> None:
    assert resolved(CHIN, "6 @ 12 kg", gym()).load == kg(12)
