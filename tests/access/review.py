"""The checks: who reads training reads them, owner and the squad's coaches answer, the owner sets the rules."""

from __future__ import annotations

from tests.access import Row
from tests.access.plans import BAD, ONLY, READ, SENT, plan, session

#         anonymous owner coach other-coach assistant clinician head-coach athlete team-mate guardian outsider
OWNER = " login 200 403 403 403 403 403 404 404 login login"
SAVED = " login 302 403 403 403 403 403 404 404 login login"

TABLE = {
    "desk:session_answer": Row(ONLY, BAD, ONLY, session),
    "desk:plan_checks": Row(READ, SENT, READ, plan),
    "desk:plan_answer": Row(ONLY, BAD, ONLY, plan),
    "desk:check_rules": Row(OWNER, SAVED, OWNER),
}
