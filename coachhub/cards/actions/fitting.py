"""Lays a plan on a squad's calendar, and moves what is given already to another day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from uuid import UUID

from django.core.exceptions import PermissionDenied, ValidationError
from django.db import transaction
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.cards.actions.absence import note_moved
from coachhub.cards.actions.assigning import assign_session, write_anew
from coachhub.cards.actions.runs import Step, start_run
from coachhub.cards.models import Assignment, AssignmentRun, Card, RevisionReason
from coachhub.cards.queries.extra import week_for
from coachhub.cards.queries.fitting import fit_plan, slot_of
from coachhub.cards.queries.resolving import holders, recipe_of
from coachhub.coaching.series import Occasion
from coachhub.library.models import Venue
from coachhub.people.models import Athlete
from coachhub.plans.models import Plan, Session
from coachhub.season.models import MatchDay


@dataclass(frozen=True, slots=True)
class Placing:
    """`moved`: how many changed their day; `run`: what gives the new ones, None where there are none."""

    moved: int
    run: AssignmentRun | None


def place_plan(*, actor: Actor, plan: Plan, starts_on: date, seen: str, uuid: UUID) -> Placing:
    """Do what the preview said (`seen` is its digest): move what moves, leave what is new to the worker.

    ValidationError "changed" where it would be something else by now; then nothing is written. The same uuid again
    starts nothing new.
    """
    if plan.squad is None or not Plan.objects.editable_by(actor).filter(pk=plan.pk).exists():
        raise PermissionDenied
    known = AssignmentRun.objects.visible_to(actor).filter(uuid=uuid).first()
    if known is not None:
        return Placing(0, known)
    found = fit_plan(plan, plan.squad, starts_on)
    if found.digest != seen:
        raise ValidationError(
            _("Something has changed meanwhile, or this is done already. Please look at the days again."),
            code="changed",
        )
    athletes = list(Athlete.objects.members_of(plan.squad.pk, today()))
    if not athletes:
        raise ValidationError(_("Nobody is in this squad today."), code="nobody")
    venues = Venue.objects.in_bulk({one.opening.venue_id for one in (*found.moves, *found.new)})
    moved = sum(
        move_assignment(
            actor=actor,
            assignment=found.standing[slot_of(one.session)].assignment,
            on_date=one.opening.on,
            venue=venues[one.opening.venue_id],
        )
        for one in found.moves
    )
    steps = [
        Step(found.sessions[one.session.session_id], one.session.week, one.opening.on, venues[one.opening.venue_id])
        for one in found.new
    ]
    run = start_run(actor=actor, uuid=uuid, squad=plan.squad, athletes=athletes, steps=steps) if steps else None
    return Placing(moved, run)


def give_extra(
    *, actor: Actor, match: MatchDay, session: Session, hour: Occasion, athletes: Sequence[Athlete]
) -> Assignment:
    """To these athletes only, on an hour of their squad; sent twice, it is one card each."""
    return assign_session(
        actor=actor,
        session=session,
        squad=match.squad,
        athletes=list(athletes),
        venue=Venue.objects.get(pk=hour.venue_id or 0),
        on_date=hour.on_date,
        week=week_for(session, hour.on_date),
    )


def move_assignment(*, actor: Actor, assignment: Assignment, on_date: date, venue: Venue) -> bool:
    """Give it another day and venue, with every card made anew for them; printed and offline copies are then old.

    False, and nothing changes, where a card is begun, somebody has moved it meanwhile, or one of its athletes has the
    session there already.
    """
    if not actor.may_write or not Assignment.objects.visible_to(actor).filter(pk=assignment.pk).exists():
        raise PermissionDenied
    cards = list(assignment.cards.order_by("pk"))
    # Resolved before the transaction: reading and computing must not hold the one writer's lock.
    recipe = recipe_of(cards, moved=(on_date, venue)) if cards else None
    if recipe is not None:
        recipe.resolve_all()
    athlete_ids = [card.athlete_id for card in cards]
    with transaction.atomic():
        row = Assignment.objects.select_for_update().select_related("session").get(pk=assignment.pk)
        fresh = list(Card.objects.select_for_update().filter(assignment=row).order_by("pk"))
        is_as_seen = (row.on_date, row.cancelled_at) == (assignment.on_date, None) and fresh == cards
        others = set(holders(row.session, on_date, venue, athlete_ids).values()) - {row.pk}
        if not is_as_seen or others or any(card.started_at for card in fresh):
            return False
        row.on_date, row.venue = on_date, venue
        row.save(update_fields=["on_date", "venue"])
        if recipe is not None:
            write_anew(fresh, recipe, RevisionReason.MOVED, actor)
            note_moved(Card.objects.filter(assignment=row), on_date, actor)
    return True
