"""An assignment: who holds a card of it, and how far each is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.http import Http404
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.utils.functional import Promise

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.cards import actions, queries
from coachhub.cards.forms import AssignForm
from coachhub.cards.models import Assignment, AttendanceStatus, Card, RevisionReason
from coachhub.insight.models import EffortLoad, SessionNote
from coachhub.insight.queries import efforts_of, notes_of
from coachhub.insight.words import effort_text


@dataclass(frozen=True, slots=True)
class CardRow:
    """`old_copy`: a printed or offline copy is older than the card."""

    card: Card
    name: str
    is_begun: bool
    is_absent: bool
    is_stale: bool
    waits: bool
    old_copy: bool
    changed: str | Promise
    effort: str


@dataclass(frozen=True, slots=True)
class NoteRow:
    """What an athlete wrote at the session's end."""

    name: str
    note: SessionNote


@dataclass(frozen=True, slots=True)
class AssignmentPage:
    row: Assignment
    cards: tuple[CardRow, ...]
    notes: tuple[NoteRow, ...]
    may_edit: bool

    @classmethod
    def of(cls, actor: Actor, pk: int) -> AssignmentPage:
        row = find_assignment(actor, pk)
        cards = list(queries.cards_with_state(actor, row))
        efforts = efforts_of([card.pk for card in cards])
        rows = tuple(card_row(card, row, efforts.get(card.pk)) for card in cards)
        return cls(row, rows, note_rows(actor, cards), may_change(actor, row))

    @property
    def begun(self) -> int:
        return sum(1 for row in self.cards if row.is_begun)

    @property
    def stale(self) -> int:
        return sum(1 for row in self.cards if row.is_stale)

    @property
    def is_past(self) -> bool:
        return self.row.on_date < today()


@dataclass(frozen=True, slots=True)
class CancelPage:
    row: Assignment
    begun: int
    given: int
    back_url: str

    @classmethod
    def of(cls, row: Assignment) -> CancelPage:
        begun = row.cards.filter(started_at__isnull=False).count()
        return cls(row, begun, row.cards.count(), assignment_url(row.pk))


def find_assignment(actor: Actor, pk: int) -> Assignment:
    """A live one that the actor sees; else Http404."""
    rows = Assignment.objects.visible_to(actor).live().select_related("session__plan", "squad", "venue")
    return get_object_or_404(rows, pk=pk)


def changeable_assignment(actor: Actor, pk: int) -> Assignment:
    """Http404 also for one that the actor only reads."""
    row = find_assignment(actor, pk)
    if not may_change(actor, row):
        raise Http404
    return row


def may_change(actor: Actor, row: Assignment) -> bool:
    """Only the assigning squad's coaches change it; without a squad, every coach who sees it."""
    return actor.may_write and (actor.sees_all or row.squad_id is None or row.squad_id in actor.squad_ids)


def assignment_url(pk: int) -> str:
    return reverse("desk:assignment", kwargs={"pk": pk})


def note_rows(actor: Actor, cards: Sequence[Card]) -> tuple[NoteRow, ...]:
    """Unread ones first, then in the order of names."""
    found = notes_of(actor, [card.pk for card in cards])
    rows = [NoteRow(card.athlete.name, found[card.pk]) for card in cards if card.pk in found]
    return tuple(sorted(rows, key=lambda row: row.note.read_at is not None))


def card_row(card: Any, assignment: Assignment, effort: EffortLoad | None = None) -> CardRow:
    is_begun = card.started_at is not None
    return CardRow(
        card=card,
        name=card.athlete.name,
        is_begun=is_begun,
        is_absent=card.attendance_status == AttendanceStatus.ABSENT,
        is_stale=not is_begun and (card.is_behind or card.session_revision < assignment.session.revision),
        waits=card.waits,
        old_copy=card.copy_number is not None and card.copy_number < card.revision_number,
        changed="" if card.reason == RevisionReason.FIRST else RevisionReason(card.reason).label,
        effort=effort_text(effort),
    )


def given_values(form: AssignForm) -> dict[str, Any]:
    """A checked form as what `assign_session` takes."""
    data = dict(form.cleaned_data)
    data["athletes"] = list(data.pop("athlete"))
    return data


def renewed(actor: Actor, row: Assignment, card_pk: int | None) -> int:
    """Renew the one card, or every stale one; returns how many. Http404 for a card of another assignment."""
    if card_pk is None:
        return actions.renew_stale(actor=actor, assignment=row)
    card = get_object_or_404(Card.objects.editable_by(actor), pk=card_pk, assignment=row)
    return int(actions.renew_card(actor=actor, card=card))
