"""Own activation work of the Seniors: those who read training read it, owner and the squad's coaches write."""

from __future__ import annotations

from tests.access import Row
from tests.access.people import athlete, squad
from tests.access.plans import ANY, BAD, DONE, LIST, ONLY, READ, SENT, WRITE
from tests.cast import Cast
from tests.factories import OwnItemFactory, OwnSetFactory


def item(cast: Cast) -> dict[str, object]:
    """On the athlete's list."""
    return {"pk": OwnItemFactory.create(athlete=cast.athlete).pk}


def item_up(cast: Cast) -> dict[str, object]:
    return {**item(cast), "way": "up"}


def own_set(_cast: Cast) -> dict[str, object]:
    return {"pk": OwnSetFactory.create().pk}


#           anonymous owner coach other-coach assistant clinician head-coach athlete team-mate guardian outsider
ANY_BAD = " login 422 422 422 403 403 403 404 404 login login"
ANY_DONE = "login 302 302 302 403 403 403 404 404 login login"
ANY_ONLY = "login 405 405 405 403 403 403 404 404 login login"

TABLE = {
    "desk:own_athlete": Row(READ, SENT, READ, athlete),
    "desk:own_squad": Row(READ, SENT, READ, squad),
    "desk:own_athlete_add": Row(WRITE, BAD, WRITE, athlete),
    "desk:own_squad_add": Row(WRITE, BAD, WRITE, squad),
    "desk:own_athlete_save": Row(WRITE, BAD, WRITE, athlete),
    "desk:own_squad_save": Row(WRITE, BAD, WRITE, squad),
    "desk:own_item": Row(WRITE, BAD, WRITE, item),
    "desk:own_item_move": Row(ONLY, DONE, ONLY, item_up),
    "desk:own_item_end": Row(ONLY, DONE, ONLY, item),
    "desk:own_item_keep": Row(WRITE, DONE, WRITE, item),
    "desk:own_dose_check": Row(ANY, ANY_ONLY, ANY),
    "desk:own_sets": Row(LIST, SENT, LIST),
    "desk:own_set": Row(ANY, ANY_BAD, ANY, own_set),
    "desk:own_set_archive": Row(ANY_ONLY, ANY_DONE, ANY_ONLY, own_set),
}
