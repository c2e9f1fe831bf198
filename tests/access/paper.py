"""Paper: whoever reads training prints what they see; an athlete their own card."""

from __future__ import annotations

from tests.access import Row
from tests.cast import Cast

# anonymous owner coach other-coach assistant clinician head-coach athlete team-mate guardian outsider
SQUAD = "login 200 200 404 200 200 403 404 404 login login"
NOBODY_TICKED = "login 422 422 404 422 422 403 404 404 login login"
ONE = "login 200 200 404 200 200 403 200 404 login login"


def an_assignment(cast: Cast) -> dict[str, object]:
    assert cast.line.pk
    return {"pk": cast.assignment.pk}


def a_card(cast: Cast) -> dict[str, object]:
    assert cast.line.pk
    return {"pk": cast.card.pk}


TABLE = {
    "paper:assignment_pdf": Row(get=SQUAD, post=NOBODY_TICKED, htmx=SQUAD, args=an_assignment),
    "paper:card_pdf": Row(get=ONE, post=ONE, htmx=ONE, args=a_card),
}
