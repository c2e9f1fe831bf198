"""One date of the calendar: what it is, and what can be done with it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.http import Http404
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.utils.translation import ngettext

from coachhub.base.actor import Actor
from coachhub.cards.queries.extra import Extra, extra_for, is_recent
from coachhub.coaching.fitting import HARDLY_PLAYED_MINUTES, hardly_played
from coachhub.coaching.series import Occasion
from coachhub.desk.pages.calendar_edit import after_date, season_url
from coachhub.desk.pages.calendar_season import day_of
from coachhub.people.models import Athlete
from coachhub.season.access import may_write_athlete, may_write_squad
from coachhub.season.actions import Dated, Scope
from coachhub.season.models import GymSlot, Happening, MatchDay, MatchMinutes
from coachhub.season.queries import match_occasion, occasions_of, slot_occasions
from coachhub.season.words import rule_words, state_words, time_words, what_words


@dataclass(frozen=True, slots=True)
class DatePage:
    """One day of a gym slot or a happening. `area` begins the names of its addresses."""

    row: Dated
    area: str
    on: date
    what: str
    when: str
    rule: str
    whose: str
    state: str
    back_url: str
    may_write: bool

    @classmethod
    def of(cls, actor: Actor, row: Dated, on: date) -> DatePage:
        one = occasion_on(row, on)
        athlete = row.athlete if isinstance(row, Happening) else None
        may = may_write_athlete(actor, athlete.pk) if athlete else may_write_squad(actor, row.squad_id)
        return cls(
            row=row,
            area="slot" if isinstance(row, GymSlot) else "happening",
            on=on,
            what=what_words(one),
            when=time_words(one),
            rule=rule_words(row),
            whose=str(athlete or row.squad),
            state=state_words(one),
            back_url=after_date(row, on),
            may_write=may,
        )

    @property
    def change_one(self) -> str:
        return self._url("change", scope=Scope.ONE.value)

    @property
    def change_from(self) -> str:
        return self._url("change", scope=Scope.FROM.value)

    @property
    def off(self) -> str:
        return self._url("off")

    def _url(self, what: str, **more: str) -> str:
        return reverse(f"desk:{self.area}_{what}", kwargs={"pk": self.row.pk, "on": self.on.isoformat(), **more})


def occasion_on(row: Dated, on: date) -> Occasion:
    """404 for a day that it does not have, or that has moved."""
    skipped = row.skipped_days.filter(on_date=on)
    days = slot_occasions(row, skipped, on, on) if isinstance(row, GymSlot) else occasions_of(row, skipped, on, on)
    for one in days:
        if one.covers(on):
            return one
    raise Http404


def find_dated(actor: Actor, area: str, pk: int, on: str) -> tuple[Dated, date]:
    """404 for what the actor does not see, and for a day that is none."""
    day = day_of(on)
    if day is None:
        raise Http404
    if area == "slot":
        return get_object_or_404(GymSlot.objects.visible_to(actor).select_related("squad", "venue"), pk=pk), day
    seen = Happening.objects.visible_to(actor).select_related("squad", "athlete")
    return get_object_or_404(seen, pk=pk), day


def find_match(actor: Actor, pk: int) -> MatchDay:
    return get_object_or_404(MatchDay.objects.visible_to(actor).select_related("squad"), pk=pk)


@dataclass(frozen=True, slots=True)
class PlayedLine:
    name: str
    minutes: int | None


@dataclass(frozen=True, slots=True)
class MatchPage:
    match: MatchDay
    what: str
    state: str
    lines: list[PlayedLine]
    back_url: str
    may_write: bool
    extra: Extra | None = None

    @classmethod
    def of(cls, actor: Actor, match: MatchDay) -> MatchPage:
        played = played_in(match)
        athletes = athletes_of(match)
        may_write = may_write_squad(actor, match.squad_id)
        return cls(
            match=match,
            what=what_words(match_occasion(match)),
            state=state_words(match_occasion(match)),
            lines=[PlayedLine(athlete.name, played.get(athlete.pk)) for athlete in athletes],
            back_url=season_url(match.squad_id, match.on_date),
            may_write=may_write,
            extra=extra_for(actor, match, played) if may_write and hardly_played(played) and is_recent(match) else None,
        )

    @property
    def extra_words(self) -> str:
        """ "5 athletes played under 20 minutes"; empty where nobody did, or it is long ago."""
        n = len(self.extra.athletes) if self.extra else 0
        words = ngettext("%(n)d athlete played under %(m)d minutes", "%(n)d athletes played under %(m)d minutes", n)
        return words % {"n": n, "m": HARDLY_PLAYED_MINUTES} if n else ""

    @property
    def has_minutes(self) -> bool:
        return any(line.minutes is not None for line in self.lines)


def played_in(match: MatchDay) -> dict[int, int]:
    return dict(MatchMinutes.objects.filter(match_day=match).values_list("athlete_id", "minutes"))


def athletes_of(match: MatchDay) -> list[Athlete]:
    """The squad's members on that day, by name."""
    return list(Athlete.objects.members_of(match.squad_id, match.on_date))


def athletes_to_note(actor: Actor, match: MatchDay) -> list[Athlete]:
    """Of those, whom the actor sees today."""
    seen = Athlete.objects.visible_to(actor).live()
    return list(seen.filter(pk__in=[athlete.pk for athlete in athletes_of(match)]))
