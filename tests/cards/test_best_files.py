"""Known bests from a spreadsheet and back."""

from __future__ import annotations

import io
from datetime import date, timedelta
from decimal import Decimal

import pytest
from django.core.exceptions import PermissionDenied, ValidationError
from django.db import connection
from django.test.utils import CaptureQueriesContext

from coachhub.base.actor import Actor
from coachhub.base.changes import Change, digest
from coachhub.base.clock import today
from coachhub.base.columns import Reading
from coachhub.base.tables import Table, csv_bytes, read_table, xlsx_bytes
from coachhub.cards.actions import import_bests
from coachhub.cards.bests.changes import BestOutcome, review_bests
from coachhub.cards.bests.columns import COLUMNS
from coachhub.cards.bests.export import best_lines
from coachhub.cards.models import KnownBest
from coachhub.library.models import Exercise, ExerciseAlias
from coachhub.people.actions import keep_draft, set_reading
from coachhub.people.forms_files import guess_reading
from coachhub.people.models import ImportKind
from tests.cast import Cast, Role
from tests.factories import AthleteFactory, ExerciseFactory, KnownBestFactory, days_ago

HEADER = "athlete|exercise|load|unit|reps|RIR|date|source"
LINE = "Ingrid Moss|Romanian deadlift|82,5|kg|5|1|30.4.2024|a test"


def table_of(*lines: str, header: str = HEADER) -> Table:
    return read_table(io.BytesIO(csv_bytes(line.split("|") for line in (header, *lines))))


def reading_of(table: Table) -> Reading:
    return guess_reading(table, COLUMNS, "on_date", "kg")


def review(actor: Actor, table: Table) -> list[BestOutcome]:
    return review_bests(actor, table, reading_of(table))


def import_table(actor: Actor, table: Table, *sure: str) -> dict[str, int]:
    draft = keep_draft(actor=actor, kind=ImportKind.BESTS, file_name="bests.csv", table=table)
    set_reading(actor=actor, draft=draft, reading=reading_of(table))
    return import_bests(actor=actor, draft_pk=draft.pk, seen=digest(review(actor, table)), sure=sure)


@pytest.fixture
def gym(cast: Cast) -> Cast:
    """With the cast's exercise, under a second name as well."""
    ExerciseAlias.objects.create(exercise=cast.exercise, name="RDL")
    return cast


def test_best_is_written_as_it_was_read(gym: Cast) -> None:
    found = import_table(gym.actor_of(Role.COACH), table_of(LINE))
    best = KnownBest.objects.get()
    assert (found["new"], best.athlete, best.exercise) == (1, gym.athlete, gym.exercise)
    assert (best.load_value, best.load_unit, best.reps, best.rir_half) == (Decimal("82.5"), "kg", 5, 2)
    assert (best.on_date, best.source, best.noted_by) == (date(2024, 4, 30), "test", gym.user_of(Role.COACH))


@pytest.mark.parametrize("name", ["moss, ingrid", "MOSS INGRID", "Ingrid  Moss"])
@pytest.mark.parametrize("exercise", ["rdl", "ROMANIAN  DEADLIFT"])
def test_names_are_found_in_any_order_and_by_other_names(gym: Cast, name: str, exercise: str) -> None:
    (outcome,) = review(gym.actor_of(Role.COACH), table_of(f"{name}|{exercise}|80||||2024-04-30|"))
    assert (outcome.errors, outcome.name) == ((), "Ingrid Moss · Romanian deadlift")


