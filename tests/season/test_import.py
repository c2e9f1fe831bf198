"""Dates from a file: written as they were looked at, updated by their uid, never doubled."""

from __future__ import annotations

from datetime import date, time, timedelta

import pytest
from django.core.exceptions import PermissionDenied, ValidationError

from coachhub.people.actions import keep_draft, set_reading
from coachhub.people.models import ImportKind
from coachhub.season.actions.files import import_dates
from coachhub.season.files.export import date_lines
from coachhub.season.models import Happening, MatchDay
from coachhub.season.queries import span_of_squads
from tests.cast import Cast, Role
from tests.season.calendars import calendar, counts, dates_table, event, import_table, reading_for, review
from tests.season.dates import MONDAY, SUNDAY, training

HEADER = "what|name|squad|day|last day|start|minutes|every week on|at home"


def test_series_of_a_calendar_file_is_written_with_its_gaps(cast: Cast) -> None:
    table = calendar(event("RRULE:FREQ=WEEKLY", "EXDATE:20261207T180000", "DURATION:PT1H30M", "SUMMARY:Passing"))

    assert import_table(cast.actor_of(Role.COACH), table, cast.squad) == counts(new=1)

    span = span_of_squads([cast.squad.pk], MONDAY, SUNDAY)
    assert [(one.on_date, one.minutes, one.name) for one in span.occasions] == [
        (MONDAY, 90, "Passing"),
        (MONDAY + timedelta(days=14), 90, "Passing"),
    ]


def test_same_file_again_changes_nothing(cast: Cast) -> None:
    coach, table = cast.actor_of(Role.COACH), calendar(event("RRULE:FREQ=WEEKLY", "EXDATE:20261207T180000"))
    import_table(coach, table, cast.squad)

    assert import_table(coach, table, cast.squad) == counts(unchanged=1)
    assert Happening.objects.get().sequence == 0


def test_changed_file_updates_by_uid_instead_of_doubling(cast: Cast) -> None:
    coach = cast.actor_of(Role.COACH)
    import_table(coach, calendar(event("SUMMARY:Fen Gate", start="20261205T150000")), cast.squad, "match")

    moved = calendar(event("SUMMARY:Fen Gate", "STATUS:CANCELLED", start="20261206T160000"))
    assert import_table(coach, moved, cast.squad, "match") == counts(updated=1)

    match = MatchDay.objects.get()
    assert (match.on_date, match.starts_at, match.sequence) == (date(2026, 12, 6), time(16), 1)
    assert match.cancelled_at is not None


def test_row_without_uid_is_known_by_what_it_says(cast: Cast) -> None:
    coach, table = cast.actor_of(Role.COACH), dates_table(HEADER, "match|Fen Gate|Seniors|5.12.2026||15:00||||")
    import_table(coach, table, None)

    assert import_table(coach, table, None) == counts(unchanged=1)
    assert MatchDay.objects.count() == 1


def test_table_says_kind_squad_and_series_itself(cast: Cast) -> None:
    rows = [
        "match|Fen Gate|Seniors|2026-12-05||15.00|||no",
        "training||seniors|2026-11-30|2026-12-20|18:00|75|Mon Wednesday|",
        "holiday|Winter|Seniors|2026-12-24|2027-01-02||||",
    ]

    assert import_table(cast.actor_of(Role.COACH), dates_table(HEADER, *rows), None) == counts(new=3)

    assert not MatchDay.objects.get().is_home
    assert list(Happening.objects.values_list("kind", "weekdays", "minutes", "to_on")) == [
        ("training", 5, 75, date(2026, 12, 20)),
        ("holiday", 0, None, date(2027, 1, 2)),
    ]


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("|x|Seniors|5.12.2026|||||", "what: is missing; choose what such rows are, one step back"),
        ("match|x|Under-18|5.12.2026|||||", "squad: no squad of yours is called “Under-18”"),
        ("match|x|Seniors|5.12.2026||15:00||mo|", "last day: a match is on one day; give each match its own row"),
        ("test|x|Seniors|5.12.2026|1.12.2026||||", "last day: lies before the first day"),
        ("test|x|Seniors|5.12.2026||25:99|||", "start: “25:99” is no time such as 18:30"),
        ("test|x|Seniors|5.12.2026|||2||", "minutes: 5 to 1440, please"),
        ("test|x|Seniors|5.12.9999|||||", "day: please check the year"),
        ("test|x|Seniors|5.12.2026|6.12.2026|||mo|", "last day: the series has no day before it"),
        (
            "test|x|Seniors|5.12.2026||||FREQ=MONTHLY|",
            "every week on: “FREQ=MONTHLY” cannot be read as days of every week; enter its days by hand",
        ),
    ],
)
def test_row_in_error_says_what_is_wrong(cast: Cast, row: str, said: str) -> None:
    outcomes = review(cast.actor_of(Role.COACH), dates_table(HEADER, row), None, what="")

    assert [outcome.errors for outcome in outcomes] == [(said,)]


def test_row_twice_in_a_file_is_taken_once(cast: Cast) -> None:
    table = calendar(event(), event("SUMMARY:Other words"))

    assert import_table(cast.actor_of(Role.COACH), table, cast.squad) == counts(new=1, error=1)


def test_nothing_is_written_where_the_calendar_changed_meanwhile(cast: Cast) -> None:
    coach, table = cast.actor_of(Role.COACH), calendar(event())
    draft = keep_draft(actor=coach, kind=ImportKind.SEASON, file_name="a.ics", table=table)
    set_reading(actor=coach, draft=draft, reading=reading_for(table, cast.squad))

    with pytest.raises(ValidationError, match="changed in the club meanwhile"):
        import_dates(actor=coach, draft_pk=draft.pk, seen="something else")
    with pytest.raises(PermissionDenied):
        import_dates(actor=cast.actor_of(Role.ASSISTANT), draft_pk=draft.pk, seen="")

    assert Happening.objects.count() == 0


def test_export_is_read_back_as_what_stands_there(cast: Cast) -> None:
    coach = cast.actor_of(Role.COACH)
    training(cast.squad, uid="a@x", place="Hall", every_weeks=2, to_on=SUNDAY)
    training(cast.other_squad, name="Not theirs")
    MatchDay.objects.create(squad=cast.squad, on_date=MONDAY, opponent="=Fen Gate", is_home=False)
    lines = date_lines(coach, None)

    table = dates_table("|".join(lines[0]), *("|".join(line) for line in lines[1:]))

    assert import_table(coach, table, None, what="") == counts(unchanged=2)
