"""What was taken against what was planned: a slip must meet the coach's eye, and stand beside the mark."""

from __future__ import annotations

from decimal import Decimal
from uuid import uuid4

import pytest
from django.urls import reverse

from coachhub.base.clock import now
from coachhub.cards.actions import EntryDraft, log_entries, mark_round
from coachhub.cards.models import CardLine, SetQuality
from coachhub.coaching.facts import Mass
from coachhub.coaching.loading import LoadUnit
from coachhub.coaching.slips import is_as_planned
from coachhub.desk.pages.cards_floor import BlockCell, FloorPage, find_pulse
from coachhub.plans.models import Prescription
from tests.cards.conftest import Evening
from tests.desk.evening import tap_round


def log(evening: Evening, line: Prescription, load: str, *, number: int = 1, unit: LoadUnit = "kg") -> None:
    """One set by the athlete's own phone."""
    mass = Mass(Decimal(load), unit)
    draft = EntryDraft(uuid4(), line.line_key, number, now(), seq=evening.sheet().next_seq, reps=5, load=mass)
    log_entries(actor=evening.phone, card=evening.card(), drafts=[draft])


def log_split(evening: Evening, number: int = 1) -> None:
    for side in ("left", "right"):
        seq = evening.sheet().next_seq
        draft = EntryDraft(uuid4(), evening.split.line_key, number, now(), seq=seq, side=side, reps=8)
        log_entries(actor=evening.phone, card=evening.card(), drafts=[draft])


def block(evening: Evening, label: str = "A") -> BlockCell:
    page = FloorPage.of(evening.coach, find_pulse(evening.coach, evening.assignment.pk))
    (line,) = [line for line in page.lines if line.row.athlete == evening.athlete]
    cell = line.cells["AB".index(label)]
    assert cell is not None
    return cell


def test_set_off_the_plan_comes_before_the_last_one(evening: Evening) -> None:
    log(evening, evening.squat, "62.5")
    log_split(evening)

    assert (block(evening).last, block(evening).is_far) == ("A1: 62.5 kg × 5, planned 60 kg; A2: 8", False)


def test_set_far_above_the_plan_is_flagged(evening: Evening) -> None:
    log(evening, evening.squat, "600")
    log_split(evening)

    assert (block(evening).last, block(evening).is_far) == ("A1: 600 kg × 5, planned 60 kg; A2: 8", True)
    text = evening.cast.client_of("coach").get(reverse("desk:floor", args=[evening.assignment.pk])).content.decode()
    assert text.count("far above plan") == 1


def test_set_as_planned_is_told_without_the_plan(evening: Evening) -> None:
    tap_round(evening, evening.athlete, "B")

    assert (block(evening, "B").last, block(evening, "B").is_far) == ("B1: 60 kg × 5", False)


def test_slip_of_an_earlier_round_stays_in_sight_until_it_is_marked_clean(evening: Evening) -> None:
    log(evening, evening.hinge, "600")
    log(evening, evening.hinge, "60", number=2)
    assert block(evening, "B").last == "B1, round 1: 600 kg × 5, planned 60 kg; B1: 60 kg × 5"

    key = next(group.key for group in evening.sheet().blocks if group.label == "B")
    mark_round(
        actor=evening.coach, card=evening.card(), sheet=evening.sheet(), group_key=key, number=1,
        quality=SetQuality.CLEAN,
    )  # fmt: skip

    assert (block(evening, "B").last, block(evening, "B").is_far) == ("B1: 60 kg × 5", False)


def test_small_difference_of_an_earlier_round_is_no_news(evening: Evening) -> None:
    log(evening, evening.hinge, "62.5")
    log(evening, evening.hinge, "60", number=2)

    assert block(evening, "B").last == "B1: 60 kg × 5"


def test_mark_stands_beside_the_loads_it_would_vouch_for(evening: Evening) -> None:
    log(evening, evening.squat, "600")
    log_split(evening)

    assert block(evening).mark_label == "A, round 1: A1 600 kg × 5, planned 60 kg; A2 8; A2 8"


def test_load_within_a_planned_range_is_as_planned(evening: Evening) -> None:
    CardLine.objects.filter(line_key=evening.hinge.line_key).update(load_high=Decimal(65))
    log(evening, evening.hinge, "62.5")
    assert block(evening, "B").last == "B1: 62.5 kg × 5"

    log(evening, evening.hinge, "70", number=2)
    assert block(evening, "B").last == "B1: 70 kg × 5, planned 60–65 kg"


def test_much_help_is_told_and_not_flagged(evening: Evening) -> None:
    CardLine.objects.filter(line_key=evening.hinge.line_key).update(load_meaning="assistance")
    log(evening, evening.hinge, "600")

    assert (block(evening, "B").last, block(evening, "B").is_far) == ("B1: 600 kg × 5, planned 60 kg", False)


@pytest.mark.parametrize(
    ("value", "unit", "expected"),
    [("60", "kg", True), ("132", "lb", True), ("132.5", "lb", True), ("135", "lb", False), ("60", "pl", False)],
)
def test_same_load_in_another_unit_is_as_planned(value: str, unit: LoadUnit, expected: bool) -> None:
    planned = Mass(Decimal(60), "kg")

    assert is_as_planned(Mass(Decimal(value), unit), planned, planned) is expected
