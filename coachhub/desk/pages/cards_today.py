"""A coach's first page: who trains today, and what waits for an answer. A head coach sees availability and no more."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any, Final

from django.core.paginator import Page, Paginator
from django.db.models import Case, Value, When
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.cards import queries
from coachhub.cards.models import Assignment, Card, CardCopy, CopyKind
from coachhub.cards.words import red_flag_text
from coachhub.cards.words_health import pain_text, restriction_text
from coachhub.desk.pages.squads import State
from coachhub.insight.queries import begun_or_noted
from coachhub.library.models import Venue
from coachhub.people.models import Athlete, AvailabilityStatus, PainReport, RedFlag, Restriction, Squad
from coachhub.people.queries import can_do_on, find_athletes
from coachhub.plans.models import Plan

COMING_DAYS: Final = 7
PAGED_AT: Final = 50


@dataclass(frozen=True, slots=True)
class FlagLine:
    row: RedFlag
    what: str


@dataclass(frozen=True, slots=True)
class PainLine:
    row: PainReport
    what: str


@dataclass(frozen=True, slots=True)
class ReviewLine:
    row: Restriction
    what: str


@dataclass(frozen=True, slots=True)
class CopyLine:
    """A card that has changed since it was printed or kept on a phone; `pk` of the newest such copy of its kind."""

    pk: int
    card: Card
    kind: str | Promise
    made_at: datetime


@dataclass(frozen=True, slots=True)
class NoteLine:
    """What an athlete wrote at a session's end, and no coach has read."""

    pk: int
    card: Card
    text: str


@dataclass(frozen=True, slots=True)
class AssignmentLine:
    row: Assignment
    given: int
    begun: int
    stale: int
    names_begun: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Step:
    """One thing a new club does first; `url_name` leads there, empty where somebody else has to do it."""

    what: str | Promise
    url_name: str
    is_done: bool

    @property
    def is_open(self) -> bool:
        return bool(self.url_name) and not self.is_done


@dataclass(frozen=True, slots=True)
class TodayPage:
    day: date
    flags: list[FlagLine]
    pains: list[PainLine]
    notes: list[NoteLine]
    reviews: list[ReviewLine]
    still_full: list[Athlete]
    copies: list[CopyLine]
    now: list[AssignmentLine]
    coming: list[AssignmentLine]
    steps: list[Step]
    may_clear: bool

    @classmethod
    def of(cls, actor: Actor) -> TodayPage:
        day = today()
        rows = list(queries.assignments_between(actor, day, day + timedelta(days=COMING_DAYS)))
        ids = {row.pk for row in rows if row.on_date == day}
        cards = list(begun_or_noted(actor, ids))
        begun = names_begun(cards, ids)
        lines = [assignment_line(row, begun) for row in rows]
        return cls(
            day=day,
            flags=[FlagLine(row, red_flag_text(row.kind)) for row in queries.standing_flags(actor)],
            pains=[PainLine(row, pain_text(row)) for row in queries.open_pains(actor)],
            notes=note_lines(cards),
            reviews=reviews_due(actor, day),
            still_full=list(queries.still_full(actor, day)) if actor.sees_health else [],
            copies=copy_lines(queries.old_copies(Card.objects.visible_to(actor), day)),
            now=[line for line in lines if line.row.on_date == day],
            coming=[line for line in lines if line.row.on_date > day],
            steps=[] if rows or not actor.may_write else first_steps(actor),
            may_clear=actor.sees_health,
        )

    @property
    def has_questions(self) -> bool:
        return bool(self.pains or self.notes or self.reviews or self.still_full or self.copies or self.stale)

    @property
    def stale(self) -> list[AssignmentLine]:
        return [line for line in (*self.now, *self.coming) if line.stale]

    @property
    def is_given(self) -> bool:
        """Before that there is no card, and no copy of one."""
        return bool(self.now or self.coming)

    @property
    def shows_questions(self) -> bool:
        return self.has_questions or not self.is_new_club

    @property
    def is_new_club(self) -> bool:
        return any(not step.is_done for step in self.steps)


