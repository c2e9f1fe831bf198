"""An evening in the gym on the phone: a warm-up, a block of four rounds and one of three, 24 strength sets in all."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.urls import reverse

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.cards.actions import assign_session
from coachhub.cards.models import Assignment, Card, SetEntry
from coachhub.cards.queries import load_sheet
from coachhub.cards.sheet import Sheet, SheetLine
from coachhub.people.models import Athlete
from coachhub.plans.models import CircuitGroup, Prescription, PrescriptionSwap, Session
from tests.cast import Cast, Role
from tests.factories import (
    CircuitGroupFactory,
    ExerciseFactory,
    PrescriptionFactory,
    SegmentFactory,
    SessionFactory,
)
from tests.gym.browser import Browser, Page


@dataclass
class Evening:
    cast: Cast
    session: Session
    lines: dict[str, Prescription]
    assignment: Assignment

    @property
    def coach(self) -> Actor:
        return self.cast.actor_of(Role.COACH)

    def assign(self, *athletes: Athlete, venue: Any = None, day: int = 0) -> Assignment:
        """Give the session for that many days from today."""
        return assign_session(
            actor=self.cast.actor_of(Role.OWNER),
            session=self.session,
            squad=self.cast.squad,
            athletes=athletes,
            venue=venue or self.cast.venue,
            on_date=today() + timedelta(days=day),
        )

    def describe(self, **values: Any) -> None:
        """The athlete is one for whom this holds."""
        Athlete.objects.filter(pk=self.cast.athlete.pk).update(**values)
        self.cast.athlete.refresh_from_db()

    def card(self, athlete: Athlete | None = None) -> Card:
        return Card.objects.get(assignment=self.assignment, athlete=athlete or self.cast.athlete)

    def sheet(self, athlete: Athlete | None = None) -> Sheet:
        sheet = load_sheet(Card.objects.all(), self.card(athlete).pk)
        assert sheet is not None
        return sheet

    def line(self, name: str) -> SheetLine:
        key = self.lines[name].line_key
        return next(line for g in self.sheet().groups for line in (*g.lines, *g.dropped) if line.key == key)

    def block(self, label: str) -> str:
        return next(group.key for group in self.sheet().blocks if group.label == label)

    def done(self, name: str) -> list[tuple[Any, ...]]:
        """Round, side, load, reps of what counts for a line."""
        facts = [entry.fact for cell in self.line(name).cells for entry in cell.entries]
        return [(fact.round, fact.side, fact.load_value, fact.reps or fact.time_s) for fact in facts]

    @property
    def facts(self) -> Any:
        return SetEntry.objects.order_by("pk")

    # The phone
    def browser(self, role: Role = Role.ATHLETE) -> Browser:
        return Browser(self.cast.client_of(role))

    def url(self, name: str = "card", *more: Any, athlete: Athlete | None = None) -> str:
        return reverse(f"gym:{name}", args=[self.card(athlete).pk, *more])

    def open(self, name: str = "card", *more: Any, role: Role = Role.ATHLETE) -> Page:
        return self.browser(role).open(self.url(name, *more))

    def press(self, page: Page, words: str, **typed: str) -> Page:
        """With 20 as the weight wherever one was to be found and nobody has typed it."""
        form, _button = page.form_with(words)
        wanted = {f"load_{line.key}" for line in self.sheet().lines if line.wants_load}
        asked = {name for name in wanted if form.fields.get(name) == [""]}
        return self.browser().press(page, words, **(dict.fromkeys(asked, "20") | typed))

    def do(self, *buttons: str) -> Page:
        """Press one button after the other, each on the page that the one before led to."""
        page = self.open()
        for words in buttons:
            page = self.press(page, words)
        return page


# An exercise by name, its own columns, and those of the line.
Written = tuple[str, dict[str, Any], dict[str, Any]]


def add_lines(group: CircuitGroup, exercises: Iterable[Written]) -> Iterator[tuple[str, Prescription]]:
    for position, (name, of_exercise, of_line) in enumerate(exercises):
        exercise = ExerciseFactory.create(name=name, **of_exercise)
        yield name, PrescriptionFactory.create(group=group, exercise=exercise, position=position, **of_line)


FIXED: dict[str, Any] = {"load": Decimal(60), "load_unit": "kg", "load_rule": "fixed", "low": Decimal(5)}
NO_LOAD: dict[str, Any] = {"load_meaning": "none"}
WARM_UP: list[Written] = [
    ("Arm circles", NO_LOAD | {"segment": "warm_up"}, {"low": Decimal(10)}),
    ("Knee hug", NO_LOAD | {"segment": "warm_up", "regions": ["hip"]}, {"low": Decimal(6), "per": "side"}),
]
BLOCK_A: list[Written] = [
    (
        "Front squat",
        {"regions": ["knee", "hip"], "needs": [["barbell"], ["rack"]], "spotting": "safety_arms"},
        FIXED | {"ramp_up_sets": 2, "cue": "Elbows up"},
    ),
    ("Split squat", NO_LOAD | {"regions": [("knee", "working")]}, {"low": Decimal(8), "per": "side"}),
    ("Chin-up", {"load_meaning": "added", "regions": ["shoulder"]}, {"low": Decimal(4), "high": Decimal(6)}),
]
BLOCK_B: list[Written] = [
    ("Romanian deadlift", {"regions": ["thigh_back"], "needs": [["barbell"]]}, FIXED | {"rir_half": 4}),
    (
        "Goblet squat",
        {"load_meaning": "single", "regions": ["ankle"], "needs": [["dumbbell"]]},
        {"low": Decimal(8), "load_rule": "find", "rir_half": 6},
    ),
    ("Side plank", NO_LOAD | {"regions": ["abdomen"]}, {"low": Decimal(30), "dose_kind": "hold", "per": "side"}),
    (
        "Lunge round the clock",
        NO_LOAD | {"regions": ["foot"]},
        {"low": Decimal(2), "per": "direction", "directions": ["forward", "lateral", "backward"]},
    ),
]


@pytest.fixture
def evening(cast: Cast) -> Evening:
    session = SessionFactory.create(name="Squat and hinge", plan=cast.plan)
    before = SegmentFactory.create(session=session, kind="warm_up", position=0, minutes=8)
    strength = SegmentFactory.create(session=session, kind="strength", position=1)
    warm_up = CircuitGroupFactory.create(segment=before, position=0, rounds_min=1)
    first = CircuitGroupFactory.create(segment=strength, position=1, rounds_min=4, rest_min_s=120, rest_max_s=150)
    second = CircuitGroupFactory.create(segment=strength, position=2, rounds_min=3)
    parts = ((warm_up, WARM_UP), (first, BLOCK_A), (second, BLOCK_B))
    lines = {name: line for group, written in parts for name, line in add_lines(group, written)}
    box = ExerciseFactory.create(name="Hip thrust", regions=["low_back"], needs=[["barbell"]])
    PrescriptionSwap.objects.create(prescription=lines["Front squat"], exercise=box)
    made = Evening(cast, session, lines, Assignment())
    made.assignment = made.assign(cast.athlete, cast.team_mate)
    return made
