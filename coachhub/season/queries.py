"""The calendar between two days, as frozen values: of squads, of athletes, or all that somebody sees."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from typing import TypeVar

from django.db.models import Model, Q, QuerySet

from coachhub.base.actor import Actor
from coachhub.coaching.series import HOLIDAY, MATCH, SLOT, Occasion, Series, days_of, without_holidays
from coachhub.people.access import token_hash
from coachhub.people.models import Athlete, Membership, Squad
from coachhub.people.queries import live_squads
from coachhub.season.models import FeedLink, GymSlot, Happening, MatchDay, SkippedDay

Row = TypeVar("Row", bound=Model)


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of the calendar: every occasion between two days, both included, in order."""

    first: date
    last: date
    occasions: tuple[Occasion, ...]

    def on(self, day: date) -> tuple[Occasion, ...]:
        return tuple(one for one in self.occasions if one.covers(day))

    def of_kind(self, *kinds: str) -> tuple[Occasion, ...]:
        """Those that take place."""
        return tuple(one for one in self.occasions if one.kind in kinds and one.takes_place)

    @property
    def matches(self) -> tuple[Occasion, ...]:
        return self.of_kind(MATCH)

    @property
    def slots(self) -> tuple[Occasion, ...]:
        return self.of_kind(SLOT)

    def busy_days(self, but: Collection[str] = (SLOT,)) -> dict[date, tuple[Occasion, ...]]:
        """What a plan has to go round, by day: all that takes place, holidays too, but not the kinds in `but`."""
        found: dict[date, list[Occasion]] = {}
        for one in self.occasions:
            if one.takes_place and one.kind not in but:
                for day in _days_inside(one, self.first, self.last):
                    found.setdefault(day, []).append(one)
        return {day: tuple(rows) for day, rows in sorted(found.items())}

    def is_holiday(self, day: date, squad_id: int) -> bool:
        return any(one.kind == HOLIDAY and one.takes_place and one.squad_id == squad_id for one in self.on(day))


def _days_inside(one: Occasion, first: date, last: date) -> Iterator[date]:
    days = days_of(Series(frozenset(range(7)), one.on_date, one.to_on), first, last)
    yield from days


def span_of_squads(squad_ids: Collection[int], first: date, last: date) -> Span:
    """All of these squads' dates, in the same few queries for one squad or thirty."""
    of = Q(squad__in=squad_ids)
    return _span(MatchDay.objects.filter(of), GymSlot.objects.filter(of), Happening.objects.filter(of), first, last)


def span_of_athlete(athlete: Athlete, first: date, last: date, squad_ids: Collection[int]) -> Span:
    """The dates of these squads, and what the athlete has besides."""
    of = Q(squad__in=squad_ids)
    happenings = Happening.objects.filter(of | Q(athlete=athlete))
    return _span(MatchDay.objects.filter(of), GymSlot.objects.filter(of), happenings, first, last)


def span_seen(actor: Actor, first: date, last: date, squad: Squad | None = None) -> Span:
    """What the actor may read of one squad, or of all that they see. An athlete has their own dates in it, staff have
    nobody's."""
    squad_only = Q() if squad is None else Q(squad=squad)
    happenings = Happening.objects.visible_to(actor).filter(squad_only)
    if actor.is_staff:
        happenings = happenings.filter(squad__isnull=False)
    matches, slots = MatchDay.objects.visible_to(actor), GymSlot.objects.visible_to(actor)
    return _span(matches.filter(squad_only), slots.filter(squad_only), happenings, first, last)


def own_dates(actor: Actor, athlete: Athlete, day: date) -> QuerySet[Happening]:
    """What an athlete has besides from that day on, as rows."""
    rows = Happening.objects.visible_to(actor).filter(athlete=athlete, cancelled_at=None)
    return rows.filter(Q(to_on=None) | Q(to_on__gte=day))


def squads_of(athlete: Athlete, day: date) -> frozenset[int]:
    rows = Membership.objects.on(day).filter(athlete=athlete, squad__archived_at=None)
    return frozenset(rows.values_list("squad_id", flat=True))


