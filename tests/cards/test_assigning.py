from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest
from django.core.exceptions import PermissionDenied
from django.db import connection
from django.db.models import F
from django.test.utils import CaptureQueriesContext

from coachhub.base.clock import today
from coachhub.cards.actions import assign_session, log_round_as_planned, renew_card, renew_stale
from coachhub.cards.models import Card
from coachhub.cards.queries import load_sheets, preview
from coachhub.cards.queries.resolving import recipe_of
from coachhub.coaching.facts import Mass
from coachhub.plans.models import Prescription, PrescriptionWeek
from tests.cards.conftest import Evening, tap
from tests.cast import Role
from tests.factories import AthleteFactory


def change(evening: Evening, load: int) -> None:
    """The coach writes another load; plans' own actions raise the revision in the same way."""
    Prescription.objects.filter(pk=evening.squat.pk).update(load=Decimal(load))
    evening.session.revision = F("revision") + 1
    evening.session.save()
    evening.session.refresh_from_db()


def test_assigning_gives_everyone_their_card(evening: Evening) -> None:
    sheets = load_sheets(Card.objects.filter(assignment=evening.assignment))
    assert [(s.athlete_name, [b.label for b in s.blocks]) for s in sheets] == [
        ("Ingrid Moss", ["A", "B"]),
        ("Petra Vane", ["A", "B"]),
    ]
    front = evening.line(evening.squat)
    assert (front.label, front.load, front.sets, front.per_side) == ("A1", Mass(Decimal(60), "kg"), 4, (Decimal(20),))


def test_preview_is_what_assigning_gives_and_writes_nothing(evening: Evening) -> None:
    cards = Card.objects.count()
    (row,) = preview(
        session=evening.session,
        athletes=[evening.athlete],
        venue=evening.cast.venue,
        on_date=today(),
        week=1,
        squad=evening.cast.squad,
    )
    assert [line.load and line.load.value for line in row.card.lines] == [60, None, 60]
    assert Card.objects.count() == cards


@pytest.mark.parametrize("role", [Role.OTHER_COACH, Role.ASSISTANT, Role.HEAD_COACH, Role.ATHLETE])
def test_only_the_squads_coach_assigns(evening: Evening, role: Role) -> None:
    with pytest.raises(PermissionDenied):
        assign_session(
            actor=evening.cast.actor_of(role),
            session=evening.session,
            squad=evening.cast.squad,
            athletes=[evening.athlete],
            venue=evening.cast.venue,
            on_date=today(),
        )


def test_changed_session_offers_renewal_only_for_cards_not_begun(evening: Evening) -> None:
    begun, waiting = evening.athlete, evening.cast.team_mate
    log_round_as_planned(
        actor=evening.phone,
        card=evening.card(),
        sheet=evening.sheet(),
        group_key=evening.sheet().blocks[0].key,
        tap=tap(),
    )
    change(evening, 70)
    assert [card.athlete for card in Card.objects.stale()] == [waiting]
    assert (evening.sheet(begun).is_stale, evening.sheet(waiting).is_stale) == (False, True)
    assert evening.line(evening.squat, begun).load == Mass(Decimal(60), "kg")


def test_renewing_makes_a_new_revision_and_keeps_the_old_one(evening: Evening) -> None:
    change(evening, 70)
    count = renew_stale(actor=evening.coach, assignment=evening.assignment)
    card = evening.card()
    loads = [revision.lines.get(line_key=evening.squat.line_key).load_value for revision in card.revisions.all()]
    assert (count, loads, evening.line(evening.squat).load) == (2, [Decimal(60), Decimal(70)], Mass(Decimal(70), "kg"))


def test_begun_card_is_never_renewed(evening: Evening) -> None:
    key = evening.sheet().blocks[0].key
    log_round_as_planned(actor=evening.phone, card=evening.card(), sheet=evening.sheet(), group_key=key, tap=tap())
    change(evening, 70)
    assert renew_card(actor=evening.coach, card=evening.card()) is False
    assert evening.card().revision_number == 1


def test_week_values_replace_only_what_they_name(evening: Evening) -> None:
    PrescriptionWeek.objects.create(prescription=evening.squat, week=2, load=Decimal(65))
    later = assign_session(
        actor=evening.coach,
        session=evening.session,
        squad=evening.cast.squad,
        athletes=[evening.athlete],
        venue=evening.cast.venue,
        on_date=today() + timedelta(days=7),
        week=2,
    )
    line = later.cards.get().revisions.get().lines.get(line_key=evening.squat.line_key)
    assert (line.load_value, line.low) == (Decimal(65), Decimal(5))


def test_digest_names_the_inputs(evening: Evening) -> None:
    again = recipe_of([evening.card()]).digest(evening.athlete.pk)
    change(evening, 70)
    changed = recipe_of([evening.card()]).digest(evening.athlete.pk)
    assert (again == evening.card().digest, changed == again) == (True, False)


@pytest.mark.parametrize("how_many", [1, 30])
def test_sheets_take_the_same_queries_for_many(evening: Evening, how_many: int) -> None:
    athletes = AthleteFactory.create_batch(how_many, squad=evening.cast.squad)
    assignment = evening.assign(*athletes)
    with CaptureQueriesContext(
        connection,
    ) as asked:
        sheets = load_sheets(Card.objects.filter(assignment=assignment))
    assert (len(sheets), len(asked)) == (how_many, 5)


@pytest.mark.parametrize("how_many", [1, 30])
def test_preview_takes_the_same_queries_for_many(evening: Evening, how_many: int) -> None:
    athletes = AthleteFactory.create_batch(how_many, squad=evening.cast.squad)
    with CaptureQueriesContext(connection) as asked:
        preview(
            session=evening.session,
            athletes=athletes,
            venue=evening.cast.venue,
            on_date=today(),
            week=1,
            squad=evening.cast.squad,
        )
    assert len(asked) == 26
