"""A plan fitted to the season, and the squad's rules for it: the owner and the squad's coaches."""

from __future__ import annotations

from tests.access import Row
from tests.access.plans import BAD, DONE, WRITE, plan
from tests.cast import Cast


def squad(cast: Cast) -> dict[str, object]:
    return {"pk": cast.squad.pk}


TABLE = {
    "desk:plan_fit": Row(WRITE, BAD, WRITE, plan),
    "desk:fit_rules": Row(WRITE, DONE, WRITE, squad),
}
