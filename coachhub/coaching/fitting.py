"""Places a plan's sessions on a squad's gym slots, around its matches, by rules that the coach sees and edits.

Each calendar week is fitted on its own. Of all ways to lay the week's sessions on its slots the best is taken: as many
sessions as can be placed, the more important ones first; then the days that the rules prefer, weighed likewise; then
what stands already stays where it is; then the order in which the sessions were written. Nothing is placed on match
day unless a rule says so, and nothing that loads the legs in earnest on the days before and after it, or next to
another such day.
The preferred days are common practice (main strength at MD-4 or MD-3, a short primer at MD-1, recovery at MD+1).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, time, timedelta
from itertools import groupby
from typing import Final, Literal

from coachhub.coaching.facts import Note, note
from coachhub.coaching.series import WEEK, monday_of

Role = Literal["main", "second", "power", "primer", "recovery", "extra", "any"]
Variant = Literal["", "match_week", "free_week"]

# Most important first: in a week with too few slots the last ones are left out.
ROLES: Final[tuple[Role, ...]] = ("main", "primer", "second", "power", "recovery", "extra", "any")
# Under so many minutes somebody hardly played (common practice: less than a third of a match).
HARDLY_PLAYED_MINUTES: Final = 20
# Days around a match on which nothing heavy is placed (common practice: 24 to 48 hours).
NEAR_MATCH: Final = frozenset({-1, 1})
# What weighs more goes first, whatever the lighter ones add up to in a week: day, standing, order.
_DAY: Final = 1000
_NO_DAY_FITS: Final = 50
_MOVED: Final = 50


@dataclass(frozen=True, slots=True)
class FitRule:
    """Where a role goes: days counted from the match, the best first (-4: MD-4, 1: MD+1). `only`: nowhere else."""

    role: Role
    days: tuple[int, ...] = ()
    only: bool = False


DEFAULT_RULES: Final = (
    FitRule("main", (-4, -3)),
    FitRule("second", (-3, -2)),
    FitRule("power", (-2, -3)),
    FitRule("primer", (-1,), only=True),
    FitRule("recovery", (1,), only=True),
    FitRule("extra", (1, 2), only=True),
)


@dataclass(frozen=True, slots=True)
class Opening:
    """One hour in a gym that the squad has on that day."""

    on: date
    starts_at: time
    minutes: int
    venue_id: int
    slot_id: int = 0


@dataclass(frozen=True, slots=True)
class ToPlace:
    """A session of one week of the plan; `order` is its place as written, `is_heavy`: it loads the legs in earnest."""

    session_id: int
    week: int
    order: int
    role: Role
    minutes: int
    is_heavy: bool
    variant: Variant = ""


@dataclass(frozen=True, slots=True)
class Placed:
    """`from_on`: where it stood before, None where it is new or stays."""

    session: ToPlace
    opening: Opening
    why: tuple[Note, ...]
    from_on: date | None = None


@dataclass(frozen=True, slots=True)
class Unplaced:
    session: ToPlace
    why: tuple[Note, ...]


@dataclass(frozen=True, slots=True)
class Fit:
    placed: tuple[Placed, ...]
    unplaced: tuple[Unplaced, ...]


@dataclass(frozen=True, slots=True)
class Season:
    """`closed`: days on which nothing is trained, with the reason. `standing`: (session, week) -> day it stands on.

    `heavy_days`: days that are heavy already, from other plans and squads.
    """

    starts_on: date
    openings: tuple[Opening, ...]
    matches: tuple[date, ...] = ()
    closed: Mapping[date, str] | None = None
    standing: Mapping[tuple[int, int], date] | None = None
    heavy_days: frozenset[date] = frozenset()


def fit(sessions: Iterable[ToPlace], season: Season, rules: Sequence[FitRule] = DEFAULT_RULES) -> Fit:
    """Return where each session goes, and why; and what could not be placed, and why not.

    Week 1 of the plan is the calendar week (Monday to Sunday) of `starts_on`.
    """
    placed: list[Placed] = []
    unplaced: list[Unplaced] = []
    ordered = sorted(sessions, key=lambda one: (one.week, one.order, one.session_id))
    for week, those in groupby(ordered, key=lambda one: one.week):
        heavy = season.heavy_days | {one.opening.on for one in placed if one.session.is_heavy}
        found = _Week(week, tuple(those), season, {rule.role: rule for rule in rules}, frozenset(heavy)).fitted()
        placed += found.placed
        unplaced += found.unplaced
    return Fit(tuple(sorted(placed, key=lambda one: (one.opening.on, one.opening.starts_at))), tuple(unplaced))


def week_start(starts_on: date, week: int) -> date:
    """Return the Monday of that week of the plan."""
    return monday_of(starts_on) + timedelta(weeks=week - 1)


def distances(on: date, matches: Iterable[date]) -> tuple[int, ...]:
    """Return the days from the matches around that day, such as (-2, 5): MD-2 of the next, MD+5 of the last."""
    found = []
    coming = [match for match in matches if match >= on]
    gone = [match for match in matches if match < on]
    if coming:
        found.append((on - min(coming)).days)
    if gone:
        found.append((on - max(gone)).days)
    return tuple(found)


def hardly_played(minutes: Mapping[int, int], most: int = HARDLY_PLAYED_MINUTES) -> frozenset[int]:
    """Return the athletes of whom minutes are known and few enough for extra work; who is not known is not guessed."""
    return frozenset(pk for pk, played in minutes.items() if played < most)


Way = dict[ToPlace, Opening | None]


@dataclass(frozen=True, slots=True)
class _Week:
    week: int
    sessions: tuple[ToPlace, ...]
    season: Season
    rules: Mapping[Role, FitRule]
    heavy: frozenset[date]

    def fitted(self) -> Fit:
        first = week_start(self.season.starts_on, self.week)
        days = [first + timedelta(days=n) for n in range(WEEK)]
        has_match = any(match in days for match in self.season.matches)
        other: Variant = "free_week" if has_match else "match_week"
        wanted = sorted((one for one in self.sessions if one.variant != other), key=_importance)
        closed = self.season.closed or {}
        openings = [
            one
            for one in self.season.openings
            if one.on in days and one.on >= self.season.starts_on and one.on not in closed
        ]
        best = self._best(wanted, sorted(openings, key=lambda one: (one.on, one.starts_at, one.slot_id)))
        placed, unplaced = [], []
        for one in wanted:
            opening = best[one]
            if opening is None:
                unplaced.append(Unplaced(one, self._why_not(one, openings, best, closed)))
            else:
                placed.append(Placed(one, opening, self._why(one, opening), self._moved_from(one, opening)))
        return Fit(tuple(placed), tuple(unplaced))

    def _best(self, wanted: Sequence[ToPlace], openings: Sequence[Opening]) -> Way:
        """Try every way, the more important sessions first; one that is no better than the best so far is left."""
        best: tuple[tuple[int, ...], Way] | None = None

        def follow(way: Way, missing: tuple[int, ...], cost: int) -> None:
            nonlocal best
            rest = wanted[len(way) :]
            score = (*missing, *(0 for _ in rest), cost)
            if best is not None and score >= best[0]:
                return
            if not rest:
                best = (score, way)
                return
            for opening in openings:
                if opening not in way.values() and not self._against(rest[0], opening, way):
                    more = self._cost(rest[0], opening) + _overtakes(rest[0], opening, way)
                    follow({**way, rest[0]: opening}, (*missing, 0), cost + more)
            follow({**way, rest[0]: None}, (*missing, 1), cost)

        follow({}, (), 0)
        return best[1] if best else {}

    def _against(self, one: ToPlace, opening: Opening, way: Way) -> tuple[Note, ...]:
        """What forbids this opening to the session, beside those that are placed already."""
        found = []
        if one.minutes > opening.minutes:
            found.append(note("slot_too_short", minutes=opening.minutes, needs=one.minutes))
        if any(other is not None and other.on == opening.on for other in way.values()):
            found.append(note("day_taken"))
        rule = self.rules.get(one.role)
        days = distances(opening.on, self.season.matches)
        if rule is not None and rule.only and not set(days) & set(rule.days):
            found.append(note("not_its_day", days=_told(rule.days)))
        elif 0 in days and (rule is None or 0 not in rule.days):
            found.append(note("match_day"))
        if one.is_heavy:
            found += self._against_heavy(opening, days, way)
        return tuple(found)

    def _against_heavy(self, opening: Opening, days: Sequence[int], way: Way) -> list[Note]:
        found = [note("near_match", day=day) for day in days if day in NEAR_MATCH]
        heavy = self.heavy | {other.on for one, other in way.items() if other is not None and one.is_heavy}
        if any(abs((opening.on - day).days) <= 1 for day in heavy):
            found.append(note("heavy_next_to_heavy"))
        return found

    def _cost(self, one: ToPlace, opening: Opening) -> int:
        rule = self.rules.get(one.role)
        days = distances(opening.on, self.season.matches)
        cost = 0
        if rule is not None and rule.days and days:
            places = [rule.days.index(day) for day in days if day in rule.days]
            weight = len(ROLES) - ROLES.index(one.role)
            cost = _DAY * weight * (min(places) if places else _NO_DAY_FITS)
        return cost + (_MOVED if self._moved_from(one, opening) else 0)

    def _moved_from(self, one: ToPlace, opening: Opening) -> date | None:
        stood = (self.season.standing or {}).get((one.session_id, one.week))
        return stood if stood is not None and stood != opening.on else None

    def _why(self, one: ToPlace, opening: Opening) -> tuple[Note, ...]:
        rule = self.rules.get(one.role)
        days = distances(opening.on, self.season.matches)
        kept = [day for day in days if rule is not None and day in rule.days]
        if kept:
            return (note("fits_rule", role=one.role, day=kept[0]),)
        if rule is None or not rule.days or not days:
            return (note("free_slot"),)
        return (note("not_preferred", role=one.role, days=_told(rule.days), day=days[0]),)

    def _why_not(
        self, one: ToPlace, openings: Sequence[Opening], way: Way, closed: Mapping[date, str]
    ) -> tuple[Note, ...]:
        """What stands against each slot of the week; without any slot, why there is none."""
        if not openings:
            first = week_start(self.season.starts_on, self.week)
            days = sorted(day for day in closed if 0 <= (day - first).days < WEEK)
            return tuple(note("closed", on=day.isoformat(), reason=closed[day]) for day in days) or (note("no_slot"),)
        found: list[Note] = []
        for opening in openings:
            against = self._against(one, opening, way) or (note("slot_taken"),)
            found += [replace(step, params=(("on", opening.on.isoformat()), *step.params)) for step in against]
        return tuple(found)


def _importance(one: ToPlace) -> tuple[int, int, int]:
    return ROLES.index(one.role), one.order, one.session_id


def _overtakes(one: ToPlace, opening: Opening, way: Way) -> int:
    """How many sessions that are written before it would come after it, or the other way round."""
    return sum(
        1 for other, taken in way.items() if taken is not None and (other.order < one.order) != (taken.on < opening.on)
    )


def _told(days: Iterable[int]) -> str:
    return ",".join(str(day) for day in days)
