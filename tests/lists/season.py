"""A month of the calendar, an athlete's own dates, who played in a match."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta

from coachhub.base.clock import today
from coachhub.people.models import Membership
from coachhub.season.models import Absence, Happening, MatchDay, MatchMinutes, SeasonPhase
from tests.access.people import athlete, squad
from tests.access.season import a_match
from tests.cast import Cast, Role
from tests.factories import AthleteFactory
from tests.lists import FEW, Listing, put
from tests.lists.people import athletes

NOTHING_OWN = "Nothing is known of school or another sport."
# No club has more in a month.
MOST_DATES = 120


def in_the_month(cast: Cast, names: Sequence[str]) -> None:
    for name in names:
        MatchDay.objects.create(squad=cast.squad, on_date=today(), opponent=name)


def own(cast: Cast, names: Sequence[str]) -> None:
    for name in names:
        Happening.objects.create(athlete=cast.athlete, kind="sport", name=name, from_on=today(), to_on=today())


def players(cast: Cast, names: Sequence[str]) -> None:
    match = MatchDay.objects.get()
    for name in names:
        player = AthleteFactory.create(given_name=name, family_name="Moss", squad=cast.squad)
        MatchMinutes.objects.create(match_day=match, athlete=player, minutes=30)


def hardly_players(cast: Cast, names: Sequence[str]) -> None:
    players(cast, names)
    MatchMinutes.objects.update(minutes=5)


def away(cast: Cast, names: Sequence[str]) -> None:
    for name in names:
        one = AthleteFactory.create(given_name=name, family_name="Moss", squad=cast.squad)
        Absence.objects.create(athlete=one, from_on=today(), to_on=today(), reason="away")


def squad_of_the_match(cast: Cast, names: Sequence[str]) -> None:
    athletes(cast, names)


def phases(cast: Cast, names: Sequence[str]) -> None:
    """A week each, one after the other."""
    monday = today() - timedelta(days=today().weekday())
    weeks = [monday + timedelta(weeks=int(name[3:]) - 20) for name in names]
    put(SeasonPhase(squad=cast.squad, code="power", from_on=day, to_on=day + timedelta(days=6)) for day in weeks)


def nobody_played(cast: Cast) -> None:
    Membership.objects.filter(squad=cast.squad).delete()


TABLE = {
    "desk:season": Listing(in_the_month, "Nothing is in the calendar here.", many=MOST_DATES),
    "desk:own_dates": Listing(own, NOTHING_OWN, args=athlete, many=FEW, most_queries=11),
    "desk:absences": Listing(away, "Nobody is known to be away.", args=squad, many=FEW),
    "desk:match_extra": Listing(hardly_players, "Who played under 20 minutes", args=a_match, many=FEW, most_queries=14),
    "desk:match_minutes": Listing(squad_of_the_match, "Minutes played", args=a_match, clear=nobody_played, many=FEW),
    "desk:phases": Listing(
        phases, "No phase is set.", args=squad, many=FEW, sign=r"phases/\d+/remove/", most_queries=11
    ),
    "desk:season_csv": Listing(in_the_month, "", many=MOST_DATES),
    "desk:match": Listing(players, "Not noted yet.", args=a_match, clear=nobody_played, many=FEW),
    "gym:dates": Listing(own, "Nothing is in the calendar for the next two weeks.", role=Role.ATHLETE, many=FEW),
}
