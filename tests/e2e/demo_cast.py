"""The demo club's people and things under the names of the test cast, so that the table of addresses fits it."""

from __future__ import annotations

from functools import cached_property

from coachhub.base.clock import today
from coachhub.cards.models import Assignment, Card, CardLine
from coachhub.library.models import Exercise, Venue
from coachhub.people.models import Athlete, Club, Guardian, Squad, Staff, User
from coachhub.plans.models import Plan, Prescription, Session
from tests.cast import Cast, Role
from tests.factories import DeviceFactory

LOGINS = {
    Role.OWNER: "owner",
    Role.COACH: "coach",
    Role.ASSISTANT: "assistant",
    Role.CLINICIAN: "clinician",
    Role.HEAD_COACH: "headcoach",
}
PHONE_TOKEN = "phone of the demo's athlete"


class DemoCast(Cast):
    @cached_property
    def card(self) -> Card:
        """Today's, of the athlete."""
        return Card.objects.get(athlete=self.athlete, assignment=self.assignment)

    @cached_property
    def assignment(self) -> Assignment:
        return Assignment.objects.get(on_date=today())

    @cached_property
    def session(self) -> Session:
        return self.assignment.session

    @cached_property
    def plan(self) -> Plan:
        return self.session.plan

    @cached_property
    def venue(self) -> Venue:
        return self.assignment.venue

    @cached_property
    def line(self) -> CardLine:
        """The first of a block on the athlete's card, as it stands now."""
        revision = self.card.revisions.order_by("-number")[0]
        blocks = {group["key"] for group in revision.layout if group["label"]}
        return next(line for line in revision.lines.order_by("position") if line.group_key in blocks)

    @cached_property
    def prescription(self) -> Prescription:
        """Where that line comes from."""
        written = Prescription.objects.filter(group__segment__session=self.session)
        return next(row for row in written if row.line_key == self.line.line_key)

    @cached_property
    def exercise(self) -> Exercise:
        return self.prescription.exercise


def demo_cast() -> DemoCast:
    """The athlete has a card of today and is a minor, as most of the squad."""
    squad = Squad.objects.get()
    athlete, team_mate = Athlete.objects.filter(cards__assignment__on_date=today()).order_by("born_on").reverse()[:2]
    staff = {role: Staff.objects.get(user__username=name) for role, name in LOGINS.items()}
    return DemoCast(
        club=Club.objects.get(),
        squad=squad,
        other_squad=squad,
        staff=staff,
        outsider=User(username="outsider"),
        athlete=athlete,
        team_mate=team_mate,
        child=athlete,
        guardian=Guardian.objects.filter(guardianships__athlete=athlete)[0],
        device=DeviceFactory.create(athlete=athlete, token=PHONE_TOKEN),
        tokens={Role.ATHLETE: PHONE_TOKEN},
    )
