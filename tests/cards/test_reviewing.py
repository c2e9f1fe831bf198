"""What a squad's fortnight gives the checks: cards as they are, matches of all squads, the floor of each session."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from coachhub.base.clock import now, today
from coachhub.cards.models import CardLine
from coachhub.cards.queries import review_of_squad
from coachhub.cards.queries.reviewing import equipment_counts
from coachhub.coaching.review import Finding
from coachhub.people.models import Athlete, Membership
from coachhub.season.models import MatchMinutes
from tests.cards.fortnight import Fortnight
from tests.cast import Cast, Role
from tests.factories import AthleteFactory, ExerciseFactory, MembershipFactory, VenueFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def weeks(cast: Cast) -> Fortnight:
    Membership.objects.update(started_on=today() - timedelta(days=400))
    return Fortnight(cast)


def remarks(weeks: Fortnight, athlete: Athlete | None = None) -> list[Finding]:
    review = review_of_squad(weeks.cast.actor_of(Role.COACH), weeks.cast.squad, weeks.first, weeks.last)
    asked = athlete or weeks.cast.athlete
    return [one for found_of, found in review.athletes if found_of == asked for one in found]


def codes(found: list[Finding]) -> list[str]:
    return [one.code for one in found]


def test_heavy_days_in_a_row_are_remarked_for_whoever_has_them(cast: Cast, weeks: Fortnight) -> None:
    weeks.give(1, cast.athlete, cast.team_mate)
    weeks.give(2, cast.athlete)

    assert codes(remarks(weeks)) == ["heavy_legs_near"]
    assert codes(remarks(weeks, cast.team_mate)) == []


def test_swap_and_left_out_line_of_the_card_count_as_they_are(cast: Cast, weeks: Fortnight) -> None:
    light = ExerciseFactory.create(patterns=["squat"], load_meaning="none")
    weeks.give(1, cast.athlete)
    weeks.give(2, cast.athlete, instead=light)
    left_out = weeks.give(3, cast.athlete)
    CardLine.objects.filter(revision__card__assignment=left_out).update(status="dropped")

    assert codes(remarks(weeks)) == []


def test_sets_of_the_card_count_where_they_were_eased(cast: Cast, weeks: Fortnight) -> None:
    cast.athlete.born_on = today() - timedelta(days=15 * 366)
    cast.athlete.level = "advanced"
    cast.athlete.save()
    weeks.give(1, cast.athlete, sets=5)
    weeks.give(8, cast.athlete, sets=2)

    assert [(one.code, one.found) for one in remarks(weeks)] == [("youth_sets", "5")]


def test_session_and_match_of_another_squad_count(cast: Cast, weeks: Fortnight) -> None:
    MembershipFactory.create(athlete=cast.athlete, squad=cast.other_squad, started_on=today() - timedelta(days=400))
    weeks.give(1, cast.athlete, squad=cast.other_squad)
    weeks.match(3, cast.other_squad)

    assert codes(remarks(weeks)) == ["heavy_legs_before_match"]
    assert codes(remarks(weeks, cast.team_mate)) == []


def test_cancelled_match_and_session_do_not_count(cast: Cast, weeks: Fortnight) -> None:
    match, given = weeks.match(3), weeks.give(1, cast.athlete)
    weeks.give(2, cast.athlete)
    assert codes(remarks(weeks)) == ["heavy_legs_near", "heavy_legs_before_match", "heavy_legs_before_match"]

    match.cancelled_at = given.cancelled_at = now()
    match.save()
    given.save()
    assert codes(remarks(weeks)) == []


def test_minutes_tell_who_hardly_played(cast: Cast, weeks: Fortnight) -> None:
    match = weeks.match(0)
    weeks.give(1, cast.athlete, cast.team_mate)
    MatchMinutes.objects.create(match_day=match, athlete=cast.athlete, minutes=5)
    MatchMinutes.objects.create(match_day=match, athlete=cast.team_mate, minutes=60)

    assert (codes(remarks(weeks)), codes(remarks(weeks, cast.team_mate))) == ([], ["heavy_legs_after_match"])


def test_floor_counts_those_who_come_against_stock_and_staff(cast: Cast, weeks: Fortnight) -> None:
    """Coach and assistant for 41 adults; three racks."""
    others = AthleteFactory.create_batch(39, squad=cast.squad)
    given = weeks.give(1, cast.athlete, cast.team_mate, *others)

    review = review_of_squad(cast.actor_of(Role.COACH), cast.squad, weeks.first, weeks.last)

    (day,) = review.days
    assert (day.assignment_id, day.session, day.venue) == (given.pk, "Heavy squats", "Mill Lane gym")
    assert [(one.code, one.limit) for one in day.findings] == [("equipment_short", "60"), ("ratio_adults", "20")]
    assert day.findings[0].key == f"equipment_short:a{given.pk}.{weeks.line.line_key}"


def test_equipment_is_counted_in_pieces() -> None:
    counts = equipment_counts(VenueFactory.create(stock=True))

    assert {kind: counts[kind] for kind in ("barbell", "rack", "dumbbell")} == {"barbell": 3, "rack": 3, "dumbbell": 30}
    assert counts["wall"] == counts["partner"] == counts["plates"] == 10_000


def test_fortnight_costs_the_same_for_2_and_30_athletes(cast: Cast, weeks: Fortnight) -> None:
    costs = []
    for number in (0, 28):
        others = AthleteFactory.create_batch(number, squad=cast.squad)
        for day in range(1, 2 + number // 7):
            weeks.give(day, cast.athlete, *others)
            weeks.match(day + 3)
        with CaptureQueriesContext(connection) as asked:
            review_of_squad(cast.actor_of(Role.COACH), cast.squad, weeks.first, weeks.last)
        costs.append(len(asked))

    assert costs[0] == costs[1] <= 26


def test_athletes_of_whom_the_actor_sees_nothing_are_left_out(cast: Cast, weeks: Fortnight) -> None:
    weeks.give(1, cast.athlete)

    review = review_of_squad(cast.actor_of(Role.OTHER_COACH), cast.squad, weeks.first, weeks.last)

    assert review.athletes == ()
