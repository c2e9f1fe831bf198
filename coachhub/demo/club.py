"""Makes the club of the demo: staff, squads, athletes with their guardians, phones, matches."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, time, timedelta
from typing import Any, Final

from coachhub.base.actor import Actor, ActorKind
from coachhub.coaching.series import monday_of
from coachhub.demo.data import Person, SquadStory, read
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
from coachhub.season.actions import set_phase
from coachhub.season.models import GymSlot, Happening, HappeningKind, MatchDay, weekdays_as_number

PASSWORD: Final = "tarn valley demo 1"  # noqa: S105 - shown to everyone who starts the demo
CLUB_OFFICE: Final = "Club office, 555 0199"


@dataclass(frozen=True, slots=True)
class Member:
    """An athlete of a squad with what the story says of her."""

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


def make_staff(stories: Iterable[SquadStory]) -> dict[str, Squad]:
    """Make the club with its staff and these squads, still empty; returns the squads by their key."""
    table = read("club")
    set_up_club(
        name=table["name"],
        unit="kg",
        time_zone=table["time_zone"],
        username="owner",
        email="",
        password=PASSWORD,
        is_demo=True,
    )
    owner = staff("owner")
    squads = {story.key: add_squad(actor=owner, name=story.name, note=story.note) for story in stories}
    for row in table["staff"]:
        _add_staff(owner, squads, row)
    return squads


def _add_staff(owner: Actor, squads: dict[str, Squad], row: dict[str, Any]) -> None:
    """The passphrase is one for all, and hashing it is meant to be slow: the owner's hash is made once and shared."""
    role = StaffRole(row["role"])
    account = Staff.objects.select_related("user").get(role=StaffRole.OWNER)
    if role == StaffRole.OWNER:
        edit_staff(actor=owner, staff=account, name=row["name"], role=role, email="", squads=[])
        return
    own = [squads[key] for key in row["squads"] if key in squads]
    if not own:
        return
    user = User.objects.create(username=row["username"], password=account.user.password)
    added = Staff.objects.create(user=user, name=row["name"], role=role)
    StaffSquad.objects.bulk_create(StaffSquad(staff=added, squad=squad) for squad in own)


def staff(username: str) -> Actor:
    actor = staff_actor(User.objects.get(username=username))
    if actor is None:
        raise LookupError(f"{username} is not on the staff")
    return actor


def add_members(coach: Actor, squad: Squad, story: SquadStory, today: date, first_day: date) -> dict[str, Member]:
    """Return the squad's athletes, as they stood before the first session, by their given names."""
    members = [_member(coach, squad, person, today, first_day) for person in story.people]
    return {member.athlete.given_name: member for member in members}


def _member(coach: Actor, squad: Squad, person: Person, today: date, first_day: date) -> Member:
    given, family = person.name
    guardian = _guardian(person.guardian[0]) if person.guardian else None
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
        emergency_contact=f"{guardian.name}, {guardian.phone}" if guardian else person.contact or CLUB_OFFICE,
        health_alert=person.health_alert,
    )
    joined_on = first_day - timedelta(days=60)
    join_squad(actor=coach, athlete=athlete, squad=squad, started_on=joined_on)
    if guardian and person.guardian:
        Guardianship.objects.create(guardian=guardian, athlete=athlete, relation=person.guardian[1])
    given_by = guardian.name if guardian else athlete.name
    Consent.objects.bulk_create(
        Consent(athlete=athlete, kind=kind, given_by=given_by, given_on=joined_on)
        for kind in ConsentKind
        if kind not in person.no_consent
    )
    device_id = _bind_phone(coach, athlete, first_day) if person.has_phone else None
    return Member(athlete, person, device_id)


def _guardian(name: str) -> Guardian:
    """One row for whoever has two children here."""
    known = Guardian.objects.filter(name=name).first()
    if known is not None:
        return known
    row = Guardian(name=name, phone=f"555 02{Guardian.objects.count():02}")
    row.save()
    return row


def _bind_phone(coach: Actor, athlete: Athlete, first_day: date) -> int:
    code = make_enrolment_code(actor=coach, athlete=athlete, lifetime=timedelta(minutes=20))
    device = enrol_device(token=code.token, label="Android").device
    bound_at = at(first_day, 16, 30)
    EnrolmentCode.objects.filter(pk=device.enrolment_id).update(
        created_at=bound_at - timedelta(minutes=5), used_at=bound_at, expires_at=bound_at + timedelta(minutes=15)
    )
    Device.objects.filter(pk=device.pk).update(bound_at=bound_at)
    return device.pk


def fill_calendar(squad: Squad, story: SquadStory, venue: Venue, today: date, first_day: date) -> None:
    opponents = read("club")["opponents"]
    MatchDay.objects.bulk_create(
        MatchDay(
            squad=squad,
            on_date=day,
            starts_at=time(15),
            opponent=opponents[n % len(opponents)],
            is_home=n % 2 == 0,
        )
        for n, day in enumerate(match_days(today))
    )
    GymSlot.objects.bulk_create(
        GymSlot(
            squad=squad,
            venue=venue,
            weekday=weekday,
            starts_at=story.starts_at,
            minutes=story.minutes,
            from_on=first_day,
        )
        for weekday in sorted(story.weekdays)
    )


def fill_season(coach: Actor, squad: Squad, story: SquadStory, today: date, first_day: date) -> None:
    """The squad's phases and its standing trainings."""
    for row in read("club")["phases"]:
        monday = monday_of(today)
        set_phase(
            actor=coach,
            squad=squad,
            code=row["code"],
            from_on=monday + timedelta(weeks=row["from"]),
            to_on=monday + timedelta(weeks=row["to"], days=6),
            targets={},
        )
    Happening.objects.create(
        squad=squad,
        kind=HappeningKind.TRAINING,
        from_on=first_day,
        weekdays=weekdays_as_number(story.trainings["weekdays"]),
        starts_at=time.fromisoformat(story.trainings["starts_at"]),
        minutes=story.trainings["minutes"],
        place=story.trainings["place"],
    )
