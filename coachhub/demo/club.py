"""Makes the club of the demo: staff, squad, athletes with their guardians, phones, matches."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, time, timedelta
from typing import Final

from coachhub.base.actor import Actor, ActorKind
from coachhub.demo.data import Person, people, read
from coachhub.demo.days import at, born_on, match_days
from coachhub.library.models import Venue
from coachhub.people.access import staff_actor
from coachhub.people.actions import (
    add_athlete,
    add_squad,
    edit_staff,
    enrol_device,
    join_squad,
    make_enrolment_code,
    set_up_club,
)
from coachhub.people.models import (
    Athlete,
    Consent,
    ConsentKind,
    Device,
    EnrolmentCode,
    Guardian,
    Guardianship,
    Squad,
    Staff,
    StaffRole,
    StaffSquad,
    User,
)
from coachhub.season.models import GymSlot, MatchDay, Weekday

PASSWORD: Final = "tarn valley demo 1"  # noqa: S105 - shown to everyone who starts the demo
# Clubs of the same invented league.
OPPONENTS: Final = ("Harrow Beck", "Sallow Bridge", "Kettle Moor", "Fen Gate", "Upper Larch", "Stone Ferry")


@dataclass(frozen=True, slots=True)
class Member:
    """An athlete of the squad with what the story says of her."""

    athlete: Athlete
    person: Person
    device_id: int | None

    @property
    def actor(self) -> Actor | None:
        """Herself with her own phone; None where the assistant writes for her."""
        if self.device_id is None:
            return None
        own = frozenset([self.athlete.pk])
        return Actor(ActorKind.ATHLETE, athlete_ids=own, device_id=self.device_id, name=self.athlete.name)


@dataclass(frozen=True, slots=True)
class DemoClub:
    """Everybody the story needs; `staff` by role, `members` by given name."""

    squad: Squad
    staff: dict[str, Actor]
    members: dict[str, Member]

    @property
    def coach(self) -> Actor:
        return self.staff["coach"]

    @property
    def assistant(self) -> Actor:
        return self.staff["assistant"]

    def athlete(self, given_name: str) -> Athlete:
        return self.members[given_name].athlete


def make_club(today: date, first_day: date) -> DemoClub:
    """Make the club as it stood before the first session of the story."""
    table = read("people")
    set_up_club(
        name=table["club"],
        unit="kg",
        time_zone=table["time_zone"],
        username="owner",
        email="",
        password=PASSWORD,
        is_demo=True,
    )
    owner = _actor("owner")
    squad = add_squad(actor=owner, name=table["squad"], note="Tuesday and Thursday, Mill Lane gym")
    for row in table["staff"]:
        _add_staff(owner, squad, row)
    staff = {row["role"]: _actor(row["username"]) for row in table["staff"]}
    members = [_member(staff["coach"], squad, person, today, first_day) for person in people()]
    return DemoClub(squad, staff, {member.athlete.given_name: member for member in members})


def _add_staff(owner: Actor, squad: Squad, row: dict[str, str]) -> None:
    """The passphrase is one for all, and hashing it is meant to be slow: the owner's hash is made once and shared."""
    role = StaffRole(row["role"])
    account = Staff.objects.select_related("user").get(role=StaffRole.OWNER)
    if role == StaffRole.OWNER:
        edit_staff(actor=owner, staff=account, name=row["name"], role=role, email="", squads=[])
        return
    user = User.objects.create(username=row["username"], password=account.user.password)
    staff = Staff.objects.create(user=user, name=row["name"], role=role)
    StaffSquad.objects.create(staff=staff, squad=squad)


def _actor(username: str) -> Actor:
    actor = staff_actor(User.objects.get(username=username))
    if actor is None:
        raise LookupError(f"{username} is not on the staff")
    return actor


def _member(coach: Actor, squad: Squad, person: Person, today: date, first_day: date) -> Member:
    given, family = person.name
    guardian = person.guardian
    contact = f"{guardian[0]} ({guardian[1]}), 555 0100" if guardian else "Club office, 555 0199"
    athlete = add_athlete(
        actor=coach,
        squad=None,
        given_name=given,
        family_name=family,
        born_on=born_on(today, *person.born),
        unit=person.unit,
        level=person.level,
        is_rir_taught=person.is_rir_taught,
        position=person.position,
        dominant_side=person.dominant_side,
        emergency_contact=contact,
        health_alert=person.health_alert,
    )
    joined_on = first_day - timedelta(days=60)
    join_squad(actor=coach, athlete=athlete, squad=squad, started_on=joined_on)
    _file_consents(athlete, guardian, joined_on)
    device_id = _bind_phone(coach, athlete, first_day) if person.has_phone else None
    return Member(athlete, person, device_id)


def _file_consents(athlete: Athlete, guardian: tuple[str, str] | None, given_on: date) -> None:
    by = guardian[0] if guardian else athlete.name
    if guardian:
        row = Guardian(name=guardian[0], phone="555 0100")
        row.save()
        Guardianship.objects.create(guardian=row, athlete=athlete, relation=guardian[1])
    Consent.objects.bulk_create(
        Consent(athlete=athlete, kind=kind, given_by=by, given_on=given_on) for kind in ConsentKind
    )


def _bind_phone(coach: Actor, athlete: Athlete, first_day: date) -> int:
    code = make_enrolment_code(actor=coach, athlete=athlete, lifetime=timedelta(minutes=20))
    device = enrol_device(token=code.token, label="Android").device
    bound_at = at(first_day, 16, 30)
    EnrolmentCode.objects.filter(pk=device.enrolment_id).update(
        created_at=bound_at - timedelta(minutes=5), used_at=bound_at, expires_at=bound_at + timedelta(minutes=15)
    )
    Device.objects.filter(pk=device.pk).update(bound_at=bound_at)
    return device.pk


def fill_calendar(squad: Squad, venue: Venue, today: date, first_day: date) -> None:
    MatchDay.objects.bulk_create(
        MatchDay(
            squad=squad,
            on_date=day,
            starts_at=time(15),
            opponent=OPPONENTS[n % len(OPPONENTS)],
            is_home=n % 2 == 0,
        )
        for n, day in enumerate(match_days(today))
    )
    GymSlot.objects.bulk_create(
        GymSlot(squad=squad, venue=venue, weekday=weekday, starts_at=time(17), minutes=75, from_on=first_day)
        for weekday in (Weekday.TUESDAY, Weekday.THURSDAY)
    )
