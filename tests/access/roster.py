"""Tables: imported by those who may write, into drafts that only their owner sees; exported by the same."""

from __future__ import annotations

from tests.access import Row
from tests.cast import Cast, Role
from tests.factories import ImportDraftFactory


def coachs_draft(cast: Cast) -> dict[str, object]:
    reading = {
        "columns": {"given_name": 0, "family_name": 1, "born_on": 2},
        "day_order": "dmy",
        "unit": "",
        "squad": None,
    }
    return {"pk": ImportDraftFactory.create(owner=cast.user_of(Role.COACH), reading=reading).pk}


#    anonymous owner coach other-coach assistant clinician head-coach athlete team-mate guardian outsider
WRITES = "  login 200   200   200         403       403       403        404     404       login    login"
INVALID = " login 422   422   422         403       403       403        404     404       login    login"
READS = "   login 405   405   405         403       403       403        404     404       login    login"
OWN = "     login 404   200   404         403       403       403        404     404       login    login"
OWN_422 = " login 404   422   404         403       403       403        404     404       login    login"
OWN_302 = " login 404   302   404         403       403       403        404     404       login    login"
TOLD = "    login 302   302   302         403       403       403        404     404       login    login"

TABLE = {
    "desk:roster_upload": Row(WRITES, INVALID, WRITES),
    "desk:roster_csv": Row(WRITES, READS, WRITES),
    "desk:roster_xlsx": Row(WRITES, READS, WRITES),
    "desk:bests_upload": Row(WRITES, INVALID, WRITES),
    "desk:bests_csv": Row(WRITES, READS, WRITES),
    "desk:bests_xlsx": Row(WRITES, READS, WRITES),
    "desk:roster_match": Row(OWN, OWN_422, OWN, coachs_draft),
    "desk:roster_preview": Row(OWN, TOLD, OWN, coachs_draft),
    "desk:roster_cancel": Row(READS, OWN_302, READS, coachs_draft),
}
