"""A recurrence rule of iCalendar as a weekly series: what sports calendars hold. Anything else is said, not guessed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta, tzinfo
from typing import Any, Final

from coachhub.coaching.series import WEEK, Series, last_day_of
from coachhub.season.files.columns import DAY_CODES

MOST_COUNTED: Final = 5000
MOST_WEEKS: Final = 8
_KNOWN: Final = frozenset({"FREQ", "INTERVAL", "BYDAY", "COUNT", "UNTIL", "WKST"})


class RuleError(Exception):
    """The rule, as the file has it: no weekly series."""


@dataclass(frozen=True, slots=True)
class Start:
    """The first day in the club's zone; `shift`: days between it and the file's own date in another zone."""

    day: date
    at: time | None
    shift: int = 0


def as_local(value: date | datetime, zone: tzinfo) -> Start:
    """A time of another zone by the club's clock; one without a zone, and a whole day, as it stands."""
    if not isinstance(value, datetime):
        return Start(value, None)
    local = value.astimezone(zone) if value.tzinfo else value
    return Start(
        local.date(), local.time().replace(second=0, microsecond=0, tzinfo=None), (local.date() - value.date()).days
    )


def weekly(rule: Any, start: Start, zone: tzinfo) -> Series:
    """Source: RFC 5545, 3.3.10. RuleError for a rule that is no weekly one, with the rule in its words."""
    parts = {str(key).upper(): value for key, value in rule.items()}
    said = rule.to_ical().decode()
    interval = _whole(parts, "INTERVAL", 1)
    freq = str(_one(parts, "FREQ") or "").upper()
    if freq == "DAILY" and interval % WEEK == 0:
        freq, interval = "WEEKLY", interval // WEEK
    is_daily = freq == "DAILY" and interval == 1
    if not (freq == "WEEKLY" or is_daily) or not 1 <= interval <= MOST_WEEKS or set(parts) - _KNOWN:
        raise RuleError(said)
    days = _weekdays(parts, start, said, is_daily=is_daily)
    if interval > 1 and len(days) > 1 and str(_one(parts, "WKST") or "MO").upper() != "MO":
        raise RuleError(said)
    series = Series(days, start.day, None, interval)
    return replace(series, to_on=_last_day(parts, series, start, zone, said))


def _weekdays(parts: dict[str, Any], start: Start, said: str, *, is_daily: bool) -> frozenset[int]:
    told = [str(code).lower() for code in parts.get("BYDAY", ())]
    if not told:
        return frozenset(range(WEEK)) if is_daily else frozenset([start.day.weekday()])
    if not set(told) <= set(DAY_CODES):
        raise RuleError(said)
    return frozenset((DAY_CODES.index(code) + start.shift) % WEEK for code in told)


def _last_day(parts: dict[str, Any], series: Series, start: Start, zone: tzinfo, said: str) -> date | None:
    count = _whole(parts, "COUNT", 0)
    if count > MOST_COUNTED or ("COUNT" in parts and count < 1):
        raise RuleError(said)
    if count:
        return last_day_of(series, count)
    until = _one(parts, "UNTIL")
    if not isinstance(until, date):
        return None
    end = as_local(until, zone)
    # An end in the middle of a day may lie before that day's start.
    if end.at is not None and start.at is not None and end.at < start.at:
        return end.day - timedelta(days=1)
    return end.day


def _one(parts: dict[str, Any], name: str) -> Any:
    value = parts.get(name)
    return value[0] if isinstance(value, list) and value else value


def _whole(parts: dict[str, Any], name: str, otherwise: int) -> int:
    value = _one(parts, name)
    return int(value) if value is not None else otherwise
