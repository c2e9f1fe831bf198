"""The phases of a squad's season, drawn as weeks: hard sets as planned and as done, and what the phase asks."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from django.shortcuts import get_object_or_404
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.base.models import Pattern
from coachhub.cards.queries.season_sets import WeekSets, sets_by_week
from coachhub.coaching.coverage import PRIMARY
from coachhub.coaching.review.phases import Phase
from coachhub.coaching.series import WEEK, monday_of
from coachhub.people.models import Squad
from coachhub.season.models import SeasonPhase
from coachhub.season.queries_phases import phases_of

MOST_WEEKS: Final = 26
_BACK, _AHEAD = timedelta(weeks=12), timedelta(weeks=4)
# Of the drawing: a week's width, the band of the phases, and the room for bars below it.
WEEK_WIDTH, BAND, ROOM = 42, 24, 90


@dataclass(frozen=True, slots=True)
class Cell:
    """Of one pattern in one week. `is_outside`: what was done, or is planned, is not what the phase asks."""

    pattern: str
    planned: str
    done: str
    target: str
    is_outside: bool


@dataclass(frozen=True, slots=True)
class WeekLine:
    monday: date
    phase: str
    cells: list[Cell]
    athletes: int
    is_now: bool


@dataclass(frozen=True, slots=True)
class Band:
    x: int
    width: int
    label: str


@dataclass(frozen=True, slots=True)
class Bar:
    """`y` and `height` from the top of the drawing."""

    x: int
    y: float
    height: float


@dataclass(frozen=True, slots=True)
class Drawing:
    width: int
    height: int
    bands: list[Band]
    planned: list[Bar]
    done: list[Bar]
    now_x: int | None
    most: int


@dataclass(frozen=True, slots=True)
class PhaseLine:
    pk: int
    name: str
    days: str
    targets: str


@dataclass(frozen=True, slots=True)
class PhasesPage:
    squad: Squad
    phases: list[PhaseLine]
    patterns: list[str]
    weeks: list[WeekLine]
    drawing: Drawing
    may_write: bool

    @classmethod
    def of(cls, actor: Actor, squad: Squad) -> PhasesPage:
        rows = phases_of(actor, squad.pk)
        mondays = mondays_for(rows)
        sets = sets_by_week(squad.pk, mondays[0], mondays[-1] + timedelta(days=WEEK - 1))
        return cls(
            squad=squad,
            phases=[phase_line(row) for row in rows],
            patterns=[str(Pattern(code).label) for code in PRIMARY],
            weeks=[week_line(monday, rows, sets.get(monday)) for monday in mondays],
            drawing=drawing_of(mondays, rows, sets),
            may_write=actor.may_write,
        )


def mondays_for(rows: Sequence[SeasonPhase]) -> list[date]:
    """The weeks of the phases, not too far from today; without any, the last and the next few."""
    now = monday_of(today())
    first = max(min([row.from_on for row in rows], default=now - _BACK), now - timedelta(weeks=MOST_WEEKS))
    last = min(max([row.to_on for row in rows], default=now + _AHEAD), now + timedelta(weeks=MOST_WEEKS))
    first, last = min(monday_of(first), now), max(monday_of(last), now)
    return [first + timedelta(weeks=number) for number in range((last - first).days // WEEK + 1)]


def phase_of(monday: date, rows: Iterable[SeasonPhase]) -> SeasonPhase | None:
    """The one that most of the week lies in: that of its Thursday."""
    middle = monday + timedelta(days=3)
    return next((row for row in rows if row.from_on <= middle <= row.to_on), None)


def week_line(monday: date, rows: Sequence[SeasonPhase], sets: WeekSets | None) -> WeekLine:
    row, sets = phase_of(monday, rows), sets or WeekSets()
    phase = row.as_phase() if row else None
    is_past = monday + timedelta(days=WEEK) <= today()
    return WeekLine(
        monday,
        str(row.get_code_display()) if row else "",
        [cell_of(pattern, sets, phase, is_past=is_past) for pattern in PRIMARY],
        len(sets.athletes),
        monday == monday_of(today()),
    )


def cell_of(pattern: str, sets: WeekSets, phase: Phase | None, *, is_past: bool) -> Cell:
    planned, done = sets.mean(sets.planned, pattern), sets.mean(sets.done, pattern)
    target = phase.targets.get(pattern) if phase else None
    weighed = done if is_past else planned
    return Cell(
        pattern=str(Pattern(pattern).label),
        planned=f"{planned:.1f}" if sets.athletes else "–",
        done=f"{done:.1f}" if sets.athletes else "–",
        target=f"{target.low}–{target.high}" if target else "",
        is_outside=bool(target and sets.athletes and not target.low <= round(weighed) <= target.high),
    )


def drawing_of(mondays: Sequence[date], rows: Sequence[SeasonPhase], sets: dict[date, WeekSets]) -> Drawing:
    totals = [(_total(sets.get(monday), "planned"), _total(sets.get(monday), "done")) for monday in mondays]
    most = max([1.0, *(value for pair in totals for value in pair)])
    now = monday_of(today())
    return Drawing(
        width=len(mondays) * WEEK_WIDTH,
        height=BAND + ROOM,
        bands=list(_bands(mondays, rows)),
        planned=[_bar(number, value, most) for number, (value, _) in enumerate(totals)],
        done=[_bar(number, value, most) for number, (_, value) in enumerate(totals)],
        now_x=mondays.index(now) * WEEK_WIDTH if now in mondays else None,
        most=round(most),
    )


def _total(sets: WeekSets | None, which: str) -> float:
    """Hard sets of all patterns together, for one athlete."""
    return sum(getattr(sets, which).values()) / len(sets.athletes) if sets and sets.athletes else 0.0


def _bar(number: int, value: float, most: float) -> Bar:
    height = round(value / most * (ROOM - 6), 1)
    return Bar(number * WEEK_WIDTH, round(BAND + ROOM - height, 1), height)


def _bands(mondays: Sequence[date], rows: Sequence[SeasonPhase]) -> Iterable[Band]:
    for row in rows:
        own = [number for number, monday in enumerate(mondays) if phase_of(monday, [row])]
        if own:
            yield Band(own[0] * WEEK_WIDTH, len(own) * WEEK_WIDTH, str(row.get_code_display()))


def phase_line(row: SeasonPhase) -> PhaseLine:
    targets = ", ".join(f"{Pattern(one.pattern).label} {one.low}–{one.high}" for one in row.targets.all())
    days = f"{date_format(row.from_on, 'j M Y')} – {date_format(row.to_on, 'j M Y')}"
    return PhaseLine(row.pk, str(row.get_code_display()).capitalize(), days, targets or _("no targets"))


def find_phase(actor: Actor, squad: Squad, pk: int) -> SeasonPhase:
    rows = SeasonPhase.objects.visible_to(actor).filter(squad=squad)
    return get_object_or_404(rows.prefetch_related("targets"), pk=pk)
