"""The checks of a plan and of a squad's two weeks."""

from __future__ import annotations

from collections.abc import Sequence

from coachhub.cards.models import Card
from coachhub.plans.models import Session
from tests.cast import Cast
from tests.factories import (
    AssignmentFactory,
    CardFactory,
    CardLineFactory,
    CardRevisionFactory,
    CircuitGroupFactory,
    PrescriptionFactory,
    SessionFactory,
)
from tests.lists import FEW, Listing
from tests.lists.people import of_squad
from tests.lists.training import no_session, plan_with_lines


def written(cast: Cast, names: Sequence[str]) -> list[Session]:
    """Each with a line."""
    sessions = [SessionFactory.create(plan=cast.plan, name=name) for name in names]
    for session in sessions:
        group = CircuitGroupFactory.create(segment__session=session)
        PrescriptionFactory.create(group=group, exercise=cast.exercise)
    return sessions


def given(cast: Cast, names: Sequence[str]) -> None:
    """Each today, with a card for the athlete."""
    for session in written(cast, names):
        assignment = AssignmentFactory.create(session=session, squad=cast.squad, venue=cast.venue)
        card: Card = CardFactory.create(assignment=assignment, athlete=cast.athlete)
        line = session.segments.get().groups.get().prescriptions.get()
        CardLineFactory.create(
            revision=CardRevisionFactory.create(card=card), exercise=cast.exercise, line_key=line.line_key
        )


TABLE = {
    "desk:plan_checks": Listing(
        written, "No session is written yet.", plan_with_lines, clear=no_session, many=FEW, most_queries=15
    ),
    "desk:squad_checks": Listing(
        given, "No session is given to the squad in these two weeks.", of_squad, many=FEW, most_queries=32
    ),
}
