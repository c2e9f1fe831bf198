"""The fixed cast: who they are never changes, so that a test can say "the other squad's coach" and mean one person.

Seniors: athlete, team-mate, in the hands of coach, assistant, clinician and head coach. Under-18: the child with a
guardian, and another squad's coach. The outsider has a login but no row of staff; the guardian has no login yet.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from functools import cached_property

from django.contrib.auth.models import AnonymousUser
from django.test import Client

from coachhub.base.actor import Actor, ActorKind
from coachhub.cards.models import Assignment, Card, CardLine
from coachhub.library.models import Exercise, Venue
from coachhub.people.access import PHONE_COOKIE, actor_for
from coachhub.people.models import Athlete, Club, Device, Guardian, Squad, Staff, User
from coachhub.plans.models import Plan, Prescription, Session
from tests.factories import (
    AssignmentFactory,
    AthleteFactory,
    CardFactory,
    CardLineFactory,
    CardRevisionFactory,
    CircuitGroupFactory,
    ClubFactory,
    DeviceFactory,
    ExerciseFactory,
    GuardianshipFactory,
    PlanFactory,
    PrescriptionFactory,
    SegmentFactory,
    SessionFactory,
    SquadFactory,
    StaffFactory,
    UserFactory,
    VenueFactory,
)


class Role(StrEnum):
    ANONYMOUS = "anonymous"
    OWNER = "owner"
    COACH = "coach"
    OTHER_COACH = "other coach"
    ASSISTANT = "assistant"
    CLINICIAN = "clinician"
    HEAD_COACH = "head coach"
    ATHLETE = "athlete"
    TEAM_MATE = "team-mate"
    GUARDIAN = "guardian"
    OUTSIDER = "outsider"


@dataclass
class Cast:
    club: Club
    squad: Squad
    other_squad: Squad
    staff: dict[Role, Staff]
    outsider: User
    athlete: Athlete
    team_mate: Athlete
    child: Athlete
    guardian: Guardian
    device: Device
    tokens: dict[Role, str] = field(default_factory=dict)

    def user_of(self, role: Role) -> User | AnonymousUser:
        if role is Role.OUTSIDER:
            return self.outsider
        return self.staff[role].user if role in self.staff else AnonymousUser()

    def actor_of(self, role: Role | str) -> Actor:
        role = Role(role)
        if role is Role.GUARDIAN:
            children = frozenset([self.child.pk])
            return Actor(ActorKind.GUARDIAN, athlete_ids=children, name=self.guardian.name)
        return actor_for(self.user_of(role), self.tokens.get(role, ""))

    def client_of(self, role: Role | str) -> Client:
        """Staff and outsider logged in, athlete and team-mate by their bound phone, the others with nothing."""
        role = Role(role)
        client = Client()
        user = self.user_of(role)
        if isinstance(user, User):
            client.force_login(user)
        if role in self.tokens:
            client.cookies[PHONE_COOKIE] = self.tokens[role]
        return client

    @cached_property
    def venue(self) -> Venue:
        return VenueFactory.create(name="Mill Lane gym", stock=True)

    @cached_property
    def exercise(self) -> Exercise:
        return ExerciseFactory.create(
            name="Romanian deadlift", patterns=["hinge"], regions=["thigh_back", "low_back"], needs=[["barbell"]]
        )

    @cached_property
    def plan(self) -> Plan:
        return PlanFactory.create(name="Autumn strength", squad=self.squad)

    @cached_property
    def session(self) -> Session:
        """One strength block with `self.prescription` in it."""
        return SessionFactory.create(name="Monday lower", plan=self.plan)

    @cached_property
    def prescription(self) -> Prescription:
        segment = SegmentFactory.create(session=self.session)
        group = CircuitGroupFactory.create(segment=segment, position=0)
        return PrescriptionFactory.create(group=group, exercise=self.exercise, position=0)

    @cached_property
    def assignment(self) -> Assignment:
        """The Seniors' session of today."""
        assert self.prescription.pk
        return AssignmentFactory.create(session=self.session, squad=self.squad, venue=self.venue)

    @cached_property
    def card(self) -> Card:
        return CardFactory.create(assignment=self.assignment, athlete=self.athlete)

    @cached_property
    def line(self) -> CardLine:
        """A1 on the athlete's card."""
        revision = CardRevisionFactory.create(card=self.card)
        return CardLineFactory.create(
            revision=revision, exercise=self.exercise, line_key=self.prescription.line_key, position=0
        )


def make_cast() -> Cast:
    squad, other_squad = SquadFactory.create(name="Seniors"), SquadFactory.create(name="Under-18")
    athlete = AthleteFactory.create(given_name="Ingrid", family_name="Moss", squad=squad)
    team_mate = AthleteFactory.create(given_name="Petra", family_name="Vane", squad=squad)
    child = AthleteFactory.create(given_name="Juno", family_name="Reed", is_minor=True, squad=other_squad)
    tokens = {Role.ATHLETE: "phone of the athlete", Role.TEAM_MATE: "phone of the team-mate"}
    device = DeviceFactory.create(athlete=athlete, token=tokens[Role.ATHLETE])
    DeviceFactory.create(athlete=team_mate, token=tokens[Role.TEAM_MATE])
    return Cast(
        club=ClubFactory.create(),
        squad=squad,
        other_squad=other_squad,
        staff=make_staff(squad, other_squad),
        outsider=UserFactory.create(username="outsider"),
        athlete=athlete,
        team_mate=team_mate,
        child=child,
        guardian=GuardianshipFactory.create(guardian__name="Wren Reed", athlete=child).guardian,
        device=device,
        tokens=tokens,
    )


def make_staff(squad: Squad, other_squad: Squad) -> dict[Role, Staff]:
    rows = {
        Role.OWNER: ("owner", "Maren Holt", []),
        Role.COACH: ("coach", "Cato Lind", [squad]),
        Role.OTHER_COACH: ("coach", "Odile Brand", [other_squad]),
        Role.ASSISTANT: ("assistant", "Asa Fell", [squad]),
        Role.CLINICIAN: ("clinician", "Dr Alder", [squad]),
        Role.HEAD_COACH: ("head_coach", "Hedda Crane", [squad]),
    }
    return {
        role: StaffFactory.create(
            role=code,
            name=name,
            squads=squads,
            user__username=role.replace(" ", "-"),
            user__email=f"{code}-{role[:2]}@club.example",
        )
        for role, (code, name, squads) in rows.items()
    }
