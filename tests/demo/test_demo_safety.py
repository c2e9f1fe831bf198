"""The story keeps to what is possible: to what the room can make, and to what an athlete can do."""

from __future__ import annotations

from itertools import groupby
from typing import Any

from coachhub.cards.models import Assignment, Card, CardLine, SetEntry
from coachhub.coaching.rungs import Ladder
from coachhub.demo.data import Person, full, lifts, read, squad_story
from coachhub.demo.truth import Ability, load_for
from coachhub.library.models import Exercise
from coachhub.people.models import Athlete
from tests.demo.conftest import Ladders


def people() -> dict[str, tuple[str, Person]]:
    """By whole name: the squad's key and what the story says."""
    return {" ".join(p.name): (key, p) for key in full().squads for p in squad_story(key).people}


def test_every_planned_load_is_one_that_the_venue_can_make(ladders: Ladders) -> None:
    rows = CardLine.objects.exclude(load_value=None).values_list(
        "revision__card__assignment__venue", "exercise", "load_value", "load_unit"
    )

    assert rows.count() > 5000
    assert [row for row in set(rows) if not is_loadable(ladders[row[0], row[1]], row[2], row[3])] == []


def test_every_lifted_load_is_one_that_the_venue_can_make(ladders: Ladders) -> None:
    rows = SetEntry.objects.exclude(load_value=None).values_list("venue", "exercise", "load_value", "load_unit")

    assert rows.count() > 10_000
    assert [row for row in set(rows) if not is_loadable(ladders[row[0], row[1]], row[2], row[3])] == []


def is_loadable(ladder: Ladder | None, value: Any, unit: str) -> bool:
    return (value, unit) in {(rung.mass.value, rung.mass.unit) for rung in ladder or ()}


def test_no_set_is_heavier_than_the_athlete_can_lift_that_day(demo: list[str], done: list[SetEntry]) -> None:
    kg, known, numbers = lifts().kg, people(), session_numbers()
    names = {athlete.pk: athlete.name for athlete in Athlete.objects.all()}
    keys = dict(Exercise.objects.values_list("pk", "origin_key"))
    seed, too_heavy, tried = read("club")["seed"], [], 0
    for entry in done:
        key, (squad, person) = keys[entry.exercise_id] or "", known[names[entry.athlete_id]]
        ability = Ability(f"{seed} {squad} {names[entry.athlete_id]}", person.strength, person.level)
        most = load_for(entry.reps or 1, ability.max_kg(key, kg[key], numbers[entry.card_id]))
        tried += 1
        if float(entry.load_kg or 0) > most + 1e-9:
            too_heavy.append((names[entry.athlete_id], key, entry.load_kg, entry.reps, most))

    assert too_heavy == []
    assert tried > 10_000


def session_numbers() -> dict[int, int]:
    """The number of each card's session in its squad's story."""
    rows = Assignment.objects.order_by("squad", "on_date").values_list("squad", "pk")
    number = {pk: n for _, own in groupby(rows, key=lambda row: row[0]) for n, (_, pk) in enumerate(own)}
    return {card: number[assignment] for card, assignment in Card.objects.values_list("pk", "assignment")}
