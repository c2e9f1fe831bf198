"""Somebody who is not on the list trains today: an athlete for a day, with a card of this session at once."""

from __future__ import annotations

from datetime import date

from django.core.exceptions import PermissionDenied
from django.db import transaction

from coachhub.base.actor import Actor
from coachhub.base.clock import now, today
from coachhub.base.text import fold
from coachhub.cards.actions.snapshots import layout_of, lines_of, new_revisions
from coachhub.cards.models import Assignment, Card, RevisionReason
from coachhub.cards.queries.door_steps import steps_for_all
from coachhub.cards.queries.resolving import recipe_for
from coachhub.people.actions import add_athlete, join_squad, leave_squad
from coachhub.people.models import Athlete, Level, Membership, Squad


def welcome_guest(*, actor: Actor, assignment: Assignment, given_name: str, family_name: str, born_on: date) -> Card:
    """Return the guest's card; sent twice, there is one athlete and one card.

    Whoever the club knows by that name and birthday is that athlete: what restricts them holds here too. A guest is a
    member of the squad for this one day, so its coaches see them today and no longer.
    """
    squad = assignment.squad
    if squad is None or assignment.on_date != today() or not _may_welcome(actor, squad):
        raise PermissionDenied
    with transaction.atomic():
        Assignment.objects.select_for_update().get(pk=assignment.pk)
        athlete = _known(given_name, family_name, born_on) or add_athlete(
            actor=actor,
            squad=None,
            given_name=given_name,
            family_name=family_name,
            born_on=born_on,
            level=Level.NOVICE,
            unit=assignment.venue.unit,
        )
        is_guest = _joins_for_today(actor, athlete, squad)
    return _card_of(actor, assignment, athlete, is_guest=is_guest)


def _may_welcome(actor: Actor, squad: Squad) -> bool:
    return actor.may_write and Squad.objects.visible_to(actor).filter(pk=squad.pk).exists()


def _known(given_name: str, family_name: str, born_on: date) -> Athlete | None:
    key = fold(f"{family_name} {given_name}")
    return Athlete.objects.live().filter(search_key=key, born_on=born_on).order_by("pk").first()


def _joins_for_today(actor: Actor, athlete: Athlete, squad: Squad) -> bool:
    """False for a member of the squad who only had no card yet."""
    day = today()
    mine = Membership.objects.on(day).filter(athlete=athlete, squad=squad).first()
    if mine is None:
        mine = join_squad(actor=actor, athlete=athlete, squad=squad, started_on=day)
        leave_squad(actor=actor, membership=mine, ended_on=day)
    return mine.started_on == mine.ended_on == day


def _card_of(actor: Actor, assignment: Assignment, athlete: Athlete, *, is_guest: bool) -> Card:
    recipe = recipe_for(
        session=assignment.session,
        athletes=[athlete],
        venue=assignment.venue,
        on_date=assignment.on_date,
        week=assignment.week,
        squad=assignment.squad,
        door={athlete.pk: steps_for_all(assignment.pk)},
        guests=[athlete.pk] if is_guest else [],
    )
    resolved = recipe.resolve(athlete.pk)
    with transaction.atomic():
        Assignment.objects.select_for_update().get(pk=assignment.pk)
        held = Card.objects.filter(assignment=assignment, athlete=athlete).first()
        if held is not None:
            return held
        card = Card.objects.create(
            assignment=assignment,
            athlete=athlete,
            session_revision=recipe.session.revision,
            digest=recipe.digest(athlete.pk),
            created_at=now(),
            is_guest=is_guest,
        )
        new_revisions([(card, layout_of(resolved), lines_of(resolved))], RevisionReason.FIRST, actor)
    return card
