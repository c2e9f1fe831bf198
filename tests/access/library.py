"""The library and the venues: all the staff read them, owner and coaches keep the venues."""

from __future__ import annotations

from coachhub.base.clock import now
from tests.access import Row
from tests.cast import Cast
from tests.factories import VenueFactory
from tests.library.uploads import put_picture

#       anonymous owner coach other-coach assistant clinician head-coach athlete team-mate guardian outsider
READ = "login 200 200 200 200 200 200 404 404 login login"
SENT = "login 405 405 405 405 405 405 404 404 login login"
EDIT = "login 200 200 200 403 403 403 404 404 login login"
BAD = "login 422 422 422 403 403 403 404 404 login login"

POST = "login 405 405 405 403 403 403 404 404 login login"
KEEP = "login 302 302 302 403 403 403 404 404 login login"


def exercise(cast: Cast) -> dict[str, object]:
    return {"pk": cast.exercise.pk}


def exercise_file(cast: Cast) -> dict[str, object]:
    return {"pk": put_picture(cast.exercise).pk}


def venue(cast: Cast) -> dict[str, object]:
    return {"pk": cast.venue.pk}


def archived_venue(_cast: Cast) -> dict[str, object]:
    return {"pk": VenueFactory.create(archived_at=now()).pk}


TABLE = {
    "desk:library": Row(get=READ, post=SENT, htmx=READ),
    "desk:exercise": Row(get=READ, post=SENT, htmx=READ, args=exercise),
    "desk:exercise_add": Row(get=EDIT, post=BAD, htmx=EDIT),
    "desk:exercise_edit": Row(get=EDIT, post=BAD, htmx=EDIT, args=exercise),
    "desk:exercise_archive": Row(get=POST, post=KEEP, htmx=POST, args=exercise),
    "desk:exercise_restore": Row(get=POST, post=KEEP, htmx=POST, args=exercise),
    "desk:exercise_newer": Row(get=POST, post=KEEP, htmx=POST, args=exercise),
    "desk:exercise_media": Row(get=EDIT, post=BAD, htmx=EDIT, args=exercise),
    "desk:exercise_link": Row(get=POST, post=KEEP, htmx=POST, args=exercise),
    "desk:exercise_file": Row(get=READ, post=SENT, htmx=READ, args=exercise_file),
    "desk:exercise_file_remove": Row(get=POST, post=KEEP, htmx=POST, args=exercise_file),
    "desk:venues": Row(get=READ, post=SENT, htmx=READ),
    "desk:venue": Row(get=READ, post=SENT, htmx=READ, args=venue),
    "desk:venue_add": Row(get=EDIT, post=BAD, htmx=EDIT),
    "desk:venue_edit": Row(get=EDIT, post=BAD, htmx=EDIT, args=venue),
    "desk:venue_archive": Row(get=POST, post=KEEP, htmx=POST, args=venue),
    "desk:venue_restore": Row(get=POST, post=KEEP, htmx=POST, args=archived_venue),
    "desk:venue_stock": Row(get=EDIT, post=BAD, htmx=EDIT, args=venue),
    "desk:venue_series": Row(get=EDIT, post=BAD, htmx=EDIT, args=venue),
}
