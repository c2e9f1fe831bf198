"""What a roster would do, row by row: who is new, what changes, what is wrong."""

from __future__ import annotations

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from coachhub.base.changes import Change, RowState
from coachhub.base.clock import now
from coachhub.people.models import Athlete
from tests.cast import Cast, Role
from tests.factories import AthleteFactory, SquadFactory, years_ago
from tests.people.rosters import review, table_of

HEADER = "given name|family name|date of birth|squad"


def born(athlete: Athlete) -> str:
    return athlete.born_on.isoformat()


def row_of(athlete: Athlete) -> str:
    return f"{athlete.given_name}|{athlete.family_name}|{born(athlete)}"


def errors(cast: Cast, header: str, line: str, role: Role = Role.COACH) -> tuple[str, ...]:
    (outcome,) = review(cast.actor_of(role), table_of(header, line))
    return outcome.errors


def test_known_athlete_without_news_is_unchanged(cast: Cast) -> None:
    (outcome,) = review(cast.actor_of(Role.COACH), table_of(HEADER, f"ingrid|MOSS|{born(cast.athlete)}|seniors"))
    assert (outcome.state, outcome.name, outcome.changes) == (RowState.UNCHANGED, "Ingrid Moss", ())


def test_changes_are_told_field_by_field(cast: Cast) -> None:
    Athlete.objects.filter(pk=cast.athlete.pk).update(position="pivot", level="novice")
    header = f"{HEADER}|position|level|dominant side|unit|note"
    (outcome,) = review(cast.actor_of(Role.COACH), table_of(header, f"{row_of(cast.athlete)}||wing|Advanced|L|lbs|"))
    assert outcome.state == RowState.UPDATED
    assert outcome.changes == (
        Change("unit", "kg", "lb"),
        Change("position", "pivot", "wing"),
        Change("dominant side", "", "left"),
        Change("level", "novice", "advanced"),
    )


def test_new_athlete_is_told_with_squad_and_birthday(cast: Cast) -> None:
    (outcome,) = review(cast.actor_of(Role.COACH), table_of(HEADER, "Runa|Beck|30.4.2012|Seniors"))
    assert (outcome.state, outcome.name) == (RowState.NEW, "Runa Beck")
    assert outcome.changes == (Change("squad", "", "joins Seniors"), Change("date of birth", "", "2012-04-30"))


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("|Beck|30.4.2012|Seniors", "given name: is missing"),
        ("Runa|Beck||Seniors", "date of birth: is missing"),
        ("Runa|Beck|31.2.2012|Seniors", "date of birth: there is no day “31.2.2012”"),
        ("Runa|Beck|30.4.1812|Seniors", "date of birth: please check the year"),
        ("Runa|Beck|soon|Seniors", "date of birth: “soon” is no date such as 2012-04-30 or 30.4.2012"),
        ("Runa|Beck|30.4.2012|Sharks", "squad: no squad of yours is called “Sharks”"),
        ("Runa|Beck|30.4.2012|Under-18", "squad: no squad of yours is called “Under-18”"),
        ("Runa|Beck|30.4.2012|", "squad: is missing"),
        (f"{'R' * 61}|Beck|30.4.2012|Seniors", "given name: longer than 60 letters"),
    ],
)
def test_error_stands_beside_its_row(cast: Cast, line: str, words: str) -> None:
    assert errors(cast, HEADER, line) == (words,)


def test_every_error_of_a_row_is_told_at_once(cast: Cast) -> None:
    header = f"{HEADER}|level|guardian phone|guardian e-mail"
    assert errors(cast, header, "Runa||30.4.2012|Seniors|expert|01632 960111|nobody") == (
        "family name: is missing",
        "level: “expert” is none of: novice, intermediate, advanced",
        "guardian e-mail: Enter a valid email address.",
        "guardian name: is missing",
    )