def _span(
    matches: QuerySet[MatchDay], slots: QuerySet[GymSlot], happenings: QuerySet[Happening], first: date, last: date
) -> Span:
    match_rows = matches.filter(on_date__range=(first, last))
    slot_rows = list(_begun_by(slots, first, last).select_related("venue"))
    other_rows = list(_begun_by(happenings, first, last))
    skipped = _skipped(slot_rows, other_rows, first, last)
    occasions = [
        *(match_occasion(row) for row in match_rows),
        *(one for row in slot_rows for one in slot_occasions(row, skipped.get(("slot", row.pk), []), first, last)),
        *(one for row in other_rows for one in occasions_of(row, skipped.get(("other", row.pk), []), first, last)),
    ]
    return Span(first, last, tuple(without_holidays(occasions)))


def _begun_by(rows: QuerySet[Row], first: date, last: date) -> QuerySet[Row]:
    return rows.filter(Q(to_on=None) | Q(to_on__gte=first), from_on__lte=last)


def _skipped(
    slots: Iterable[GymSlot], others: Iterable[Happening], first: date, last: date
) -> dict[tuple[str, int], list[SkippedDay]]:
    of = Q(slot__in=[row.pk for row in slots]) | Q(happening__in=[row.pk for row in others if row.is_series])
    found: dict[tuple[str, int], list[SkippedDay]] = {}
    for row in SkippedDay.objects.filter(of, on_date__range=(first, last)):
        key = ("slot", row.slot_id) if row.slot_id else ("other", row.happening_id or 0)
        found.setdefault(key, []).append(row)
    return found


def match_occasion(row: MatchDay) -> Occasion:
    return Occasion(
        MATCH,
        row.pk,
        row.on_date,
        row.on_date,
        row.starts_at,
        name=row.opponent,
        squad_id=row.squad_id,
        is_home=row.is_home,
        is_cancelled=row.cancelled_at is not None,
    )


def slot_occasions(row: GymSlot, skipped: Iterable[SkippedDay], first: date, last: date) -> Iterator[Occasion]:
    for day, is_cancelled in _days(row.series, skipped, first, last):
        yield Occasion(
            SLOT,
            row.pk,
            day,
            day,
            row.starts_at,
            row.minutes,
            place=row.venue.name,
            squad_id=row.squad_id,
            venue_id=row.venue_id,
            is_series=True,
            is_cancelled=is_cancelled,
        )


def occasions_of(row: Happening, skipped: Iterable[SkippedDay], first: date, last: date) -> Iterator[Occasion]:
    if row.is_series:
        days = [(day, day, is_cancelled) for day, is_cancelled in _days(row.series, skipped, first, last)]
    else:
        days = [(row.from_on, row.to_on or row.from_on, False)]
    for on_date, to_on, is_cancelled in days:
        yield Occasion(
            row.kind,
            row.pk,
            on_date,
            to_on,
            row.starts_at,
            row.minutes,
            row.name,
            row.place,
            squad_id=row.squad_id,
            athlete_id=row.athlete_id,
            is_series=row.is_series,
            is_cancelled=is_cancelled or row.cancelled_at is not None,
        )


def _days(series: Series, skipped: Iterable[SkippedDay], first: date, last: date) -> Iterator[tuple[date, bool]]:
    """Each day with whether it is called off; without those that moved elsewhere."""
    known = {row.on_date: row.is_cancelled for row in skipped}
    for day in days_of(series, first, last):
        if known.get(day, True):
            yield day, day in known


def feed_of(token: str) -> FeedLink | None:
    """The link that this token opens; None where it is unknown or taken back."""
    return FeedLink.objects.live().filter(token_hash=token_hash(token)).select_related("squad", "athlete").first()


def live_feed(*, squad: Squad | None = None, athlete: Athlete | None = None) -> FeedLink | None:
    of = Q(squad=squad) if squad is not None else Q(athlete=athlete)
    return FeedLink.objects.live().filter(of).first()


def squads_to_show(actor: Actor, squad_pk: str) -> tuple[list[Squad], Squad | None]:
    """Those that the actor may choose from, and which one is chosen."""
    squads = list(live_squads(actor))
    return squads, next((row for row in squads if str(row.pk) == squad_pk), None)
