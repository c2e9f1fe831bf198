"""Levels of the Seniors: those who read training read them, owner and the squad's coaches set them."""

from __future__ import annotations

from tests.access import Row
from tests.access.people import athlete, squad
from tests.access.plans import DONE, ONLY, READ
from tests.cast import Cast
from tests.factories import ExerciseFactory

#          anonymous owner coach other-coach assistant clinician head-coach athlete team-mate guardian outsider
SET_BAD = "login 422 422 404 403 403 403 404 404 login login"


def of_family(cast: Cast) -> dict[str, object]:
    """An exercise in a family of one."""
    exercise = ExerciseFactory.create(family="squat", family_rank=1)
    return {"pk": cast.athlete.pk, "exercise_pk": exercise.pk}


def athlete_with_family(cast: Cast) -> dict[str, object]:
    of_family(cast)
    return athlete(cast)


def squad_with_family(cast: Cast) -> dict[str, object]:
    of_family(cast)
    return squad(cast)


TABLE = {
    "desk:levels": Row(READ, SET_BAD, READ, athlete_with_family),
    "desk:squad_levels": Row(READ, SET_BAD, READ, squad_with_family),
    "desk:athlete_steps": Row(ONLY, DONE, ONLY, athlete),
    "desk:squad_steps": Row(ONLY, DONE, ONLY, squad),
    "desk:level_step": Row(ONLY, DONE, ONLY, of_family),
}
