"""At the door of the gym."""

from __future__ import annotations

from tests.access import Row
from tests.access.cards import WRITE, WRITE_ONLY_POST, assignment

#        anonymous owner coach other-coach assistant clinician head-coach athlete team-mate guardian outsider
WRITE_POST = "login 405 405 405 403 403 403 404 404 login login"
WRITE_BAD = "login 422 422 404 403 403 403 404 404 login login"
WRITE_NOTHING = "login 404 404 404 403 403 403 404 404 login login"
FLOOR = "login 404 404 404 404 403 403 404 404 login login"

TABLE = {
    "desk:door": Row(get=WRITE, post=WRITE_POST, htmx=WRITE, args=assignment),
    "desk:door_change": Row(get=WRITE_BAD, post=WRITE_BAD, htmx=WRITE_BAD, args=assignment),
    "desk:door_undo": Row(get=WRITE_ONLY_POST, post=WRITE_NOTHING, htmx=WRITE_ONLY_POST, args=assignment),
    "desk:floor_guest": Row(get=WRITE, post=WRITE_BAD, htmx=WRITE, args=assignment),
    # Without a card in the address there is nobody to be late.
    "desk:floor_late": Row(get=FLOOR, post=FLOOR, htmx=FLOOR, args=assignment),
}