def assignment_line(row: Any, begun: dict[int, list[str]]) -> AssignmentLine:
    return AssignmentLine(row, row.given, row.begun, row.stale, tuple(begun.get(row.pk, ())))


def names_begun(cards: Sequence[Card], assignment_ids: Collection[int]) -> dict[int, list[str]]:
    found: defaultdict[int, list[str]] = defaultdict(list)
    for card in cards:
        if card.assignment_id in assignment_ids and card.started_at is not None:
            found[card.assignment_id].append(card.athlete.name)
    return found


def note_lines(cards: Iterable[Any]) -> list[NoteLine]:
    """The latest first."""
    noted = [NoteLine(card.note_pk, card, card.note_text) for card in cards if card.note_pk is not None]
    return sorted(noted, key=lambda line: line.pk, reverse=True)


def reviews_due(actor: Actor, day: date) -> list[ReviewLine]:
    if not actor.sees_health:
        return []
    return [ReviewLine(row, restriction_text(row)) for row in queries.reviews_due(actor, day)]


def copy_lines(copies: Iterable[CardCopy]) -> list[CopyLine]:
    """One for each card and kind."""
    found: dict[tuple[int, str], CopyLine] = {}
    for copy in copies:
        line = CopyLine(copy.pk, copy.card, CopyKind(copy.kind).label, copy.made_at)
        found.setdefault((copy.card_id, copy.kind), line)
    return list(found.values())


def first_steps(actor: Actor) -> list[Step]:
    """What must be there before a session can be given, in the order to do it."""
    squad = Step(_("Add a squad"), "desk:squads", Squad.objects.visible_to(actor).filter(archived_at=None).exists())
    if not squad.is_done and not actor.sees_all:
        return [
            Step(_("Ask the owner for a squad: only the owner adds one and says who coaches it."), "", is_done=False)
        ]
    athletes = Athlete.objects.visible_to(actor).live()
    venues = Venue.objects.filter(archived_at=None)
    plans = Plan.objects.visible_to(actor).live().filter(sessions__isnull=False)
    return [
        squad,
        Step(_("Add its athletes"), "desk:athletes", athletes.exists()),
        Step(_("Say where you train and what stands there"), "desk:venues", venues.exists()),
        Step(_("Write a plan with its first session"), "desk:plans", plans.exists()),
        Step(_("Give the session to the squad"), "desk:assign", is_done=False),
    ]


@dataclass(frozen=True, slots=True)
class AvailabilityLine:
    """`can_do` is written for the head coach: words about training, no diagnosis."""

    pk: int
    name: str
    state: State
    can_do: str
    squads: str


@dataclass(frozen=True, slots=True)
class AvailabilityPage:
    """All that a head coach sees of health: full, modified, out, not settled. Who is not plainly full comes first."""

    day: date
    pager: Page[Athlete]
    lines: list[AvailabilityLine]

    @classmethod
    def of(cls, actor: Actor, number: str) -> AvailabilityPage:
        day = today()
        order = Case(
            When(status=AvailabilityStatus.OUT, then=Value(0)),
            When(status=AvailabilityStatus.MODIFIED, then=Value(1)),
            When(is_unsettled=True, then=Value(2)),
            default=Value(3),
        )
        rows = find_athletes(actor, "", None, day).annotate(can_do=can_do_on("pk", day)).alias(order=order)
        pager = Paginator(rows.order_by("order", "search_key", "pk"), PAGED_AT).get_page(number)
        return cls(day, pager, [availability_line(row, actor) for row in pager])


def availability_line(row: Any, actor: Actor) -> AvailabilityLine:
    squads = ", ".join(membership.squad.name for membership in row.current)
    return AvailabilityLine(row.pk, row.name, State.on(row, actor), row.can_do, squads)