def test_what_is_left_open_claims_the_least(gym: Cast) -> None:
    (outcome,) = review(gym.actor_of(Role.COACH), table_of("Ingrid Moss|RDL|176 lb||||2024-04-30|"))
    assert outcome.changes == (
        Change("set", "", "176 lb × 1"),
        Change("reps in reserve", "", "0"),
        Change("date", "", "2024-04-30"),
        Change("source", "", "a test"),
    )


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("|RDL|80||5||30.4.2024|", "athlete: is missing"),
        ("Juno Reed|RDL|80||5||30.4.2024|", "athlete: no athlete of yours is “Juno Reed”"),
        ("Ingrid Moss|moonwalk|80||5||30.4.2024|", "exercise: the library has no “moonwalk”"),
        ("Ingrid Moss|RDL|||5||30.4.2024|", "load: is missing"),
        ("Ingrid Moss|RDL|heavy||5||30.4.2024|", "load: “heavy” is no number such as 82.5"),
        ("Ingrid Moss|RDL|0||5||30.4.2024|", "load: must be more than nothing"),
        ("Ingrid Moss|RDL|601||5||30.4.2024|", "load: more than 600 kg: please check"),
        ("Ingrid Moss|RDL|80|stone|5||30.4.2024|", "load: “stone” is none of: kilograms (kg), pounds (lb)"),
        ("Ingrid Moss|RDL|80||31||30.4.2024|", "reps: go from 1 to 30"),
        ("Ingrid Moss|RDL|80||5|0.7|30.4.2024|", "reps in reserve: go from 0 to 6 in halves"),
        ("Ingrid Moss|RDL|80||5|||", "date: is missing"),
        ("Ingrid Moss|RDL|80||5||30.4.2024|rumour", None),
    ],
)
def test_error_stands_beside_its_row(gym: Cast, line: str, words: str | None) -> None:
    (outcome,) = review(gym.actor_of(Role.COACH), table_of(line))
    told = "source: “rumour” is none of: a test, training, told by the athlete, the coach's start load"
    assert outcome.errors == (words or told,)


def test_day_that_has_not_come_is_refused(gym: Cast) -> None:
    line = f"Ingrid Moss|RDL|80||5||{today() + timedelta(days=1)}|"
    assert review(gym.actor_of(Role.COACH), table_of(line))[0].errors == ("date: this day has not come yet",)


def test_exercise_without_a_load_is_refused(gym: Cast) -> None:
    Exercise.objects.filter(pk=gym.exercise.pk).update(load_meaning="none")
    (outcome,) = review(gym.actor_of(Role.COACH), table_of(LINE))
    assert outcome.errors == ("exercise: Romanian deadlift is done without a load",)


def test_two_of_one_name_are_told_apart_by_birthday(gym: Cast) -> None:
    twin = AthleteFactory.create(given_name="Ingrid", family_name="Moss", born_on=days_ago(6000), squad=gym.squad)
    assert review(gym.actor_of(Role.COACH), table_of(LINE))[0].errors == (
        "athlete: several are called “Ingrid Moss”; add the date of birth",
    )
    (outcome,) = review(gym.actor_of(Role.COACH), table_of(f"{LINE}|{twin.born_on}", header=f"{HEADER}|date of birth"))
    assert outcome.wish is not None
    assert outcome.wish.athlete_id == twin.pk


def test_other_name_of_two_exercises_asks_which(gym: Cast) -> None:
    ExerciseAlias.objects.create(exercise=ExerciseFactory.create(name="Ring dip"), name="rdl")
    (outcome,) = review(gym.actor_of(Role.COACH), table_of("Ingrid Moss|RDL|80||5||30.4.2024|"))
    assert outcome.errors == ("exercise: “RDL” could be: Romanian deadlift, Ring dip",)


def test_second_import_changes_nothing_and_a_correction_updates(gym: Cast) -> None:
    coach = gym.actor_of(Role.COACH)
    import_table(coach, table_of(LINE))
    assert import_table(coach, table_of(LINE))["unchanged"] == 1
    (outcome,) = review(coach, table_of(LINE.replace("82,5", "85")))
    assert outcome.changes == (Change("set", "82.5 kg × 5", "85 kg × 5"),)
    assert import_table(coach, table_of(LINE.replace("82,5", "85")))["updated"] == 1
    assert [best.load_value for best in KnownBest.objects.all()] == [Decimal(85)]


def doubts(actor: Actor, *lines: str) -> list[str]:
    return [outcome.doubt for outcome in review(actor, table_of(*lines))]


def test_slipped_digit_is_asked_about_and_left_out_unless_ticked(gym: Cast) -> None:
    coach, table = gym.actor_of(Role.COACH), table_of(LINE, LINE.replace("82,5|kg|5", "375|kg|3"))
    assert [o.doubt for o in review(coach, table)] == ["", "375 kg is far above all that is known"]
    assert import_table(coach, table) == {"error": 1, "new": 1, "updated": 0, "unchanged": 0}
    assert import_table(coach, table, "3") == {"error": 0, "new": 1, "updated": 0, "unchanged": 1}
    assert {best.load_value for best in KnownBest.objects.all()} == {Decimal("82.5"), Decimal(375)}
    assert [o.doubt for o in review(coach, table)] == ["", ""]


