"""Own activation work joins every card by itself; a change leaves coming cards behind and changes none."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from coachhub.base.clock import now, today
from coachhub.cards.actions import own_work, renew_stale
from coachhub.cards.models import Card, CardLine
from coachhub.cards.queries import load_sheet
from coachhub.cards.queries.resolving import recipe_for
from coachhub.cards.words import segment_text
from coachhub.coaching.notation import parse
from coachhub.people.models import Athlete
from coachhub.plans.actions_own import Whose
from coachhub.plans.models import OwnItem
from tests.cards.conftest import Evening
from tests.factories import (
    AthleteFactory,
    ExerciseFactory,
    OwnItemFactory,
    OwnSetFactory,
    OwnSetItemFactory,
    RestrictionFactory,
    SegmentFactory,
)

pytestmark = pytest.mark.django_db


def parts_of(evening: Evening, athlete: Athlete, in_days: int = 1) -> list[tuple[str, list[str]]]:
    """The parts of the athlete's card of that day before the blocks, with what is planned in each."""
    assignment = evening.assign(athlete, in_days=in_days)
    sheet = load_sheet(Card.objects.all(), Card.objects.get(assignment=assignment, athlete=athlete).pk)
    assert sheet is not None
    return [(segment_text(group), [line.name for line in group.lines]) for group in sheet.preparation]


def own(name: str, **values: Any) -> OwnItem:
    made: OwnItem = OwnItemFactory.create(exercise__name=name, **values)
    return made


def behind() -> int:
    return Card.objects.filter(is_behind=True).count()


def new_item(name: str = "Bridge") -> dict[str, Any]:
    return {
        "exercise": ExerciseFactory.create(name=name, segment="activation", load_meaning="none"),
        "dose": parse("2 x 12"),
        "sets": 2,
        "goal": "level hips",
        "from_on": today(),
        "review_on": None,
        "weekdays": [],
    }


def test_item_stands_on_the_card_in_a_part_of_its_own(evening: Evening) -> None:
    own("Bridge", athlete=evening.athlete, goal="level hips", sets=2)
    assert parts_of(evening, evening.athlete) == [("Own activation", ["Bridge"])]
    line = CardLine.objects.get(name="Bridge")
    assert (line.segment, line.sets, line.cue) == ("activation", 2, "level hips")
    assert parts_of(evening, evening.cast.team_mate) == []


def test_what_does_not_fit_the_minutes_of_the_part_is_if_time(evening: Evening) -> None:
    """Three times 20 repetitions take about a minute and a half each time (common practice for the pace)."""
    SegmentFactory.create(session=evening.session, kind="activation", position=0, minutes=5)
    for name in ("Bridge", "Clamshell", "Prone raise"):
        own(name, athlete=evening.athlete, low=20, sets=3)
    parts = parts_of(evening, evening.athlete)
    assert [name for name, _lines in parts] == ["Own activation", "Own activation, if time"]
    assert [line for _name, lines in parts for line in lines] == ["Bridge", "Clamshell", "Prone raise"]


def test_weekday_and_first_day_are_kept(evening: Evening) -> None:
    day = today() + timedelta(days=2)
    own("That weekday", athlete=evening.athlete, weekdays=[day.weekday()])
    own("From that day", athlete=evening.athlete, from_on=day)
    seen = {n: [line for _name, lines in parts_of(evening, evening.athlete, n) for line in lines] for n in (1, 2, 3)}
    assert seen == {1: [], 2: ["That weekday", "From that day"], 3: ["From that day"]}


def test_squads_and_positions_items_reach_those_they_are_for(evening: Evening) -> None:
    Athlete.objects.filter(pk=evening.athlete.pk).update(position="Goalkeeper")
    own("Squad's", athlete=None, squad=evening.cast.squad)
    own("Keeper's", athlete=None, squad=evening.cast.squad, player_position="goalkeeper")
    own("Another's", athlete=None, squad=evening.cast.other_squad)
    athletes = [Athlete.objects.get(pk=one.pk) for one in (evening.athlete, evening.cast.team_mate)]
    assert [parts_of(evening, one) for one in athletes] == [
        [("Own activation", ["Squad's", "Keeper's"])],
        [("Own activation", ["Squad's"])],
    ]


def test_restricted_region_takes_an_own_item_off_like_any_line(evening: Evening) -> None:
    own("Bridge", athlete=evening.athlete, exercise__regions=["knee"])
    RestrictionFactory.create(athlete=evening.athlete, region="knee")
    assert parts_of(evening, evening.athlete) == [("Own activation", [])]
    assert CardLine.objects.get(name="Bridge").status == "dropped"


def test_change_leaves_coming_cards_behind_and_begun_ones_alone(evening: Evening) -> None:
    Card.objects.filter(athlete=evening.athlete).update(started_at=now())
    later = evening.assign(evening.athlete, evening.cast.team_mate, in_days=2)
    n = own_work.add_own_item(actor=evening.coach, whose=Whose(athlete=evening.athlete), **new_item())
    assert (n, behind()) == (1, 1)
    assert Card.objects.get(is_behind=True).assignment == later
    assert renew_stale(actor=evening.coach, assignment=later) == 1
    assert (behind(), CardLine.objects.filter(name="Bridge").count()) == (0, 1)


def test_cards_on_other_weekdays_are_not_behind(evening: Evening) -> None:
    evening.assign(evening.athlete, in_days=2)
    changed = new_item() | {"weekdays": [(today() + timedelta(days=2)).weekday()]}
    assert own_work.add_own_item(actor=evening.coach, whose=Whose(athlete=evening.athlete), **changed) == 1


def test_squads_item_leaves_the_cards_of_its_members_behind(evening: Evening) -> None:
    own_set = OwnSetFactory.create()
    OwnSetItemFactory.create(own_set=own_set)
    given = own_work.give_own_set(
        actor=evening.coach, own_set=own_set, whose=[Whose(squad=evening.cast.squad)], from_on=today(), review_on=None
    )
    assert given == (1, 2)
    item = OwnItem.objects.get()
    Card.objects.update(is_behind=False)
    assert own_work.end_own_item(actor=evening.coach, item=item) == 2
    assert own_work.end_own_item(actor=evening.coach, item=item) == 0


def test_position_of_one_leaves_only_their_card_behind(evening: Evening) -> None:
    Athlete.objects.filter(pk=evening.athlete.pk).update(position="Goalkeeper")
    whose = Whose(squad=evening.cast.squad, player_position="goalkeeper")
    assert own_work.add_own_item(actor=evening.coach, whose=whose, **new_item()) == 1
    assert Card.objects.get(is_behind=True).athlete == evening.athlete


def test_same_queries_for_one_athlete_and_thirty(evening: Evening) -> None:
    own("Squad's", athlete=None, squad=evening.cast.squad)
    costs = []
    for number in (1, 30):
        athletes = [AthleteFactory.create(squad=evening.cast.squad) for _ in range(number)]
        for one in athletes:
            own(f"Own {one.pk}", athlete=one)
        with CaptureQueriesContext(connection) as asked:
            recipe = recipe_for(
                session=evening.session,
                athletes=athletes,
                venue=evening.cast.venue,
                on_date=today(),
                week=1,
                squad=evening.cast.squad,
            )
        own_lines = [line for pk in recipe.athletes for line in recipe.resolve(pk).lines if line.line.key[0] == "o"]
        assert len(own_lines) == 2 * number
        costs.append(len(asked))
    assert costs[0] == costs[1]
