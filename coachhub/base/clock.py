"""The one place that knows what "now" and "today" mean: instants in UTC, days in the club's zone."""

from __future__ import annotations

from datetime import date, datetime

from django.utils import timezone


def now() -> datetime:
    return timezone.now()


def today() -> date:
    return timezone.localdate()
