"""What an athlete has done: per exercise every set, traceable to its entry; and what is known of their strength."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any, Final, cast

from django.core.paginator import Page, Paginator
from django.shortcuts import get_object_or_404
from django.utils.functional import Promise
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.cards import queries
from coachhub.cards.models import EntryKind, EntrySide, KnownBest, SetEntry, SetQuality
from coachhub.cards.queries import Standing, TimelineCard, TimelineRow
from coachhub.cards.words import entry_text, half, number
from coachhub.desk.pages.athletes import find_athlete
from coachhub.insight.curves import CURVE_DAYS, Curve, curves_of
from coachhub.insight.plots import DESK
from coachhub.insight.queries import sets_done
from coachhub.library.models import Exercise
from coachhub.people.models import Athlete
from coachhub.science.units import Unit

# About five sets a day make some fifty rows a page.
DAYS_PAGED_AT: Final = 10


@dataclass(frozen=True, slots=True)
class ExerciseLine:
    exercise: Exercise
    sets: int
    last_on: date


@dataclass(frozen=True, slots=True)
class HistoryPage:
    athlete: Athlete
    lines: tuple[ExerciseLine, ...]

    @classmethod
    def of(cls, actor: Actor, pk: int) -> HistoryPage:
        athlete = find_athlete(actor, pk)
        return cls(athlete, tuple(ExerciseLine(*row) for row in queries.exercises_done(athlete.pk)))


@dataclass(frozen=True, slots=True)
class EntryLine:
    """One entry; `counts` is False for what was replaced, taken back, or stands beside another version."""

    entry: SetEntry
    counts: bool
    text: str
    side: str | Promise
    rir: str
    quality: str | Promise
    standing: str
    writer: str


@dataclass(frozen=True, slots=True)
class CardSets:
    card: TimelineCard
    lines: tuple[EntryLine, ...]


@dataclass(frozen=True, slots=True)
class ExerciseHistoryPage:
    athlete: Athlete
    exercise: Exercise
    curves: tuple[Curve, ...]
    pager: Page[date]
    cards: tuple[CardSets, ...]

    @classmethod
    def of(cls, actor: Actor, pk: int, exercise_pk: int, page_number: str) -> ExerciseHistoryPage:
        athlete, exercise = find_athlete(actor, pk), get_object_or_404(Exercise, pk=exercise_pk)
        pager = Paginator(list(queries.days_trained(pk, exercise_pk)), DAYS_PAGED_AT).get_page(page_number)
        cards = queries.timeline(pk, exercise_pk, list(pager))
        lines = tuple(CardSets(card, tuple(map(entry_line, card.rows))) for card in cards)
        return cls(athlete, exercise, curves_for(athlete, exercise), pager, lines)


def curves_for(athlete: Athlete, exercise: Exercise) -> tuple[Curve, ...]:
    """In the unit that the athlete reads, so that phone and desk show the same."""
    sets = sets_done(athlete.pk, exercise.pk, today() - timedelta(days=CURVE_DAYS))
    return curves_of(sets, exercise.name, cast(Unit, str(athlete.unit)), DESK)


def entry_line(row: TimelineRow) -> EntryLine:
    entry = row.entry
    return EntryLine(
        entry=entry,
        counts=row.standing is Standing.COUNTS,
        text="" if entry.kind == EntryKind.VOID else entry_text(entry),
        side="" if entry.side == EntrySide.BOTH else EntrySide(entry.side).label,
        rir=half(entry.rir_half),
        quality=SetQuality(row.quality).label if row.quality else "",
        standing=standing_text(row),
        writer=writer_of(entry),
    )


def standing_text(row: TimelineRow) -> str:
    match row.standing:
        case Standing.REPLACED:
            return _("replaced by no. %(pk)s") % {"pk": row.replaced_by}
        case Standing.TAKEN_BACK:
            return _("taken back")
        case Standing.RIVAL:
            return _("another entry stands for this set")
        case _counts:
            return ""


def writer_of(entry: Any) -> str:
    """The member of staff, or the athlete's own phone."""
    if entry.author is not None:
        return str(entry.author.staff.name if hasattr(entry.author, "staff") else entry.author.get_username())
    return _("own phone") if entry.device is not None else _("unknown")


@dataclass(frozen=True, slots=True)
class BestLine:
    """`counts`: the newest of its kind for this exercise."""

    row: KnownBest
    load: str
    rir: str
    writer: str
    counts: bool


@dataclass(frozen=True, slots=True)
class BestsPage:
    athlete: Athlete
    lines: tuple[BestLine, ...]
    may_add: bool

    @classmethod
    def of(cls, actor: Actor, athlete: Athlete) -> BestsPage:
        seen: set[tuple[int, bool]] = set()
        lines = tuple(best_line(row, seen) for row in queries.bests_of(athlete))
        return cls(athlete, lines, actor.may_write)


def best_line(row: Any, seen: set[tuple[int, bool]]) -> BestLine:
    kind = (row.exercise_id, row.source == "coach")
    is_newest = kind not in seen
    seen.add(kind)
    staff = getattr(row.noted_by, "staff", None)
    load = f"{number(row.load_value)} {row.load_unit}"
    return BestLine(row, load, half(row.rir_half), staff.name if staff else "", is_newest)
