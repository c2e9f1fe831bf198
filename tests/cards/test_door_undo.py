"""A change at the door undone, and a session moved to another place."""

from __future__ import annotations

from decimal import Decimal

from coachhub.base.clock import today
from coachhub.cards.actions import log_round_as_planned, restrict_athlete
from coachhub.cards.actions.door import undo_at_door, undoable_change
from coachhub.cards.models import SetEntry
from coachhub.cards.words_door import revision_text
from coachhub.coaching.door import DoorStep
from coachhub.coaching.facts import Mass
from tests.cards.at_the_door import block_off, change, do_round, rounds, stays, swap, undo
from tests.cards.conftest import Evening, tap
from tests.factories import AthleteFactory, VenueFactory


def test_undo_puts_the_card_back_as_a_revision_of_its_own(evening: Evening) -> None:
    change(evening, rounds(evening, "A", 4, 2), block_off(evening, "B"))

    undo(evening)

    sheet = evening.sheet()
    assert [(b.label, b.rounds_max, [line.name for line in b.lines]) for b in sheet.blocks] == [
        ("A", 4, ["Front squat", "Split squat"]),
        ("B", 3, ["Romanian deadlift"]),
    ]
    assert (sheet.revision.number, evening.line(evening.hinge).load) == (3, Mass(Decimal(60), "kg"))
    assert undoable_change(evening.assignment) is None


def test_undo_twice_does_it_once(evening: Evening) -> None:
    made = change(evening, block_off(evening, "B")).change
    assert made is not None
    for _ in range(2):
        undo_at_door(actor=evening.coach, change=made)

    assert evening.card().revision_number == 3


def test_only_the_newest_change_can_be_undone(evening: Evening) -> None:
    first = change(evening, block_off(evening, "B")).change
    assert first is not None
    change(evening, rounds(evening, "A", 4, 3))

    assert undo_at_door(actor=evening.coach, change=first) == ()
    assert evening.line(evening.hinge).is_dropped


def test_undo_leaves_what_was_written_since(evening: Evening) -> None:
    change(evening, swap(evening, evening.squat, evening.goblet.pk))
    do_round(evening)

    plans = undo(evening)

    assert stays(plans) == [("A1 Goblet squat", "begun")]
    names = [evening.line(evening.squat, a).name for a in (evening.athlete, evening.cast.team_mate)]
    assert names == ["Goblet squat", "Front squat"]


def test_undo_leaves_a_card_that_something_else_changed_since(evening: Evening) -> None:
    change(evening, block_off(evening, "B"))
    restrict_athlete(
        actor=evening.coach, athlete=evening.athlete, kind="region", region="knee", on_word_of="Dr Alder",
        starts_on=today(),
    )  # fmt: skip

    plans = undo(evening)

    assert stays(plans) == [("", "again")]
    assert [evening.line(evening.hinge, a).is_dropped for a in (evening.athlete, evening.cast.team_mate)] == [
        True,
        False,
    ]


def test_undo_never_brings_back_what_a_restriction_forbids_by_now(evening: Evening) -> None:
    """The restriction concerned no line that was on, so the card has no newer revision."""
    change(evening, block_off(evening, "B"))
    restrict_athlete(
        actor=evening.coach, athlete=evening.athlete, kind="region", region="thigh_back", on_word_of="Dr Alder",
        starts_on=today(),
    )  # fmt: skip
    assert evening.card().revision_number == 2

    undo(evening)

    assert [evening.line(evening.hinge, a).is_dropped for a in (evening.athlete, evening.cast.team_mate)] == [
        True,
        False,
    ]


def test_move_loads_what_the_new_place_has(evening: Evening) -> None:
    hall = VenueFactory.create(name="School hall")

    change(evening, DoorStep("venue", value=hall.pk, now="School hall"))

    sheet = evening.sheet()
    assert (sheet.venue_name, [line.name for line in sheet.lines]) == ("School hall", ["Split squat"])
    assert revision_text(sheet.revision) == "changed at the door: moved to School hall"


def test_begun_line_stays_on_a_move_and_the_next_set_is_of_the_new_place(evening: Evening) -> None:
    do_round(evening)
    hall = VenueFactory.create(name="School hall")

    outcome = change(evening, DoorStep("venue", value=hall.pk, now="School hall"))
    do_round(evening, 2)

    assert ("A1 Front squat", "begun") in stays(outcome.plans)
    venues = (
        SetEntry.objects.filter(line_key=evening.squat.line_key).order_by("round").values_list("venue__name", flat=True)
    )
    assert list(venues) == ["Mill Lane gym", "School hall"]


def test_move_to_a_place_without_a_coach_takes_a_minors_begun_line_off(evening: Evening) -> None:
    minor = AthleteFactory.create(is_minor=True, squad=evening.cast.squad)
    evening.assignment = evening.assign(minor, in_days=1)
    sheet = evening.sheet(minor)
    log_round_as_planned(
        actor=evening.coach, card=evening.card(minor), sheet=sheet, group_key=sheet.blocks[0].key, tap=tap()
    )
    road = VenueFactory.create(name="On the road", is_supervised=False, stock=True)

    outcome = change(evening, DoorStep("venue", value=road.pk, now="On the road"))

    assert [plan.off for plan in outcome.plans] == [("A1 Front squat", "A2 Split squat")]
    line = evening.line(evening.squat, minor)
    assert (line.is_dropped, [step.code for step in line.trace][:1]) == (True, ["unsupervised"])


def test_move_undone_goes_back_with_its_loads(evening: Evening) -> None:
    hall = VenueFactory.create(name="School hall")
    change(evening, DoorStep("venue", value=hall.pk, now="School hall"))

    undo(evening)

    sheet = evening.sheet()
    assert (sheet.venue_name, evening.line(evening.squat).load) == ("Mill Lane gym", Mass(Decimal(60), "kg"))


def test_one_athlete_moves_alone_and_stays_there_when_the_others_move(evening: Evening) -> None:
    hall, road = VenueFactory.create(name="School hall"), VenueFactory.create(name="On the road")
    change(evening, DoorStep("venue", value=hall.pk, now="School hall"), card=evening.card())
    assert [evening.sheet(a).venue_name for a in (evening.athlete, evening.cast.team_mate)] == [
        "School hall",
        "Mill Lane gym",
    ]

    outcome = change(evening, DoorStep("venue", value=road.pk, now="On the road"))

    assert stays(outcome.plans) == [("", "elsewhere")]
    assert [evening.sheet(a).venue_name for a in (evening.athlete, evening.cast.team_mate)] == [
        "School hall",
        "On the road",
    ]
