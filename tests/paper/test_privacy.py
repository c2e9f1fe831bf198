"""A sheet of paper lies about: what it tells of health, and to whom."""

from __future__ import annotations

from uuid import uuid4

import pytest

from coachhub.base.clock import today
from coachhub.cards.actions import report_pain, restrict_athlete
from coachhub.cards.models import Card
from coachhub.cards.queries import load_sheets
from coachhub.cards.sheet import Sheet
from tests.cast import Role
from tests.paper.conftest import Day, pages, printed


def restricted(day: Day) -> list[Sheet]:
    give = day.give(day.cast.athlete)
    restrict_athlete(
        actor=day.cast.actor_of(Role.COACH),
        athlete=day.cast.athlete,
        kind="region",
        region="knee",
        side="left",
        diagnosis="meniscus",
        on_word_of="Dr Alder",
        starts_on=today(),
    )
    return load_sheets(Card.objects.filter(assignment=give))


def test_restricted_card_says_so_and_why(day: Day) -> None:
    (text,) = pages(printed(restricted(day)))
    assert "Revision 2: changed by a restriction at" in text
    assert "Left out: A1 Front squat, A2 Split squat. Restricted for now: left knee." in text
    assert "meniscus" not in text


def test_restriction_is_not_named_to_who_may_not_read_it(day: Day) -> None:
    (text,) = pages(printed(restricted(day), with_health=False))
    assert "Left out: A1 Front squat, A2 Split squat. Left out for now: the coach knows why." in text
    assert "knee" not in text


@pytest.mark.parametrize("with_health", [True, False])
def test_pain_is_never_printed(day: Day, with_health: bool) -> None:
    give = day.give(day.cast.athlete)
    report_pain(
        actor=day.cast.actor_of(Role.COACH),
        athlete=day.cast.athlete,
        uuid=uuid4(),
        region="knee",
        side="left",
        score=7,
        is_sore_only=False,
    )
    (text,) = pages(printed(load_sheets(Card.objects.filter(assignment=give)), with_health=with_health))
    assert "Left out: A1 Front squat, A2 Split squat. Off the card for now" in text
    assert [word for word in ("knee", "pain of", " 7 ") if word in text.replace("7 very hard", "")] == []
