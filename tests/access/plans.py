"""Plans and sessions of the Seniors: those who read training read them, owner and the squad's coaches write."""

from __future__ import annotations

from tests.access import Row
from tests.cast import Cast

#        anonymous owner coach other-coach assistant clinician head-coach athlete team-mate guardian outsider
LIST = " login 200 200 200 200 200 403 404 404 login login"
READ = " login 200 200 404 200 200 403 404 404 login login"
SENT = " login 405 405 405 405 405 403 404 404 login login"
ANY = "  login 200 200 200 403 403 403 404 404 login login"
WRITE = "login 200 200 404 403 403 403 404 404 login login"
BAD = "  login 422 422 404 403 403 403 404 404 login login"
DONE = " login 302 302 404 403 403 403 404 404 login login"
ONLY = " login 405 405 405 403 403 403 404 404 login login"
ANY_BAD = "login 422 422 422 403 403 403 404 404 login login"


def plan(cast: Cast) -> dict[str, object]:
    return {"pk": cast.plan.pk}


def session(cast: Cast) -> dict[str, object]:
    return {"pk": cast.session.pk}


def part(cast: Cast) -> dict[str, object]:
    return {"pk": cast.prescription.group.segment_id}


def block(cast: Cast) -> dict[str, object]:
    return {"pk": cast.prescription.group_id}


def line(cast: Cast) -> dict[str, object]:
    return {"pk": cast.prescription.pk}


def removal(cast: Cast) -> dict[str, object]:
    """One that is no longer there: the answer is the session's page, which says so."""
    return {**session(cast), "removal": 1}


def part_up(cast: Cast) -> dict[str, object]:
    return {**part(cast), "way": "up"}


def block_up(cast: Cast) -> dict[str, object]:
    return {**block(cast), "way": "up"}


def line_up(cast: Cast) -> dict[str, object]:
    return {**line(cast), "way": "up"}


TABLE = {
    "desk:plans": Row(LIST, SENT, LIST),
    "desk:plan_add": Row(ANY, ANY_BAD, ANY),
    "desk:plan": Row(READ, SENT, READ, plan),
    "desk:plan_print": Row(READ, SENT, READ, plan),
    "desk:plan_edit": Row(WRITE, BAD, WRITE, plan),
    "desk:plan_archive": Row(WRITE, DONE, WRITE, plan),
    "desk:plan_copy": Row(WRITE, BAD, WRITE, plan),
    "desk:session_add": Row(WRITE, BAD, WRITE, plan),
    "desk:session": Row(READ, SENT, READ, session),
    "desk:session_edit": Row(WRITE, BAD, WRITE, session),
    "desk:session_archive": Row(ONLY, DONE, ONLY, session),
    "desk:session_restore": Row(ONLY, DONE, ONLY, session),
    "desk:session_weeks": Row(WRITE, DONE, WRITE, session),
    "desk:session_copy": Row(WRITE, BAD, WRITE, session),
    "desk:removal_undo": Row(ONLY, DONE, ONLY, removal),
    "desk:part_add": Row(ONLY, BAD, ONLY, session),
    "desk:part": Row(WRITE, BAD, WRITE, part),
    "desk:part_remove": Row(ONLY, DONE, ONLY, part),
    "desk:part_move": Row(ONLY, DONE, ONLY, part_up),
    "desk:block_add": Row(ONLY, DONE, ONLY, part),
    "desk:block": Row(WRITE, BAD, WRITE, block),
    "desk:block_remove": Row(ONLY, DONE, ONLY, block),
    "desk:block_duplicate": Row(ONLY, DONE, ONLY, block),
    "desk:block_move": Row(ONLY, DONE, ONLY, block_up),
    "desk:line_add": Row(WRITE, BAD, WRITE, block),
    "desk:dose_check": Row(WRITE, ONLY, WRITE, block),
    "desk:line_options": Row(WRITE, ONLY, WRITE, block),
    "desk:line": Row(WRITE, BAD, WRITE, line),
    "desk:line_remove": Row(ONLY, DONE, ONLY, line),
    "desk:line_move": Row(ONLY, DONE, ONLY, line_up),
    "desk:line_place": Row(ONLY, DONE, ONLY, line),
    "desk:exercise_matches": Row(ANY, ONLY, ANY),
}
