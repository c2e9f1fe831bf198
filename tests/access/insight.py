"""A session's table, notes to the coach, tables to take along, a session's end and an athlete's own history."""

from __future__ import annotations

from tests.access import Row
from tests.access.cards import READ, READ_POST, assignment, athlete
from tests.access.gym import SEEN, SENT_WRONG, a_card
from tests.cast import Cast
from tests.factories import SessionNoteFactory

#        anonymous owner coach other-coach assistant clinician head-coach athlete team-mate guardian outsider
OWN = "login 404 404 404 404 404 404 200 200 login login"
OWN_POST = "login 404 404 404 404 404 404 405 405 login login"


def note(cast: Cast) -> dict[str, object]:
    return {"pk": SessionNoteFactory.create(card=cast.card).pk}


def squad(cast: Cast) -> dict[str, object]:
    return {"pk": cast.squad.pk}


def exercise(cast: Cast) -> dict[str, object]:
    return {"pk": cast.exercise.pk}


TABLE = {
    "desk:day_table": Row(get=READ, post=READ_POST, htmx=READ, args=assignment),
    "desk:day_csv": Row(get=READ, post=READ_POST, htmx=READ, args=assignment),
    "desk:day_xlsx": Row(get=READ, post=READ_POST, htmx=READ, args=assignment),
    "desk:note_read": Row(
        get="login 405 405 405 403 403 403 404 404 login login",
        post="login 302 302 404 403 403 403 404 404 login login",
        htmx="login 405 405 405 403 403 403 404 404 login login",
        args=note,
    ),
    "desk:squad_sets": Row(get=READ, post=READ_POST, htmx=READ, args=squad),
    "desk:squad_sets_csv": Row(get=READ, post=READ_POST, htmx=READ, args=squad),
    "desk:squad_sets_xlsx": Row(get=READ, post=READ_POST, htmx=READ, args=squad),
    "desk:history_csv": Row(get=READ, post=READ_POST, htmx=READ, args=athlete),
    "desk:history_xlsx": Row(get=READ, post=READ_POST, htmx=READ, args=athlete),
    "gym:end": Row(get=SEEN, post=SENT_WRONG, htmx=SEEN, args=a_card),
    "gym:history": Row(get=OWN, post=OWN_POST, htmx=OWN),
    "gym:history_exercise": Row(get=OWN, post=OWN_POST, htmx=OWN, args=exercise),
}
