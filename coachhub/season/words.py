"""Dates of the calendar put into words, for desk and phone alike."""

from __future__ import annotations

from typing import Final

from django.utils.dates import WEEKDAYS
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from coachhub.coaching.series import HOLIDAY, MATCH, OTHER, SCHOOL, SLOT, SPORT, TEST, TRAINING, Occasion, Series
from coachhub.season.models import GymSlot, Happening

KIND_WORDS: Final = {
    MATCH: gettext_lazy("Match"),
    TRAINING: gettext_lazy("Training"),
    SLOT: gettext_lazy("Gym"),
    HOLIDAY: gettext_lazy("Holiday"),
    TEST: gettext_lazy("Test"),
    OTHER: gettext_lazy("Other date"),
    SCHOOL: gettext_lazy("School"),
    SPORT: gettext_lazy("Other sport"),
}


def summary_words(one: Occasion) -> str:
    """ "Match: Fen Gate, away", "Test: Jumps": what it is, without its place."""
    kind = str(KIND_WORDS[one.kind])
    if one.kind == MATCH:
        where = _("at home") if one.is_home else _("away")
        return f"{kind}: {one.name}, {where}" if one.name else f"{kind}, {where}"
    return f"{kind}: {one.name}" if one.name else kind


def what_words(one: Occasion) -> str:
    """The same with the place: "Gym: Mill Lane gym"."""
    if not one.place:
        return summary_words(one)
    return f"{summary_words(one)}, {one.place}" if one.name else f"{KIND_WORDS[one.kind]}: {one.place}"


def length_words(one: Occasion) -> str:
    return _("%(n)d min") % {"n": one.minutes} if one.minutes else ""


def time_words(one: Occasion) -> str:
    """ "18:00", with the minutes where they are known: "18:00, 90 min"."""
    start = f"{one.starts_at:%H:%M}" if one.starts_at else ""
    return ", ".join(text for text in (start, length_words(one)) if text)


def state_words(one: Occasion) -> str:
    """Why it does not take place; empty where it does."""
    return _("called off") if one.is_cancelled else _("off: holiday") if one.is_off else ""


def rule_words(row: Happening | GymSlot) -> str:
    """ "Monday, Wednesday, from 1 Sep 2026 – 31 May 2027"; of a single date its days, if there are several."""
    first = date_format(row.from_on, "j M Y")
    last = date_format(row.to_on, "j M Y") if row.to_on else _("until further notice")
    if not row.is_series:
        return f"{first} – {last}" if row.to_on and row.to_on != row.from_on else ""
    told = {"days": weekday_words(row.series), "first": first, "last": last}
    return _("%(days)s, from %(first)s – %(last)s") % told


def weekday_words(series: Series) -> str:
    days = ", ".join(str(WEEKDAYS[day]) for day in sorted(series.weekdays))
    if series.every_weeks == 1:
        return days
    return _("%(days)s every %(n)d weeks") % {"days": days, "n": series.every_weeks}
