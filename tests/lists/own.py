"""Own activation work, its saved sets, levels."""

from __future__ import annotations

from collections.abc import Sequence

from tests.cast import Cast, Role
from tests.factories import (
    AthleteFactory,
    AthleteLevelFactory,
    ExerciseFactory,
    MembershipFactory,
    OwnItemFactory,
    OwnSetFactory,
    OwnSetItemFactory,
)
from tests.lists import FEW, Listing, put
from tests.lists.people import athletes, nobody_in_the_squad, of_athlete, of_squad


def on_the_athletes_list(cast: Cast, names: Sequence[str]) -> None:
    for name in names:
        OwnItemFactory.create(athlete=cast.athlete, exercise__name=name)


def on_the_squads_list(cast: Cast, names: Sequence[str]) -> None:
    for name in names:
        OwnItemFactory.create(athlete=None, squad=cast.squad, exercise__name=name)


def sets(_cast: Cast, names: Sequence[str]) -> None:
    for name in names:
        OwnSetItemFactory.create(own_set=OwnSetFactory.create(name=name))


def a_set(_cast: Cast) -> dict[str, object]:
    return {"pk": OwnSetItemFactory.create().own_set_id}


def levels(cast: Cast, names: Sequence[str]) -> None:
    user = cast.staff[Role.COACH].user
    for name in names:
        variation = ExerciseFactory.create(family=name, family_rank=1)
        AthleteLevelFactory.create(athlete=cast.athlete, family=name, exercise=variation, set_by=user)


def at_a_level(cast: Cast, names: Sequence[str]) -> None:
    user, variation = (
        cast.staff[Role.COACH].user,
        ExerciseFactory.create(name=f"Squat {names[0][3:]}", family="squat", family_rank=1),
    )
    made = put(AthleteFactory.build(family_name=name) for name in names)
    put(MembershipFactory.build(squad=cast.squad, athlete=athlete) for athlete in made)
    put(AthleteLevelFactory.build(athlete=one, family="squat", exercise=variation, set_by=user) for one in made)


TABLE = {
    "desk:own_athlete": Listing(on_the_athletes_list, "No own activation work", of_athlete, many=FEW),
    "desk:own_squad": Listing(on_the_squads_list, "No own activation work", of_squad, many=FEW),
    "desk:own_sets": Listing(sets, "No set is saved.", many=FEW),
    "desk:own_set": Listing(athletes, "the whole squad", a_set, clear=nobody_in_the_squad),
    "desk:levels": Listing(levels, "No level is set", of_athlete, role=Role.ASSISTANT, many=FEW),
    "desk:squad_levels": Listing(
        at_a_level, "Nobody has a level yet", of_squad, role=Role.ASSISTANT, many=60, most_queries=12
    ),
}
