"""An iCalendar file (RFC 5545) as a table of dates: from there on it goes the way of any table."""

from __future__ import annotations

import hashlib
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta, tzinfo
from typing import Any, BinaryIO, Final

from django.utils import timezone
from django.utils.translation import gettext as _

from coachhub.base.tables import Row, Table, read_table
from coachhub.base.tables.table import tidy
from coachhub.season.files.columns import COLUMNS, DAY_CODES, KEYS, FileKind
from coachhub.season.files.ics_rules import RuleError, Start, as_local, weekly
from coachhub.season.files.ics_text import event_lines, is_calendar
from coachhub.season.models_dates import LONGEST_UID

_LONGEST_NAME: Final = 80
_UNREADABLE: Final = "?"


@dataclass
class Found:
    """One event by the keys of its cells. `of_day`: which day of its series it stands for."""

    cells: dict[str, str] = field(default_factory=dict)
    uid: str = ""
    of_day: date | None = None
    has_other_zone: bool = False


def read_dates(file: BinaryIO) -> Table:
    """A table from an iCalendar file, or whatever table the file holds itself; TableError says why it is not taken."""
    if not is_calendar(file):
        return read_table(file)
    lines, is_old = event_lines(file)
    zone = timezone.get_current_timezone()
    found = [_event(event, zone) for event in lines]
    _leave_out_moved(found)
    rows = tuple(Row(number, tuple(one.cells.get(key, "") for key in KEYS)) for number, one in enumerate(found, 1))
    return Table(tuple(str(column.label) for column in COLUMNS), rows, tuple(_remarks(found, is_old)))


def _remarks(found: Iterable[Found], is_old: bool) -> Iterable[str]:
    if is_old:
        yield _("The file is not in UTF-8; it was read as Windows-1252. Look at names with accents before you confirm.")
    if any(one.has_other_zone and one.cells.get("weekdays") for one in found):
        yield _("Some series are kept in another time zone. They stay at the club's time that they begin with.")
    if any(one.cells.get("weekdays") and not one.cells.get("to_on") for one in found):
        yield _("Some series have no end. They go on until you end them in the calendar.")


def _event(lines: list[str], zone: tzinfo) -> Found:
    from icalendar import Calendar

    text = "\r\n".join(["BEGIN:VCALENDAR", "BEGIN:VEVENT", *lines, "END:VEVENT", "END:VCALENDAR", ""])
    try:
        event: Any = Calendar.from_ical(text.encode()).walk("VEVENT")[0]
        return _read(event, zone)
    except (ValueError, TypeError, AttributeError, KeyError, IndexError, OverflowError):
        # Whatever else is odd about a line: this event is an error, the others are read.
        names = [line.partition(":")[2] for line in lines if line.upper().startswith("SUMMARY")]
        return Found({"from_on": _UNREADABLE, "name": tidy(" ".join(names))[:_LONGEST_NAME]})


def _read(event: Any, zone: tzinfo) -> Found:
    told = event.get("DTSTART")
    value = getattr(told, "dt", None)
    cells = {
        "name": _text(event.get("SUMMARY"))[:_LONGEST_NAME],
        "place": _text(event.get("LOCATION"))[:_LONGEST_NAME],
        "state": "cancelled" if _text(event.get("STATUS")).upper() == "CANCELLED" else "",
        "kind": _kind(event),
    }
    uid = _text(event.get("UID"))
    if not isinstance(value, date):
        return Found(cells | {"from_on": _text(told), "uid": _short(uid)}, uid)
    start = as_local(value, zone)
    has_other_zone = isinstance(value, datetime) and value.utcoffset() != _offset(value, zone)
    found = Found(cells, uid, _of_day(event, zone), has_other_zone)
    cells["uid"] = _short(f"{uid}/{found.of_day:%Y%m%d}" if uid and found.of_day else uid)
    cells |= _length(event, value, start, zone)
    if found.of_day is None:
        cells |= _rule(event, start, zone)
    return found


def _offset(value: datetime, zone: tzinfo) -> timedelta | None:
    return value.astimezone(zone).utcoffset() if value.tzinfo else None


def _short(uid: str) -> str:
    return uid if len(uid) <= LONGEST_UID else hashlib.sha256(uid.encode()).hexdigest()


def _text(value: Any) -> str:
    return tidy(str(value)) if value is not None else ""


def _kind(event: Any) -> str:
    told = event.get("CATEGORIES")
    names = {tidy(str(name)).lower() for name in getattr(told, "cats", ())}
    return next((kind for kind in FileKind.values if kind in names), "")


def _of_day(event: Any, zone: tzinfo) -> date | None:
    told = getattr(event.get("RECURRENCE-ID"), "dt", None)
    return as_local(told, zone).day if isinstance(told, date) else None


def _length(event: Any, value: date | datetime, start: Start, zone: tzinfo) -> dict[str, str]:
    """From when to when: by the clock, or whole days, of which the end is the day after (RFC 5545, 3.6.1)."""
    cells = {"from_on": start.day.isoformat(), "starts_at": f"{start.at:%H:%M}" if start.at else ""}
    end = getattr(event.get("DTEND"), "dt", None)
    span = getattr(event.get("DURATION"), "dt", None)
    if end is None and isinstance(span, timedelta):
        end = value + span
    if not isinstance(end, date):
        return cells
    if start.at is None or not isinstance(end, datetime) or not isinstance(value, datetime):
        last = as_local(end, zone).day - timedelta(days=1)
        return cells | ({"to_on": last.isoformat()} if last > start.day else {})
    minutes = (end - value) // timedelta(minutes=1) if (end.tzinfo is None) == (value.tzinfo is None) else 0
    if minutes > 24 * 60:
        return cells | {"to_on": as_local(end - timedelta(minutes=1), zone).day.isoformat()}
    return cells | ({"minutes": str(minutes)} if minutes else {})


def _rule(event: Any, start: Start, zone: tzinfo) -> dict[str, str]:
    rule = event.get("RRULE")
    if rule is None and event.get("RDATE") is None:
        return {}
    if rule is None or isinstance(rule, list) or event.get("RDATE") is not None or event.get("EXRULE") is not None:
        return {"weekdays": "RDATE" if event.get("RDATE") is not None else "RRULE", "to_on": ""}
    try:
        series = weekly(rule, start, zone)
    except RuleError as error:
        return {"weekdays": str(error), "to_on": ""}
    return {
        "weekdays": " ".join(DAY_CODES[day] for day in sorted(series.weekdays)),
        "every_weeks": str(series.every_weeks) if series.every_weeks > 1 else "",
        "to_on": series.to_on.isoformat() if series.to_on else "",
        "not_on": " ".join(sorted({day.isoformat() for day in _left_out(event, zone)})),
    }


def _left_out(event: Any, zone: tzinfo) -> Iterable[date]:
    told = event.get("EXDATE")
    for days in told if isinstance(told, list) else [told] if told is not None else []:
        for one in getattr(days, "dts", ()):
            yield as_local(one.dt, zone).day


def _leave_out_moved(found: list[Found]) -> None:
    """A day that the file tells of anew is no longer one of its series."""
    moved: defaultdict[str, set[str]] = defaultdict(set)
    for one in found:
        if one.uid and one.of_day:
            moved[one.uid].add(one.of_day.isoformat())
    for one in found:
        if one.of_day is None and one.cells.get("weekdays") and moved.get(one.uid):
            one.cells["not_on"] = " ".join(sorted({*one.cells.get("not_on", "").split(), *moved[one.uid]}))
