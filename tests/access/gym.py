"""The phone: athletes on their own cards, staff of the floor on cards of athletes they see."""

from __future__ import annotations

from tests.access import Row
from tests.cast import Cast

# anonymous owner coach other-coach assistant clinician head-coach athlete team-mate guardian outsider
SEEN = "login 200 200 404 200 403 403 200 404 login login"
SENT_WRONG = "login 422 422 404 422 403 403 422 404 login login"
NOT_SO = "login 405 405 405 405 403 403 405 405 login login"
BLOCK = {
    "key": "g1",
    "label": "A",
    "segment": "strength",
    "minutes": None,
    "is_optional": False,
    "rounds_min": 3,
    "rounds_max": 3,
    "rest_min_s": 90,
    "rest_max_s": None,
    "rest_note": "",
    "rest_after_s": None,
    "intent": "",
}


def a_card(cast: Cast) -> dict[str, object]:
    """The athlete's card, with one line in block A."""
    revision = cast.line.revision
    revision.layout = [BLOCK]
    revision.save()
    return {"pk": cast.card.pk}


def a_round(cast: Cast) -> dict[str, object]:
    return a_card(cast) | {"group": "g1", "number": 1}


def a_word(cast: Cast) -> dict[str, object]:
    return a_card(cast) | {"what": "stop"}


TABLE = {
    "gym:home": Row(
        get="login 404 404 404 404 404 404 200 200 login login",
        post="login 404 404 404 404 404 404 405 405 login login",
        htmx="login 404 404 404 404 404 404 200 200 login login",
    ),
    "gym:card": Row(get=SEEN, post=NOT_SO, htmx=SEEN, args=a_card),
    "gym:log": Row(get=NOT_SO, post=SENT_WRONG, htmx=NOT_SO, args=a_card),
    "gym:round": Row(get=SEEN, post=SENT_WRONG, htmx=SEEN, args=a_round),
    "gym:hurts": Row(get=SEEN, post=SENT_WRONG, htmx=SEEN, args=a_card),
    "gym:red_flag": Row(get=NOT_SO, post=SENT_WRONG, htmx=NOT_SO, args=a_card),
    "gym:told": Row(get=SEEN, post=NOT_SO, htmx=SEEN, args=a_word),
}