def test_row_is_far_above_only_beyond_half_as_much_again(gym: Cast) -> None:
    KnownBestFactory.create(athlete=gym.athlete, exercise=gym.exercise, load_value=Decimal(80))
    rows = (LINE.replace("82,5", load) for load in ("120", "121"))
    assert [doubts(gym.actor_of(Role.COACH), row) for row in rows] == [[""], ["121 kg is far above all that is known"]]


def test_minor_without_a_best_is_asked_about_sooner(gym: Cast) -> None:
    rows = (f"Juno Reed|RDL|{load}|kg|5||30.4.2024|" for load in (60, 61))
    assert [doubts(gym.actor_of(Role.OWNER), row) for row in rows] == [[""], ["61 kg is far above all that is known"]]


def test_assistance_is_never_asked_about(gym: Cast) -> None:
    Exercise.objects.filter(pk=gym.exercise.pk).update(load_meaning="assistance")
    assert doubts(gym.actor_of(Role.COACH), LINE.replace("82,5", "300")) == [""]


def test_two_bests_of_a_slot_in_a_file_are_one_too_many(gym: Cast) -> None:
    rows = review(gym.actor_of(Role.COACH), table_of(LINE, LINE.replace("82,5", "85")))
    assert rows[1].errors == ("the same athlete, exercise, day and reps as row 2",)


def test_export_imports_without_a_change(gym: Cast) -> None:
    for value in ("80", "82.5", "85.00"):
        KnownBestFactory.create(athlete=gym.athlete, exercise=gym.exercise, load_value=Decimal(value), rir_half=1)
    odd = AthleteFactory.create(given_name="=1+1", family_name="-Moss", squad=gym.squad)
    KnownBestFactory.create(athlete=odd, exercise=gym.exercise, load_unit="lb", source="coach")
    coach = gym.actor_of(Role.COACH)
    lines = best_lines(coach, None)
    for content in (csv_bytes(lines), xlsx_bytes(lines, "bests")):
        outcomes = review(coach, read_table(io.BytesIO(content)))
        assert [(o.state, o.changes, o.errors) for o in outcomes] == [("unchanged", (), ())] * 4


def test_export_holds_nobody_of_another_squad(gym: Cast) -> None:
    KnownBestFactory.create(athlete=gym.child, exercise=gym.exercise)
    KnownBestFactory.create(athlete=gym.athlete, exercise=gym.exercise)
    seen = {role: [line[2] for line in best_lines(gym.actor_of(role), None)[1:]] for role in (Role.COACH, Role.OWNER)}
    assert seen == {Role.COACH: ["Ingrid"], Role.OWNER: ["Ingrid", "Juno"]}
    assert best_lines(gym.actor_of(Role.OWNER), gym.other_squad)[1][2] == "Juno"


def test_best_of_somebody_else_is_not_changed_by_its_id(gym: Cast) -> None:
    best = KnownBestFactory.create(athlete=gym.child, exercise=gym.exercise)
    table = table_of(f"{best.pk}|{LINE}", header=f"best id|{HEADER}")
    (outcome,) = review(gym.actor_of(Role.COACH), table)
    assert outcome.errors == ("no best of this athlete has this id",)


def test_roster_is_not_confirmed_as_bests(gym: Cast) -> None:
    coach, table = gym.actor_of(Role.COACH), table_of(LINE)
    draft = keep_draft(actor=coach, kind=ImportKind.ROSTER, file_name="roster.csv", table=table)
    set_reading(actor=coach, draft=draft, reading=reading_of(table))
    with pytest.raises(ValidationError) as caught:
        import_bests(actor=coach, draft_pk=draft.pk, seen=digest(review(coach, table)))
    assert (caught.value.code, KnownBest.objects.count()) == ("gone", 0)


def test_who_does_not_write_does_not_import(gym: Cast) -> None:
    with pytest.raises(PermissionDenied):
        import_bests(actor=gym.actor_of(Role.ASSISTANT), draft_pk=1, seen="")


def test_review_takes_as_many_queries_for_thirty_rows_as_for_one(gym: Cast) -> None:
    coach, taken = gym.actor_of(Role.COACH), []
    for count in (1, 30):
        for athlete in AthleteFactory.create_batch(count, squad=gym.squad):
            KnownBestFactory.create(athlete=athlete, exercise=gym.exercise)
        with CaptureQueriesContext(connection) as caught:
            review(coach, table_of(*[LINE] * count))
        taken.append(len(caught))
    assert taken[0] == taken[1] <= 10
