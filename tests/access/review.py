"""The checks: who reads training reads them, owner and the squad's coaches answer, the owner sets the rules."""

from __future__ import annotations

from tests.access import Row
from tests.access.plans import BAD, ONLY, READ, SENT, plan, session
from tests.cast import Cast

#         anonymous owner coach other-coach assistant clinician head-coach athlete team-mate guardian outsider
OWNER = " login 200 403 403 403 403 403 404 404 login login"
SAVED = " login 302 403 403 403 403 403 404 404 login login"


def squad(cast: Cast) -> dict[str, object]:
    return {"pk": cast.squad.pk}


TABLE = {
    "desk:session_answer": Row(ONLY, BAD, ONLY, session),
    "desk:plan_checks": Row(READ, SENT, READ, plan),
    "desk:plan_answer": Row(ONLY, BAD, ONLY, plan),
    "desk:squad_checks": Row(READ, SENT, READ, squad),
    "desk:squad_answer": Row(ONLY, BAD, ONLY, squad),
    "desk:check_rules": Row(OWNER, SAVED, OWNER),
}
