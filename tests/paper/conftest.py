"""A session of the Seniors with everything that a card prints, given to the cast or to a whole squad."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from decimal import Decimal
from io import BytesIO

import pytest
from pypdf import PdfReader

from coachhub.base.clock import today
from coachhub.cards.actions import assign_session
from coachhub.cards.models import Assignment, Card
from coachhub.cards.queries import load_sheets
from coachhub.cards.sheet import Sheet
from coachhub.paper.cards import cards_pdf
from coachhub.people.models import Athlete
from coachhub.plans.models import Prescription, Session
from tests.cast import Cast, Role
from tests.factories import (
    CircuitGroupFactory,
    ExerciseFactory,
    PrescriptionFactory,
    SegmentFactory,
    SessionFactory,
)

AS_OF = datetime(2026, 11, 24, 16, 40, tzinfo=UTC)
FIXED = {"load": Decimal(60), "load_unit": "kg", "load_rule": "fixed", "low": Decimal(5)}


def address_of(card_id: int) -> str:
    return f"https://cards.club.example/g/cards/{card_id}"


@dataclass
class Day:
    cast: Cast
    session: Session
    squat: Prescription
    split: Prescription
    press: Prescription

    def give(self, *athletes: Athlete) -> Assignment:
        return assign_session(
            actor=self.cast.actor_of(Role.OWNER),
            session=self.session,
            squad=self.cast.squad,
            athletes=athletes,
            venue=self.cast.venue,
            on_date=today(),
            week=3,
        )

    def sheets(self, *athletes: Athlete) -> list[Sheet]:
        return load_sheets(Card.objects.filter(assignment=self.give(*athletes)))

    def text(self, athlete: Athlete, *, with_health: bool = True) -> str:
        """Everything that the athlete's card says, in one line."""
        return " ".join(pages(printed(self.sheets(athlete), with_health=with_health)))


def printed(sheets: Sequence[Sheet], *, with_health: bool = True) -> bytes:
    return cards_pdf(sheets, as_of=AS_OF, address_of=address_of, with_health=with_health)


def pages(pdf: bytes) -> list[str]:
    """The text of each page, with every gap as one space."""
    return [
        " ".join(page.extract_text().replace("\N{NO-BREAK SPACE}", " ").split())
        for page in PdfReader(BytesIO(pdf)).pages
    ]


@pytest.fixture
def day(cast: Cast) -> Day:
    session = SessionFactory.create(name="Squat and pull", plan=cast.plan)
    warm_up = SegmentFactory.create(session=session, kind="warm_up", position=0, minutes=8)
    jog = ExerciseFactory.create(name="Light jog", load_meaning="none", measure="time", segment="warm_up")
    PrescriptionFactory.create(
        group=CircuitGroupFactory.create(segment=warm_up, rounds_min=1), exercise=jog, dose_kind="time", low=120
    )
    strength = SegmentFactory.create(session=session, position=1)
    first = CircuitGroupFactory.create(segment=strength, position=0, rounds_min=4, rest_min_s=120, rest_max_s=150)
    second = CircuitGroupFactory.create(segment=strength, position=1, rounds_min=3)
    squat = ExerciseFactory.create(
        name="Front squat", patterns=["squat"], regions=["knee"], needs=[["barbell"]], spotting="safety_arms"
    )
    split = ExerciseFactory.create(name="Split squat", regions=[("knee", "working")], load_meaning="none")
    press = ExerciseFactory.create(
        name="Seated press", regions=["shoulder"], load_meaning="per_hand", needs=[["dumbbell"]]
    )
    a1 = PrescriptionFactory.create(group=first, exercise=squat, ramp_up_sets=2, cue="Elbows high", **FIXED)
    a2 = PrescriptionFactory.create(group=first, exercise=split, low=8, per="side")
    b1 = PrescriptionFactory.create(group=second, exercise=press, low=8, load_rule="find", rir_half=4)
    return Day(cast, session, a1, a2, b1)
