"""Every kind of restriction, typed in on the desk, takes effect on a card that exists."""

from __future__ import annotations

from decimal import Decimal

import pytest

from coachhub.base.clock import today
from coachhub.coaching.facts import Mass
from coachhub.library.models import Exercise
from coachhub.people.models import Restriction
from tests.cards.conftest import Evening
from tests.cast import Role


def restrict(evening: Evening, **what: object) -> None:
    sent = {"side": "both", "on_word_of": "Dr Alder", "starts_on": str(today()), "can_do": "rowing", **what}
    url = f"/athletes/{evening.athlete.pk}/restrict/"
    assert evening.cast.client_of(Role.CLINICIAN).post(url, sent).status_code == 302


def demand(evening: Evening, flag: str) -> None:
    Exercise.objects.filter(pk=evening.squat.exercise_id).update(**{flag: True})


@pytest.mark.parametrize(
    ("what", "name"),
    [
        ({"kind": "region", "region": "knee", "side": "left"}, "Goblet squat"),
        ({"kind": "pattern", "pattern": "squat"}, ""),
        ({"kind": "impact"}, "Goblet squat"),
        ({"kind": "overhead"}, "Goblet squat"),
        ({"kind": "grip"}, "Goblet squat"),
        ({"kind": "range"}, "Goblet squat"),
    ],
)
def test_restriction_takes_the_lift_off_the_card(evening: Evening, what: dict[str, str], name: str) -> None:
    for flag in ("is_impact", "is_overhead", "is_grip", "is_deep_range"):
        demand(evening, flag)
    assert evening.line(evening.squat).name == "Front squat"

    restrict(evening, **what)

    line = evening.line(evening.squat)
    assert (line.is_dropped, "" if line.is_dropped else line.name) == (not name, name)
    assert evening.line(evening.squat, evening.cast.team_mate).name == "Front squat"


def test_restricted_exercise_is_swapped(evening: Evening) -> None:
    restrict(evening, kind="exercise", exercise=evening.squat.exercise_id)
    assert evening.line(evening.squat).name == "Goblet squat"


def test_load_cap_holds_the_load(evening: Evening) -> None:
    restrict(evening, kind="load_cap", cap_value="40", cap_unit="kg")
    line = evening.line(evening.squat)
    assert (line.name, line.load) == ("Front squat", Mass(Decimal(40), "kg"))


@pytest.mark.parametrize("kind", ["impact", "overhead", "grip", "range"])
def test_demand_restricts_nothing_that_does_not_make_it(evening: Evening, kind: str) -> None:
    restrict(evening, kind=kind)
    assert evening.line(evening.squat).name == "Front squat"


def test_page_says_what_stands_what_can_be_done_and_who_set_it(evening: Evening) -> None:
    restrict(evening, kind="grip", review_on="2099-01-02")
    text = evening.cast.client_of(Role.COACH).get(f"/athletes/{evening.athlete.pk}/health/").content.decode()
    said = ("heavy grip", "Can do: rowing", "On the word of Dr Alder", "set by Dr Alder", "2 Jan 2099", "clinician")
    assert [words for words in said if words not in text] == []
    assert Restriction.objects.get().is_clinical
