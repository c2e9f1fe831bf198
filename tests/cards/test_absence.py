"""Who is away: on cards that are there, on cards made later, and back again."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.core.exceptions import PermissionDenied, ValidationError

from coachhub.base.clock import now, today
from coachhub.cards.actions import assign_session
from coachhub.cards.actions.absence import end_absence, mark_absent
from coachhub.cards.models import Attendance, Card
from coachhub.season.models import Absence
from tests.cast import Cast, Role
from tests.factories import AssignmentFactory, CardFactory

TOMORROW = today() + timedelta(days=1)


def away(cast: Cast, role: Role = Role.ATHLETE, days: int = 3, reason: str = "ill") -> Absence:
    """The athlete, from today on."""
    to_on = today() + timedelta(days=days - 1)
    (row,) = mark_absent(
        actor=cast.actor_of(role), athletes=[cast.athlete], from_on=today(), to_on=to_on, reason=reason
    )
    return row


def said() -> list[tuple[int, str]]:
    return list(Attendance.objects.order_by("pk").values_list("card", "status"))


def coming(cast: Cast, days: int) -> Card:
    assignment = AssignmentFactory.create(
        session=cast.session, squad=cast.squad, venue=cast.venue, on_date=today() + timedelta(days=days)
    )
    return CardFactory.create(assignment=assignment, athlete=cast.athlete)


def test_cards_of_these_days_say_absent_once(cast: Cast) -> None:
    inside, _after = coming(cast, 2), coming(cast, 3)

    for _ in range(2):
        away(cast)

    assert (said(), Absence.objects.count()) == ([(inside.pk, "absent")], 1)


def test_card_that_is_begun_or_taken_back_stays_as_it_is(cast: Cast) -> None:
    Card.objects.filter(pk=cast.card.pk).update(started_at=now())
    cancelled = coming(cast, 1).assignment
    cancelled.cancelled_at = now()
    cancelled.save()

    away(cast)

    assert said() == []


def test_card_made_later_says_absent_from_the_first(cast: Cast) -> None:
    away(cast)

    assignment = assign_session(
        actor=cast.actor_of(Role.COACH),
        session=cast.session,
        squad=cast.squad,
        athletes=[cast.athlete, cast.team_mate],
        venue=cast.venue,
        on_date=TOMORROW,
    )

    assert said() == [(assignment.cards.get(athlete=cast.athlete).pk, "absent")]


def test_back_earlier_is_present_on_the_days_left(cast: Cast) -> None:
    first, second = coming(cast, 0), coming(cast, 1)
    row = away(cast)

    for _ in range(2):
        end_absence(actor=cast.actor_of(Role.COACH), absence=row, back_on=TOMORROW)

    assert said() == [(first.pk, "absent"), (second.pk, "absent"), (second.pk, "present")]
    assert [(one.from_on, one.to_on) for one in Absence.objects.all()] == [(today(), today())]


def test_back_from_one_absence_is_still_away_by_another(cast: Cast) -> None:
    card = coming(cast, 0)
    row = away(cast)
    away(cast, days=1, reason="school")

    end_absence(actor=cast.actor_of(Role.ATHLETE), absence=row, back_on=today())

    assert (said(), Absence.objects.get().reason) == ([(card.pk, "absent")], "school")


@pytest.mark.parametrize("role", [Role.TEAM_MATE, Role.OTHER_COACH, Role.ASSISTANT, Role.HEAD_COACH, Role.CLINICIAN])
def test_nobody_else_says_who_is_away(cast: Cast, role: Role) -> None:
    row = away(cast)

    with pytest.raises(PermissionDenied):
        away(cast, role, reason="away")
    with pytest.raises(PermissionDenied):
        end_absence(actor=cast.actor_of(role), absence=row, back_on=today())


@pytest.mark.parametrize(("days", "said"), [(400, "longer than a year"), (0, "Constraint")])
def test_days_that_make_no_sense_are_refused(cast: Cast, days: int, said: str) -> None:
    with pytest.raises(ValidationError, match=said):
        away(cast, days=days)
