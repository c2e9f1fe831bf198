"""Today's session in full swing, by the verbs that the pages use."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta
from random import Random
from typing import Final

from django.db.models import F

from coachhub.base.clock import now
from coachhub.cards.actions import assign_session, log_entries, note_attendance, note_copies
from coachhub.cards.actions.stations import add_wish, place_at_stations
from coachhub.cards.models import (
    Assignment,
    AttendanceStatus,
    Card,
    CardRevision,
    CopyKind,
    PairWish,
    SetEntry,
    WishKind,
)
from coachhub.cards.queries.resolving import Recipe
from coachhub.demo import health
from coachhub.demo.club import Member
from coachhub.demo.data import SESSIONS
from coachhub.demo.days import at, match_days
from coachhub.demo.history import ARRIVAL, LATE_MINUTES, Trained, effort_row, give, mark
from coachhub.demo.lifting import MINUTES_A_ROUND, lettered, train_card
from coachhub.demo.stage import Evening, Stage
from coachhub.insight.actions import end_session

# Set once today's cards are out.
AFTER_CARDS: Final = SESSIONS + 1
LOWEST_HOLE: Final = 8
HIGHEST_HOLE: Final = 12


def begin(stage: Stage, today: date) -> None:
    """Cards for everybody, a few of them begun, and what hurt meanwhile."""
    evening = stage.evening(SESSIONS, today)
    assignment = _assign(evening)
    _put_back(assignment, at(today - timedelta(days=1), 18, 30))
    cards = {card.athlete_id: card for card in Card.objects.filter(assignment=assignment).select_related("assignment")}
    if stage.story.prints_cards:
        note_copies(cards=[(card.pk, card.revision_number) for card in cards.values()], kind=CopyKind.PRINTED)
    begun = {name: cards[stage.members[name].athlete.pk] for name in stage.story.today}
    recipe = evening.recipe()
    for name, card in begun.items():
        _train(evening, recipe, stage.members[name], card)
    if stage.story.has_rack_holes:
        place_at_stations(actor=stage.coach, assignment=assignment, stations={}, holes=_holes(stage, cards))
    _note_late(stage, cards)
    _add_wishes(stage)
    for row in stage.story.today_pains:
        health.hurt(stage, row)
    health.before_session(stage, AFTER_CARDS, today)


def _holes(stage: Stage, cards: dict[int, Card]) -> dict[int, int | None]:
    """Which hole of the rack each sets the bar at; nobody's height is written down."""
    there = [member for member in stage.members.values() if member.athlete.pk in cards]
    seeds = {cards[member.athlete.pk].pk: f"{stage.seed} hole {member.athlete.name}" for member in there}
    return {pk: Random(seed).randint(LOWEST_HOLE, HIGHEST_HOLE) for pk, seed in seeds.items()}


def _note_late(stage: Stage, cards: dict[int, Card]) -> None:
    for member in stage.members.values():
        if SESSIONS in member.person.late:
            left = stage.story.minutes - LATE_MINUTES
            card = cards[member.athlete.pk]
            note_attendance(actor=stage.assistant, card=card, status=AttendanceStatus.LATE, minutes_left=left)


def _add_wishes(stage: Stage) -> None:
    for row in stage.story.wishes:
        wish = add_wish(
            actor=stage.coach,
            athlete=stage.members[row["athlete"]].athlete,
            other=stage.members[row["other"]].athlete,
            kind=WishKind(row["kind"]),
            word=row.get("word", ""),
        )
        PairWish.objects.filter(pk=wish.pk).update(from_on=stage.days[0])


def _assign(evening: Evening) -> Assignment:
    stage = evening.stage
    return assign_session(
        actor=stage.coach,
        session=evening.session,
        squad=stage.squad,
        athletes=[member.athlete for member in evening.there],
        venue=evening.venue,
        on_date=evening.on_date,
        week=evening.week,
    )


def _put_back(assignment: Assignment, made_at: datetime) -> None:
    """Cards were made the evening before; the verbs stamp what they write with the present."""
    Assignment.objects.filter(pk=assignment.pk).update(created_at=made_at)
    Card.objects.filter(assignment=assignment).update(created_at=made_at)
    CardRevision.objects.filter(card__assignment=assignment).update(made_at=made_at)


def _train(evening: Evening, recipe: Recipe, member: Member, card: Card) -> None:
    """The blocks that she has behind her were written as they were done; who is through says how hard it was."""
    stage, trainee = evening.stage, evening.trainee(member, recipe)
    resolved, rounds = recipe.resolve(member.athlete.pk), stage.story.today[member.person.name[0]]
    start = now() - timedelta(minutes=MINUTES_A_ROUND * (sum(rounds) + len(rounds)))
    written = train_card(trainee, resolved, rounds, start)
    stored = log_entries(actor=member.actor or stage.assistant, card=card, drafts=[one.draft for one in written])
    entries = SetEntry.objects.filter(pk__in=[answer.entry.pk for answer in stored])
    entries.update(received_at=F("client_at") + ARRIVAL)
    Card.objects.filter(pk=card.pk).update(started_at=written[0].draft.client_at + ARRIVAL)
    mark(stage, [(answer.entry, one.is_clean) for answer, one in zip(stored, written, strict=True)])
    if len(rounds) == len(lettered(resolved)):
        told = effort_row(card, Trained(member, resolved, written))
        end_session(
            actor=member.actor or stage.assistant,
            card=card,
            uuid=told.uuid,
            effort=told.effort,
            minutes=told.minutes,
            note=stage.story.today_notes.get(member.person.name[0]),
        )


def look_ahead(stage: Stage, today: date) -> None:
    """A session that is given for a coming day, elsewhere."""
    if ahead := stage.story.ahead:
        on_date = today + timedelta(days=ahead["in_days"])
        if on_date in match_days(today):
            on_date -= timedelta(days=1)
        coming = stage.evening(SESSIONS + 1, on_date)
        give(replace(coming, place=ahead["venue"]), now())
