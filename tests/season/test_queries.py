"""Who reads which dates; what a plan has to go round; the same few queries for one squad or thirty."""

from __future__ import annotations

from datetime import date, time, timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from coachhub.season.models import Happening, MatchDay
from coachhub.season.queries import Span, span_of_squads, span_seen
from tests.cast import Cast, Role
from tests.factories import SquadFactory
from tests.season.dates import MONDAY, SUNDAY, slot, training


def whole_calendar(cast: Cast) -> None:
    """Of the Seniors one of each kind; a match of the other squad; what two athletes have besides."""
    training(cast.squad, weekdays=1)
    slot(cast)
    for kind in ("holiday", "test", "other"):
        Happening.objects.create(squad=cast.squad, kind=kind, from_on=SUNDAY, to_on=SUNDAY)
    MatchDay.objects.create(squad=cast.squad, on_date=MONDAY + timedelta(days=5), opponent="Fen Gate")
    MatchDay.objects.create(squad=cast.other_squad, on_date=MONDAY, opponent="Kettle Moor")
    for athlete in (cast.athlete, cast.team_mate):
        Happening.objects.create(athlete=athlete, kind="sport", name=athlete.given_name, from_on=MONDAY, to_on=MONDAY)


SQUADS = {"training", "slot", "holiday", "test", "other", "match"}


@pytest.mark.parametrize(
    ("role", "kinds", "names"),
    [
        (Role.OWNER, SQUADS, {"Fen Gate", "Kettle Moor"}),
        (Role.COACH, SQUADS, {"Fen Gate"}),
        (Role.OTHER_COACH, {"match"}, {"Kettle Moor"}),
        (Role.ASSISTANT, SQUADS, {"Fen Gate"}),
        (Role.CLINICIAN, SQUADS, {"Fen Gate"}),
        (Role.HEAD_COACH, {"training", "match"}, {"Fen Gate"}),
        (Role.ATHLETE, SQUADS | {"sport"}, {"Fen Gate", "Ingrid"}),
        (Role.GUARDIAN, set(), set()),
        (Role.OUTSIDER, set(), set()),
    ],
)
def test_each_role_reads_its_own_part(cast: Cast, role: Role, kinds: set[str], names: set[str]) -> None:
    whole_calendar(cast)

    seen = span_seen(cast.actor_of(role), MONDAY, SUNDAY).occasions

    assert {one.kind for one in seen} == kinds
    assert {one.name for one in seen if one.name} == names


def test_coach_reads_what_their_athletes_have_besides_and_an_assistant_too(cast: Cast) -> None:
    whole_calendar(cast)

    def seen(role: Role) -> int:
        return Happening.objects.visible_to(cast.actor_of(role)).filter(squad=None).count()

    assert [seen(role) for role in (Role.COACH, Role.ASSISTANT, Role.OTHER_COACH, Role.HEAD_COACH)] == [2, 2, 0, 0]


def test_busy_days_hold_what_takes_place_without_gym_slots(cast: Cast) -> None:
    training(cast.squad, weekdays=1)
    slot(cast)
    Happening.objects.create(squad=cast.squad, kind="holiday", from_on=date(2026, 12, 7), to_on=date(2026, 12, 8))
    MatchDay.objects.create(squad=cast.squad, on_date=date(2026, 12, 12), opponent="Fen Gate")

    span = span_of_squads([cast.squad.pk], MONDAY, SUNDAY)

    busy = {f"{day:%d}": [one.kind for one in ones] for day, ones in span.busy_days().items()}
    assert busy == {"30": ["training"], "07": ["holiday"], "08": ["holiday"], "12": ["match"], "14": ["training"]}
    assert [f"{one.on_date:%d}" for one in span.slots] == ["01", "15"]
    assert [one.name for one in span.matches] == ["Fen Gate"]
    assert [span.is_holiday(date(2026, 12, day), cast.squad.pk) for day in (6, 7, 8, 9)] == [False, True, True, False]


def test_training_keeps_its_hour_when_the_clocks_change(cast: Cast) -> None:
    """In Europe/London they went back on 25 October 2026."""
    training(cast.squad, weekdays=1, from_on=date(2026, 10, 19))

    span = span_of_squads([cast.squad.pk], date(2026, 10, 19), date(2026, 10, 26))

    assert [one.starts_at for one in span.occasions] == [time(18), time(18)]


def test_calendar_of_thirty_squads_takes_the_queries_of_one(cast: Cast) -> None:
    def queries_for(squad_ids: list[int]) -> int:
        with CaptureQueriesContext(
            connection,
        ) as asked:
            span: Span = span_of_squads(squad_ids, MONDAY, SUNDAY)
        assert len(span.occasions) == 6 * len(squad_ids) + 3
        return len(asked)

    training(cast.squad)
    slot(cast)
    squads = SquadFactory.create_batch(30)
    for squad in squads:
        training(squad)

    assert queries_for([cast.squad.pk]) == queries_for([cast.squad.pk, *(squad.pk for squad in squads)]) == 4
