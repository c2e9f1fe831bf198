"""Hard sets by week: what stood on the cards, and what was done of it."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from coachhub.base.clock import now, today
from coachhub.cards.models import Assignment, CardLine
from coachhub.cards.queries.season_sets import WeekSets, sets_by_week
from coachhub.coaching.series import monday_of
from tests.cast import Cast
from tests.factories import CardFactory, CardLineFactory, CardRevisionFactory, SetEntryFactory


def line_of(cast: Cast, **more: Any) -> CardLine:
    """Three sets of a hinge on the athlete's card of today, unless told otherwise."""
    told: dict[str, Any] = {"exercise": cast.exercise, "patterns": ["hinge"], "sets": 3, **more}
    if "revision" not in told:
        told["revision"] = CardRevisionFactory.create(card=cast.card)
    return CardLineFactory.create(**told)


def week(cast: Cast) -> WeekSets:
    return sets_by_week(cast.squad.pk, today(), today())[monday_of(today())]


def test_sets_are_counted_by_pattern_for_one_athlete(cast: Cast) -> None:
    line = line_of(cast)
    mate = CardFactory.create(assignment=cast.assignment, athlete=cast.team_mate)
    line_of(cast, revision=CardRevisionFactory.create(card=mate), sets=4)
    for number in (1, 2):
        SetEntryFactory.create(line=line, round=number)

    sets = week(cast)

    assert (sets.mean(sets.planned, "hinge"), sets.mean(sets.done, "hinge")) == (3.5, 1.0)
    assert (sets.mean(sets.planned, "push"), len(sets.athletes)) == (0.0, 2)


def test_only_hard_sets_that_stand_on_the_card_are_planned(cast: Cast) -> None:
    line = line_of(cast)
    line_of(cast, revision=line.revision, segment="warm_up")
    line_of(cast, revision=line.revision, status="dropped")
    line_of(cast, revision=line.revision, patterns=["trunk"])
    cast.card.revision_number = 2
    cast.card.save()
    line_of(cast, revision=CardRevisionFactory.create(card=cast.card, number=2), sets=2)

    assert dict(week(cast).planned) == {"hinge": 2}


def test_round_counts_once_whatever_its_sides_and_corrections(cast: Cast) -> None:
    line = line_of(cast)
    for side in ("left", "right"):
        SetEntryFactory.create(line=line, side=side)
    wrong = SetEntryFactory.create(line=line, round=2)
    SetEntryFactory.create(line=line, round=2, supersedes_uuid=wrong.uuid)
    taken_back = SetEntryFactory.create(line=line, round=3)
    SetEntryFactory.create(line=line, round=3, supersedes_uuid=taken_back.uuid, kind="void")
    SetEntryFactory.create(line=line, round=4, kind="skipped")

    assert dict(week(cast).done) == {"hinge": 2}


def test_cancelled_assignments_guests_and_other_days_do_not_count(cast: Cast) -> None:
    line_of(cast)
    guest = CardFactory.create(assignment=cast.assignment, athlete=cast.child, is_guest=True)
    line_of(cast, revision=CardRevisionFactory.create(card=guest), sets=9)
    tomorrow = today() + timedelta(days=1)

    assert dict(week(cast).planned) == {"hinge": 3}
    assert sets_by_week(cast.squad.pk, tomorrow, tomorrow) == {}
    Assignment.objects.update(cancelled_at=now())
    assert sets_by_week(cast.squad.pk, today(), today()) == {}
