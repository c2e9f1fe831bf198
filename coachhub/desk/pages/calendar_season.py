"""A month or a week of the calendar, of one squad or of all that the actor sees."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import MAXYEAR, MINYEAR, date, timedelta
from typing import Final
from urllib.parse import urlencode

from django.http import QueryDict
from django.utils.dates import WEEKDAYS

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.coaching.series import WEEK, days_between, monday_of
from coachhub.desk.pages.calendar_days import Day, Entry
from coachhub.people.models import Squad
from coachhub.season.queries import Span, span_seen, squads_to_show

MONTH, WEEKLY = "month", "week"
# Room on either side for a month's first and last week, and for the months before and after.
_YEARS: Final = range(MINYEAR + 1, MAXYEAR)


@dataclass(frozen=True, slots=True)
class SeasonPage:
    """`weeks`: of the month, or the one week, each of seven days."""

    view: str
    on: date
    first: date
    last: date
    weeks: list[list[Day]]
    weekdays: list[str]
    squads: list[Squad]
    squad: Squad | None
    may_write: bool

    @classmethod
    def of(cls, actor: Actor, query: QueryDict) -> SeasonPage:
        squads, squad = squads_to_show(actor, query.get("squad", ""))
        view = WEEKLY if query.get("view") == WEEKLY else MONTH
        on = day_of(query.get("on", "")) or today()
        first, last = ends_of(view, on)
        names = {} if squad or len(squads) == 1 else {row.pk: row.name for row in squads}
        return cls(
            view=view,
            on=on,
            first=first,
            last=last,
            weeks=weeks_of(span_seen(actor, first, last, squad), names, on if view == MONTH else None),
            weekdays=[str(WEEKDAYS[number]) for number in range(WEEK)],
            squads=squads,
            squad=squad,
            may_write=actor.may_write,
        )

    @property
    def is_empty(self) -> bool:
        return not any(day.entries for week in self.weeks for day in week)

    @property
    def before(self) -> str:
        """The query of the month or week before."""
        return self.query(on=(first_of(self.on) if self.view == MONTH else self.first) - timedelta(days=1))

    @property
    def after(self) -> str:
        last = last_of(self.on) if self.view == MONTH else self.last
        return self.query(on=last + timedelta(days=1))

    @property
    def now(self) -> str:
        return self.query(on=today())

    @property
    def as_week(self) -> str:
        inside = self.on.replace(day=1) <= today() <= last_of(self.on)
        return self.query(view=WEEKLY, on=today() if inside else self.on)

    @property
    def as_month(self) -> str:
        return self.query(view=MONTH, on=self.on)

    @property
    def squad_query(self) -> str:
        return f"?squad={self.squad.pk}" if self.squad else ""

    def query(self, *, on: date, view: str = "") -> str:
        told = {"view": view or self.view, "on": on.isoformat()}
        return urlencode(told | ({"squad": str(self.squad.pk)} if self.squad else {}))


def day_of(text: str) -> date | None:
    """A day as it stands in an address, far enough from the ends of the calendar."""
    try:
        day = date.fromisoformat(text)
    except ValueError:
        return None
    return day if day.year in _YEARS else None


def first_of(day: date) -> date:
    return day.replace(day=1)


def last_of(day: date) -> date:
    return (first_of(day) + timedelta(days=31)).replace(day=1) - timedelta(days=1)


def ends_of(view: str, on: date) -> tuple[date, date]:
    """From a Monday to a Sunday: the week, or all weeks that the month touches."""
    first, last = (on, on) if view == WEEKLY else (first_of(on), last_of(on))
    return monday_of(first), monday_of(last) + timedelta(days=WEEK - 1)


def weeks_of(span: Span, squads: dict[int, str], month_of: date | None) -> list[list[Day]]:
    days = [
        Day(
            day,
            [Entry.of(one, squads) for one in span.on(day)],
            is_today=day == today(),
            is_outside=month_of is not None and (day.year, day.month) != (month_of.year, month_of.month),
        )
        for day in days_between(span.first, span.last)
    ]
    return [days[start : start + WEEK] for start in range(0, len(days), WEEK)]
