"""A whole plan given in the background: by the owner and the squad's coaches."""

from __future__ import annotations

from uuid import UUID

from coachhub.base.clock import now
from coachhub.cards.models import AssignmentRun
from tests.access import Row
from tests.access.plans import BAD, DONE, ONLY, WRITE, plan
from tests.cast import Cast, Role


def run(cast: Cast) -> dict[str, object]:
    """Of the Seniors, with nothing in it."""
    row, _ = AssignmentRun.objects.get_or_create(
        uuid=UUID(int=1),
        defaults={
            "squad": cast.squad,
            "athlete_ids": [],
            "started_by": cast.staff[Role.COACH].user,
            "started_at": now(),
        },
    )
    return {"pk": row.pk}


#        anonymous owner coach other-coach assistant clinician head-coach athlete team-mate guardian outsider
TABLE = {
    "desk:plan_give": Row(WRITE, BAD, WRITE, plan),
    "desk:run": Row(WRITE, ONLY, WRITE, run),
    "desk:run_cancel": Row(ONLY, DONE, ONLY, run),
    "desk:run_resume": Row(ONLY, DONE, ONLY, run),
}
