"""What the database itself refuses about people, each rule broken once."""

from __future__ import annotations

import uuid
from collections.abc import Callable
from datetime import date, timedelta

import pytest
from django.db import IntegrityError, connection, transaction
from django.db.models import CheckConstraint, UniqueConstraint
from django.db.models.base import Model

from coachhub.base.clock import now, today
from coachhub.people import models
from coachhub.people.models import Club, RestrictionException, StaffSquad
from tests.factories import (
    AthleteFactory,
    AthleteLevelFactory,
    AvailabilityFactory,
    ConsentFactory,
    DeviceFactory,
    EnrolmentCodeFactory,
    ExerciseFactory,
    GuardianshipFactory,
    ImportDraftFactory,
    MembershipFactory,
    PainReportFactory,
    RedFlagFactory,
    RestrictionFactory,
    ReturnStageFactory,
    SquadFactory,
    StaffFactory,
    UserFactory,
    days_ago,
)

pytestmark = pytest.mark.django_db


def twice_in_a_squad() -> None:
    first = MembershipFactory.create()
    MembershipFactory.create(squad=first.squad, athlete=first.athlete)


def guardian_twice() -> None:
    first = GuardianshipFactory.create()
    GuardianshipFactory.create(guardian=first.guardian, athlete=first.athlete)


def consent_twice() -> None:
    ConsentFactory.create(athlete=ConsentFactory.create().athlete)


def squad_of_staff_twice() -> None:
    squad = SquadFactory.create()
    StaffSquad.objects.create(staff=StaffFactory.create(squads=[squad]), squad=squad)


def exception_of(exercises: int = 1, **values: object) -> None:
    restriction, exercise = RestrictionFactory.create(), ExerciseFactory.create()
    for _ in range(exercises):
        RestrictionException.objects.create(
            restriction=restriction, exercise=exercise, on_word_of="Dr Alder", added_at=now(), **values
        )


def same_uuid_of_pain() -> None:
    PainReportFactory.create(uuid=PainReportFactory.create().uuid)


BROKEN: dict[str, Callable[[], object]] = {
    "one_club": lambda: Club.objects.create(pk=2, name="A second club"),
    "club_unit": lambda: Club.objects.create(pk=1, name="Club", unit="st"),
    "club_gap_days": lambda: Club.objects.create(pk=1, name="Club", gap_days=6),
    "user_email_once": lambda: [UserFactory.create(email=e) for e in ("cato@club.example", "Cato@club.example")],
    "athlete_unit": lambda: AthleteFactory.create(unit="st"),
    "athlete_level": lambda: AthleteFactory.create(level="expert"),
    "athlete_side": lambda: AthleteFactory.create(dominant_side="mid"),
    "athlete_born_plausible": lambda: AthleteFactory.create(born_on=date(1899, 12, 31)),
    "one_open_membership": twice_in_a_squad,
    "membership_ends_after_start": lambda: MembershipFactory.create(ended_on=days_ago(101)),
    "guardianship_once": guardian_twice,
    "consent_kind": lambda: ConsentFactory.create(kind="photos"),
    "one_standing_consent": consent_twice,
    "consent_withdrawn_after_given": lambda: ConsentFactory.create(withdrawn_on=days_ago(51)),
    "staff_role": lambda: StaffFactory.create(role="boss"),
    "staff_squad_once": squad_of_staff_twice,
    "code_expires_later": lambda: EnrolmentCodeFactory.create(expires_at=now() - timedelta(hours=1)),
    "import_kind": lambda: ImportDraftFactory.create(kind="plans"),
    "one_import_at_a_time": lambda: ImportDraftFactory.create(owner=ImportDraftFactory.create().owner),
    "import_expires_later": lambda: ImportDraftFactory.create(expires_at=now() - timedelta(hours=1)),
    "restriction_kind": lambda: RestrictionFactory.create(kind="mood"),
    "restriction_side": lambda: RestrictionFactory.create(side="mid"),
    "restriction_says_what": lambda: RestrictionFactory.create(kind="region", region=""),
    "restriction_lifted_on_word": lambda: RestrictionFactory.create(lifted_at=now()),
    "restriction_review_after_start": lambda: RestrictionFactory.create(review_on=days_ago(4)),
    "exception_once": lambda: exception_of(2),
    "exception_cap_with_unit": lambda: exception_of(cap_value=20),
    "availability_status": lambda: AvailabilityFactory.create(status="maybe"),
    "pain_region": lambda: PainReportFactory.create(region="aura"),
    "pain_side": lambda: PainReportFactory.create(side="mid"),
    "pain_score_0_10": lambda: PainReportFactory.create(score=11),
    "pain_cleared_by_someone": lambda: PainReportFactory.create(cleared_at=now()),
    "red_flag_kind": lambda: RedFlagFactory.create(kind="tired"),
    "red_flag_cleared_by_name_and_date": lambda: RedFlagFactory.create(cleared_on=today()),
    "level_of_a_family": lambda: AthleteLevelFactory.create(family=""),
    "level_with_reason": lambda: AthleteLevelFactory.create(reason=""),
    "return_stage_known": lambda: ReturnStageFactory.create(stage=4),
    "return_stage_on_word": lambda: ReturnStageFactory.create(on_word_of=""),
}
BROKEN_COLUMNS: dict[str, Callable[[], object]] = {
    "squad name": lambda: [SquadFactory.create(name="Seniors") for _ in range(2)],
    "user name": lambda: [UserFactory.create(username="coach") for _ in range(2)],
    "one row of staff a user": lambda: StaffFactory.create(user=StaffFactory.create().user),
    "code": lambda: [EnrolmentCodeFactory.create(code_hash="a" * 64) for _ in range(2)],
    "link": lambda: [EnrolmentCodeFactory.create(token_hash="a" * 64) for _ in range(2)],
    "phone's token": lambda: [DeviceFactory.create(token="one") for _ in range(2)],
    "a code binds one phone": lambda: DeviceFactory.create(enrolment=DeviceFactory.create().enrolment),
    "pain report sent twice": same_uuid_of_pain,
    "red flag sent twice": lambda: [RedFlagFactory.create(uuid=uuid.UUID(int=1)) for _ in range(2)],
}


def refusal(write: Callable[[], object]) -> str:
    with pytest.raises(IntegrityError) as caught, transaction.atomic():
        write()
    return str(caught.value)


@pytest.mark.parametrize("name", sorted(BROKEN))
def test_constraint_refuses(name: str) -> None:
    words = refusal(BROKEN[name])
    # SQLite names the columns of a unique constraint, not the constraint.
    is_named = name in words or (connection.vendor == "sqlite" and "UNIQUE constraint failed" in words)
    assert is_named, words


@pytest.mark.parametrize("name", sorted(BROKEN_COLUMNS))
def test_unique_column_refuses(name: str) -> None:
    assert "unique" in refusal(BROKEN_COLUMNS[name]).lower()


def test_every_constraint_is_broken_once() -> None:
    rows = [row for row in vars(models).values() if isinstance(row, type) and issubclass(row, Model)]
    named = {
        constraint.name
        for row in rows
        for constraint in row._meta.constraints
        if isinstance(constraint, CheckConstraint | UniqueConstraint)
    }
    assert named == set(BROKEN)
