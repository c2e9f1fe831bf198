"""The checks of one athlete's own days: the sessions of all squads, matches, trainings, school and other sport."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from itertools import pairwise
from typing import Final, Literal

from coachhub.coaching.review.doses import Person, youth_doses
from coachhub.coaching.review.findings import Finding, Where, params, warnings_first
from coachhub.coaching.review.reading import ReadSession
from coachhub.coaching.review.rules import DEFAULTS, Thresholds, finding

DayKind = Literal["gym", "match", "training", "school", "other"]

# Who played less than this is trained as if there had been no match (common practice).
HARDLY_PLAYED_MIN: Final = 20
# From here to the match only a few jumps, none that makes sore (microcycle, common practice).
JUMP_TAPER_DAYS: Final = 2
_WEEK: Final = 7


@dataclass(frozen=True, slots=True)
class CalendarDay:
    """Something on a day; `key` names it. A match without known minutes counts as played."""

    on_date: date
    kind: DayKind
    key: str
    name: str = ""
    session: ReadSession | None = None
    minutes_played: int | None = None

    @property
    def where(self) -> Where:
        return Where(self.key, self.on_date.isoformat())

    @property
    def has_heavy_legs(self) -> bool:
        return self.session is not None and bool(self.session.heavy_legs)

    @property
    def is_strength(self) -> bool:
        return self.session is not None and self.session.is_strength

    @property
    def was_played(self) -> bool:
        return self.kind == "match" and (self.minutes_played is None or self.minutes_played >= HARDLY_PLAYED_MIN)


def review_athlete(
    who: Person,
    calendar: Sequence[CalendarDay],
    *,
    first: date,
    last: date,
    thresholds: Thresholds = DEFAULTS,
) -> tuple[Finding, ...]:
    """Return what is remarked on the days from `first` to `last`; days around them may stand in the calendar too."""
    days = sorted(calendar, key=lambda one: (one.on_date, one.key))
    found = [*_heavy_legs(days, thresholds), *_matches(days, thresholds), *_contacts(who, days, thresholds)]
    if who.is_minor:
        found += [*_youth_weeks(days, first, last, thresholds), *_youth_near(days, thresholds)]
        found += _youth_doses(who, days, thresholds)
    return warnings_first(one for one in found if first <= _day_of(one) <= last)


def _day_of(one: Finding) -> date:
    """The last of its days: what comes too soon is the later one."""
    return date.fromisoformat(one.labels[-1])


def _heavy_legs(days: Sequence[CalendarDay], thresholds: Thresholds) -> Iterator[Finding]:
    code = "heavy_legs_near"
    if thresholds.is_on(code):
        heavy = [day for day in days if day.has_heavy_legs]
        yield from _too_near(code, heavy, thresholds)


def _youth_near(days: Sequence[CalendarDay], thresholds: Thresholds) -> Iterator[Finding]:
    code = "youth_days_near"
    if thresholds.is_on(code):
        yield from _too_near(code, [day for day in days if day.is_strength], thresholds)


def _too_near(code: str, days: Sequence[CalendarDay], thresholds: Thresholds) -> Iterator[Finding]:
    least = thresholds.whole(code)
    for before, after in pairwise(days):
        apart = (after.on_date - before.on_date).days
        if apart < least:
            yield finding(
                code,
                about=f"{before.key}+{after.key}",
                where=(before.where, after.where),
                params=params(first=before.name, second=after.name),
                found=str(apart),
                limit=str(least),
                suggestion="move_apart",
            )


def _matches(days: Sequence[CalendarDay], thresholds: Thresholds) -> Iterator[Finding]:
    matches = [day for day in days if day.kind == "match"]
    for day in (one for one in days if one.has_heavy_legs):
        coming = next((match for match in matches if match.on_date >= day.on_date), None)
        gone = next((match for match in reversed(matches) if match.on_date < day.on_date and match.was_played), None)
        if coming is not None:
            yield from _beside("heavy_legs_before_match", day, coming, thresholds, "earlier")
        if gone is not None:
            yield from _beside("heavy_legs_after_match", day, gone, thresholds, "later")
    yield from _taper(days, matches, thresholds)


def _beside(
    code: str, day: CalendarDay, match: CalendarDay, thresholds: Thresholds, suggestion: str
) -> Iterator[Finding]:
    apart = abs((match.on_date - day.on_date).days)
    if thresholds.is_on(code) and apart < thresholds.of(code):
        labels = ",".join(line.label for line in day.session.heavy_legs) if day.session else ""
        yield finding(
            code,
            about=f"{day.key}+{match.key}",
            where=(day.where,),
            params=params(session=day.name, match=match.on_date.isoformat(), lines=labels),
            found=str(apart),
            limit=str(thresholds.whole(code)),
            suggestion=suggestion,
        )


def _taper(days: Sequence[CalendarDay], matches: Sequence[CalendarDay], thresholds: Thresholds) -> Iterator[Finding]:
    code = "contacts_before_match"
    if not thresholds.is_on(code):
        return
    for day in days:
        coming = next((match for match in matches if match.on_date >= day.on_date), None)
        if day.session is None or coming is None or (coming.on_date - day.on_date).days > JUMP_TAPER_DAYS:
            continue
        if day.session.contacts > thresholds.of(code):
            yield _of_contacts(code, day, thresholds)


def _contacts(who: Person, days: Sequence[CalendarDay], thresholds: Thresholds) -> Iterator[Finding]:
    """The limit of their level for one session."""
    code = f"contacts_{who.level}"
    for day in days if thresholds.is_on(code) else ():
        if day.session is not None and day.session.contacts > thresholds.of(code):
            yield _of_contacts(code, day, thresholds)


def _of_contacts(code: str, day: CalendarDay, thresholds: Thresholds) -> Finding:
    return finding(
        code,
        about=day.key,
        where=(day.where,),
        params=params(session=day.name),
        found=str(day.session.contacts if day.session else 0),
        limit=str(thresholds.whole(code)),
        suggestion="fewer_jumps",
    )


def _youth_weeks(days: Sequence[CalendarDay], first: date, last: date, thresholds: Thresholds) -> Iterator[Finding]:
    """Whole weeks only: one that is cut off says nothing."""
    monday = first + timedelta(days=-first.weekday() % _WEEK)
    while monday + timedelta(days=_WEEK - 1) <= last:
        week = [day for day in days if 0 <= (day.on_date - monday).days < _WEEK]
        yield from _youth_days(week, monday, thresholds)
        yield from _day_off(week, monday, thresholds)
        monday += timedelta(days=_WEEK)


def _youth_days(week: Sequence[CalendarDay], monday: date, thresholds: Thresholds) -> Iterator[Finding]:
    code = "youth_days"
    there = {day.on_date for day in week if day.is_strength}
    if thresholds.is_on(code) and len(there) > thresholds.of(code):
        yield _of_week(code, monday, len(there), thresholds, "fewer_days")


def _day_off(week: Sequence[CalendarDay], monday: date, thresholds: Thresholds) -> Iterator[Finding]:
    code = "youth_no_day_off"
    free = _WEEK - len({day.on_date for day in week})
    if thresholds.is_on(code) and free < thresholds.of(code):
        yield _of_week(code, monday, free, thresholds, "day_off")


def _of_week(code: str, monday: date, found: int, thresholds: Thresholds, suggestion: str) -> Finding:
    return finding(
        code,
        about=monday.isoformat(),
        where=(Where(monday.isoformat(), monday.isoformat()),),
        found=str(found),
        limit=str(thresholds.whole(code)),
        suggestion=suggestion,
    )


def _youth_doses(who: Person, days: Sequence[CalendarDay], thresholds: Thresholds) -> Iterator[Finding]:
    """One remark for each rule and session, with all its lines."""
    for day in days:
        if day.session is None:
            continue
        by_code: dict[str, list[Finding]] = {}
        for one in youth_doses(day.session, who, thresholds):
            by_code.setdefault(one.code, []).append(one)
        for code, found in by_code.items():
            labels = ",".join(label for one in found for label in one.labels)
            worst = (min if code == "youth_reps_few" else max)(found, key=lambda one: float(one.found))
            yield replace(
                worst,
                about=f"{day.key}:{'+'.join(one.about for one in found)}",
                where=(day.where,),
                params=params(session=day.name, lines=labels),
            )
