"""A plan fitted to the season, and the squad's rules for it: the owner and the squad's coaches."""

from __future__ import annotations

from tests.access import Row
from tests.access.plans import BAD, DONE, WRITE, plan
from tests.access.season import WRITES, WRITES_422, a_match
from tests.cast import Cast


def squad(cast: Cast) -> dict[str, object]:
    return {"pk": cast.squad.pk}


TABLE = {
    "desk:plan_fit": Row(WRITE, BAD, WRITE, plan),
    "desk:match_extra": Row(WRITES, WRITES_422, WRITES, a_match),
    "desk:fit_rules": Row(WRITE, DONE, WRITE, squad),
}
