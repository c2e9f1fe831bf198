"""What of an iCalendar file is kept: the few lines of its events that are asked for; the rest is never looked at.

Time zones that a file defines itself and alarms go unread: a rule in them could keep a machine busy for hours.
"""

from __future__ import annotations

import codecs
import re
from collections.abc import Iterator
from typing import BinaryIO, Final

from django.utils.translation import gettext as _

from coachhub.base.tables import MOST_BYTES, MOST_ROWS, TableError
from coachhub.base.tables.reading import too_large
from coachhub.base.tables.table import too_many_rows

_KEPT: Final = frozenset(
    {
        "UID",
        "DTSTART",
        "DTEND",
        "DURATION",
        "RRULE",
        "EXRULE",
        "RDATE",
        "EXDATE",
        "RECURRENCE-ID",
        "SUMMARY",
        "LOCATION",
        "STATUS",
        "CATEGORIES",
    }
)
_LONGEST: Final = 20_000
_FOLD: Final = re.compile(r"\r?\n[ \t]|\r[ \t]")
_LINE_END: Final = re.compile(r"\r\n|\n|\r")
_NAME: Final = re.compile(r"[A-Za-z0-9-]+")
_CONTROL: Final = re.compile("[\x00-\x08\x0e-\x1f]")


def is_calendar(file: BinaryIO) -> bool:
    file.seek(0)
    start = file.read(200).lstrip(codecs.BOM_UTF8)
    file.seek(0)
    text = start.decode("utf-16", "ignore") if start[:2] in (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE) else ""
    return (text or start.decode("latin-1")).lstrip().upper().startswith("BEGIN:VCALENDAR")


def event_lines(file: BinaryIO) -> tuple[list[list[str]], bool]:
    """The kept lines of each event, and whether the file had to be read as Windows-1252. TableError says what is wrong
    with the file as a whole."""
    data = file.read(MOST_BYTES + 1)
    if len(data) > MOST_BYTES:
        raise too_large()
    text, is_old = _decoded(data)
    events: list[list[str]] = []
    for event in _events(_FOLD.sub("", text)):
        if len(events) == MOST_ROWS:
            raise too_many_rows()
        events.append(event)
    if not events:
        raise TableError(_("The calendar file has no events."))
    return events, is_old


def _decoded(data: bytes) -> tuple[str, bool]:
    marked = data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE))
    for encoding in ("utf-16",) if marked else ("utf-8-sig", "cp1252"):
        try:
            text = data.decode(encoding)
        except UnicodeDecodeError:
            continue
        if not _CONTROL.search(text):
            return text, encoding == "cp1252"
    raise TableError(_("This is no calendar file of text. Export it again as iCalendar (.ics), in UTF-8."))


def _events(text: str) -> Iterator[list[str]]:
    """Of those that stand in a calendar and are closed; an alarm inside one is passed over."""
    inside: list[str] = []
    event: list[str] = []
    for line in _LINE_END.split(text):
        name = _name_of(line)
        if name == "BEGIN":
            inside.append(line.partition(":")[2].strip().upper())
            if inside[-1] == "VEVENT":
                event = []
        elif name == "END":
            if inside and inside.pop() == "VEVENT":
                yield event
        elif inside and inside[-1] == "VEVENT" and name in _KEPT:
            if len(line) > _LONGEST:
                raise TableError(_("A line of the file is far too long for a calendar."))
            event.append(line)


def _name_of(line: str) -> str:
    found = _NAME.match(line)
    return found.group().upper() if found else ""