def test_row_that_is_wider_than_the_header_is_an_error(cast: Cast) -> None:
    table = table_of(HEADER, "Runa|Beck|30.4.2012|Seniors|shifted")
    (outcome,) = review(cast.actor_of(Role.COACH), table)
    assert outcome.errors == ("more cells than the header has; does a comma lack its quotation marks?",)


def test_owner_may_add_somebody_without_a_squad(cast: Cast) -> None:
    assert errors(cast, HEADER, "Runa|Beck|30.4.2012|", Role.OWNER) == ()


def test_squads_are_found_whatever_their_names_hold(cast: Cast) -> None:
    for name in ("U15; girls", "Süd", "Sud"):
        SquadFactory.create(name=name)
    (outcome,) = review(cast.actor_of(Role.OWNER), table_of(HEADER, "Runa|Beck|30.4.2012|seniors;; u15; girls; Süd"))
    assert [change.after for change in outcome.changes[:3]] == ["joins Seniors", "joins U15; girls", "joins Süd"]


def test_same_athlete_twice_in_a_file_counts_once(cast: Cast) -> None:
    table = table_of(HEADER, row_of(cast.athlete), f"Ingrid |moss|{born(cast.athlete)}|")
    first, second = review(cast.actor_of(Role.COACH), table)
    assert (first.errors, second.errors) == ((), ("the same athlete as row 2",))


def test_athlete_of_a_squad_not_seen_is_not_doubled(cast: Cast) -> None:
    assert errors(cast, HEADER, f"{row_of(cast.child)}|Seniors") == (
        "is in the club already, in a squad you do not see; ask the owner to add them to yours",
    )


def test_athlete_who_left_the_club_is_new_again(cast: Cast) -> None:
    Athlete.objects.filter(pk=cast.athlete.pk).update(archived_at=now())
    (outcome,) = review(cast.actor_of(Role.COACH), table_of(HEADER, f"{row_of(cast.athlete)}|Seniors"))
    assert outcome.state == RowState.NEW


def test_two_of_one_name_and_birthday_are_told_apart_by_id(cast: Cast) -> None:
    twin = AthleteFactory.create(
        given_name="Ingrid", family_name="Moss", born_on=cast.athlete.born_on, squad=cast.squad
    )
    assert errors(cast, HEADER, f"{row_of(twin)}|") == (
        "two athletes have this name and date of birth; say which by the id from an export",
    )
    assert errors(cast, f"coachhub id|{HEADER}", f"{twin.pk}|{row_of(twin)}|") == ()


def test_id_lets_a_name_be_put_right(cast: Cast) -> None:
    line = f"{cast.athlete.pk}|Ingrid|Moss-Vale|{born(cast.athlete)}|"
    (outcome,) = review(cast.actor_of(Role.COACH), table_of(f"coachhub id|{HEADER}", line))
    assert outcome.changes == (Change("family name", "Moss", "Moss-Vale"),)


def test_id_of_somebody_else_is_refused(cast: Cast) -> None:
    header = f"coachhub id|{HEADER}"
    assert errors(cast, header, f"{cast.athlete.pk}|Runa|Beck|30.4.2012|Seniors") == ("this id belongs to Ingrid Moss",)
    assert errors(cast, header, f"{cast.child.pk}|{row_of(cast.child)}|Seniors") == (
        "no athlete of yours has this id; empty the cell if the athlete is new",
    )


def test_review_takes_as_many_queries_for_thirty_rows_as_for_one(cast: Cast) -> None:
    coach, taken = cast.actor_of(Role.COACH), []
    for count in (1, 30):
        AthleteFactory.create_batch(count, squad=cast.squad)
        lines = [f"Runa{i}|Beck|{years_ago(15)}|Seniors" for i in range(count)]
        with CaptureQueriesContext(connection) as caught:
            review(coach, table_of(HEADER, *lines))
        taken.append(len(caught))
    assert taken[0] == taken[1] <= 10
