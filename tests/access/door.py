"""At the door of the gym."""

from __future__ import annotations

from coachhub.base.clock import today
from coachhub.cards.models import PairWish
from tests.access import Row
from tests.access.cards import WRITE, WRITE_ONLY_POST, assignment
from tests.cast import Cast
from tests.factories import CardFactory

#        anonymous owner coach other-coach assistant clinician head-coach athlete team-mate guardian outsider
WRITE_POST = "login 405 405 405 403 403 403 404 404 login login"
WRITE_BAD = "login 422 422 404 403 403 403 404 404 login login"
WRITE_NOTHING = "login 404 404 404 403 403 403 404 404 login login"
FLOOR = "login 404 404 404 404 403 403 404 404 login login"
WRITE_GONE = "login 302 302 404 403 403 403 404 404 login login"


def wish(cast: Cast) -> dict[str, object]:
    CardFactory.create(assignment=cast.assignment, athlete=cast.team_mate)
    first, other = sorted((cast.athlete, cast.team_mate), key=lambda one: one.pk)
    row = PairWish.objects.create(athlete=first, other=other, kind="apart", from_on=today())
    return {**assignment(cast), "wish_pk": row.pk}


TABLE = {
    "desk:door": Row(get=WRITE, post=WRITE_POST, htmx=WRITE, args=assignment),
    "desk:door_change": Row(get=WRITE_BAD, post=WRITE_BAD, htmx=WRITE_BAD, args=assignment),
    "desk:door_undo": Row(get=WRITE_ONLY_POST, post=WRITE_NOTHING, htmx=WRITE_ONLY_POST, args=assignment),
    "desk:floor_guest": Row(get=WRITE, post=WRITE_BAD, htmx=WRITE, args=assignment),
    "desk:partners": Row(get=WRITE, post=WRITE_GONE, htmx=WRITE, args=assignment),
    "desk:wish_add": Row(get=WRITE_ONLY_POST, post=WRITE_BAD, htmx=WRITE_ONLY_POST, args=assignment),
    "desk:wish_end": Row(get=WRITE_ONLY_POST, post=WRITE_GONE, htmx=WRITE_ONLY_POST, args=wish),
    # Without a card in the address there is nobody to be late.
    "desk:floor_late": Row(get=FLOOR, post=FLOOR, htmx=FLOOR, args=assignment),
}
