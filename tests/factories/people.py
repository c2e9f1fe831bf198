"""Who trains and who coaches."""

from __future__ import annotations

import uuid
from collections.abc import Iterable
from datetime import date, timedelta
from typing import Any

from django.contrib.auth.hashers import make_password
from factory.declarations import LazyAttribute, LazyFunction, Maybe, SelfAttribute, Sequence, SubFactory, Trait
from factory.django import DjangoModelFactory
from factory.helpers import post_generation

from coachhub.base.clock import now, today
from coachhub.people.access import new_token, token_hash
from coachhub.people.models import (
    Athlete,
    AthleteLevel,
    Availability,
    Club,
    Consent,
    Device,
    EnrolmentCode,
    Guardian,
    Guardianship,
    ImportDraft,
    Membership,
    PainReport,
    RedFlag,
    Restriction,
    ReturnStage,
    Squad,
    Staff,
    StaffSquad,
    User,
)

PASSWORD = "a quiet lane by the mill"


def days_ago(days: int) -> date:
    return today() - timedelta(days=days)


def years_ago(years: int) -> date:
    """The first of January, so that the age on any day of this year is `years`."""
    return date(today().year - years, 1, 1)


class ClubFactory(DjangoModelFactory[Club]):
    class Meta:
        model = Club
        django_get_or_create = ("id",)

    id = 1
    name = "Tarn Valley Handball Club"
    time_zone = "Europe/London"


class UserFactory(DjangoModelFactory[User]):
    class Meta:
        model = User

    username = Sequence("user{}".format)
    password = LazyFunction(lambda: make_password(PASSWORD))


class SquadFactory(DjangoModelFactory[Squad]):
    class Meta:
        model = Squad

    name = Sequence("Squad {}".format)


class StaffFactory(DjangoModelFactory[Staff]):
    """`StaffFactory.create(role="coach", squads=[squad])`"""

    class Meta:
        model = Staff
        skip_postgeneration_save = True

    user = SubFactory(UserFactory)
    name = Sequence("Staff {}".format)
    role = "coach"

    @post_generation
    def squads(self: Any, create: bool, extracted: Iterable[Squad] | None, **_: Any) -> None:
        StaffSquad.objects.bulk_create([StaffSquad(staff=self, squad=squad) for squad in extracted or ()])


class AthleteFactory(DjangoModelFactory[Athlete]):
    """`AthleteFactory.create(is_minor=True, squad=squad)`"""

    class Meta:
        model = Athlete
        skip_postgeneration_save = True

    class Params:
        is_minor = Trait(born_on=LazyFunction(lambda: years_ago(14)))

    given_name = Sequence("Given{}".format)
    family_name = Sequence("Family{}".format)
    born_on = LazyFunction(lambda: years_ago(24))

    @post_generation
    def squad(self: Any, create: bool, extracted: Squad | None, **_: Any) -> None:
        if extracted:
            MembershipFactory.create(athlete=self, squad=extracted)


class MembershipFactory(DjangoModelFactory[Membership]):
    class Meta:
        model = Membership

    squad = SubFactory(SquadFactory)
    athlete = SubFactory(AthleteFactory)
    started_on = LazyFunction(lambda: days_ago(100))


class GuardianFactory(DjangoModelFactory[Guardian]):
    class Meta:
        model = Guardian

    name = Sequence("Guardian {}".format)


class GuardianshipFactory(DjangoModelFactory[Guardianship]):
    class Meta:
        model = Guardianship

    guardian = SubFactory(GuardianFactory)
    athlete = SubFactory(AthleteFactory, is_minor=True)


class ConsentFactory(DjangoModelFactory[Consent]):
    class Meta:
        model = Consent

    athlete = SubFactory(AthleteFactory)
    kind = "training"
    given_by = "A guardian"
    given_on = LazyFunction(lambda: days_ago(50))


class EnrolmentCodeFactory(DjangoModelFactory[EnrolmentCode]):
    class Meta:
        model = EnrolmentCode

    athlete = SubFactory(AthleteFactory)
    code_hash = LazyFunction(lambda: token_hash(new_token()))
    token_hash = LazyFunction(lambda: token_hash(new_token()))
    created_by = SubFactory(UserFactory)
    created_at = LazyFunction(now)
    expires_at = LazyFunction(lambda: now() + timedelta(minutes=20))


class DeviceFactory(DjangoModelFactory[Device]):
    """`DeviceFactory.create(athlete=athlete, token="…")`: the phone that shows this token."""

    class Meta:
        model = Device

    class Params:
        token = LazyFunction(new_token)

    athlete = SubFactory(AthleteFactory)
    enrolment = SubFactory(EnrolmentCodeFactory, athlete=SelfAttribute("..athlete"))
    token_hash = LazyAttribute(lambda o: token_hash(o.token))
    bound_at = LazyFunction(now)


class RestrictionFactory(DjangoModelFactory[Restriction]):
    class Meta:
        model = Restriction

    athlete = SubFactory(AthleteFactory)
    kind = "region"
    region = Maybe("is_region", "knee", "")
    on_word_of = "Dr Alder"
    starts_on = LazyFunction(lambda: days_ago(3))
    set_by = SubFactory(UserFactory)
    set_at = LazyFunction(now)

    class Params:
        is_region = LazyAttribute(lambda o: o.kind == "region")


class AvailabilityFactory(DjangoModelFactory[Availability]):
    class Meta:
        model = Availability

    athlete = SubFactory(AthleteFactory)
    status = "modified"
    from_on = LazyFunction(lambda: days_ago(3))
    set_by = SubFactory(UserFactory)
    set_at = LazyFunction(now)


class PainReportFactory(DjangoModelFactory[PainReport]):
    class Meta:
        model = PainReport

    uuid = LazyFunction(uuid.uuid4)
    athlete = SubFactory(AthleteFactory)
    region = "knee"
    score = 4
    on_date = LazyFunction(today)
    reported_at = LazyFunction(now)


class RedFlagFactory(DjangoModelFactory[RedFlag]):
    class Meta:
        model = RedFlag

    uuid = LazyFunction(uuid.uuid4)
    athlete = SubFactory(AthleteFactory)
    kind = "head_knock"
    on_date = LazyFunction(today)
    reported_at = LazyFunction(now)


class AthleteLevelFactory(DjangoModelFactory[AthleteLevel]):
    class Meta:
        model = AthleteLevel

    athlete = SubFactory(AthleteFactory)
    family = "squat"
    from_on = LazyFunction(lambda: days_ago(30))
    reason = "as the coach saw it"
    set_by = SubFactory(UserFactory)
    set_at = LazyFunction(now)


class ReturnStageFactory(DjangoModelFactory[ReturnStage]):
    class Meta:
        model = ReturnStage

    athlete = SubFactory(AthleteFactory)
    stage = 1
    from_on = LazyFunction(lambda: days_ago(3))
    on_word_of = "Dr Alder"
    set_by = SubFactory(UserFactory)
    set_at = LazyFunction(now)


class ImportDraftFactory(DjangoModelFactory[ImportDraft]):
    """A roster of one row, uploaded a moment ago; its columns are not matched yet."""

    class Meta:
        model = ImportDraft

    owner = SubFactory(UserFactory)
    kind = "roster"
    file_name = "roster.csv"
    table = LazyFunction(
        lambda: {
            "headers": ["given name", "family name", "date of birth"],
            "rows": [[2, ["Runa", "Beck", "2012-04-30"], [], ""]],
            "remarks": [],
        }
    )
    created_at = LazyFunction(now)
    expires_at = LazyFunction(lambda: now() + timedelta(hours=1))
