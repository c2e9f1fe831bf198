"""Rows and days that the calendar's tests share: a Monday, and what a squad has from there on."""

from __future__ import annotations

from datetime import date, time
from typing import Any

from coachhub.people.models import Squad
from coachhub.season.models import GymSlot, Happening
from tests.cast import Cast

MONDAY = date(2026, 11, 30)
SUNDAY = date(2026, 12, 20)


def training(squad: Squad, **more: Any) -> Happening:
    """On Mondays and Wednesdays at 18:00, without end."""
    values = {"kind": "training", "from_on": MONDAY, "weekdays": 5, "starts_at": time(18), "minutes": 90, **more}
    return Happening.objects.create(squad=squad, **values)


def slot(cast: Cast, **more: Any) -> GymSlot:
    """On Tuesdays at 17:00."""
    values = {"weekday": 1, "starts_at": time(17), "minutes": 60, "from_on": MONDAY, **more}
    return GymSlot.objects.create(squad=cast.squad, venue=cast.venue, **values)
