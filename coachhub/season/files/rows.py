"""What one row of a table of dates says, and what is wrong with its cells."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, time
from functools import partial
from typing import Final

from django.utils.translation import gettext as _

from coachhub.base.columns import CellError, Problems, RowReader, read_choice, read_day, read_whole, shown
from coachhub.base.text import fold
from coachhub.coaching.series import Series, has_days
from coachhub.season.files.columns import COLUMNS, DAY_CODES, FileKind, FileState
from coachhub.season.models import Weekday

_LONGEST: Final = {"name": 80, "place": 80, "uid": 200}
_LONGEST_DAYS: Final = 366
_YES: Final = frozenset({"yes", "y", "1", "true", "home", "h", "x"})
_NO: Final = frozenset({"no", "n", "0", "false", "away", "a"})


@dataclass(frozen=True, slots=True)
class DateCells:
    """What the row says; `is_home` and `is_cancelled` None where it says nothing of it."""

    number: int
    kind: str
    squad: int
    name: str
    place: str
    from_on: date | None
    to_on: date | None
    starts_at: time | None
    minutes: int | None
    weekdays: tuple[int, ...]
    every_weeks: int
    not_on: tuple[date, ...]
    is_home: bool | None
    is_cancelled: bool | None
    uid: str
    errors: tuple[str, ...]


def read_date_row(reader: RowReader, squads: Mapping[str, int]) -> DateCells:
    """`squads` by their folded names."""
    problems = Problems(reader, COLUMNS)
    cells = DateCells(
        number=reader.row.number,
        kind=problems.reading("kind", partial(_kind, reader), ""),
        squad=problems.reading("squad", partial(_squad, reader, squads), 0),
        name=problems.reading("name", partial(_text, reader, "name"), ""),
        place=problems.reading("place", partial(_text, reader, "place"), ""),
        from_on=problems.reading("from_on", partial(_first_day, reader), None),
        to_on=problems.reading("to_on", partial(reader.day, "to_on"), None),
        starts_at=problems.reading("starts_at", partial(_time, reader), None),
        minutes=problems.reading("minutes", partial(_minutes, reader), None),
        weekdays=problems.reading("weekdays", partial(_weekdays, reader), ()),
        every_weeks=problems.reading("every_weeks", partial(_every_weeks, reader), 1),
        not_on=problems.reading("not_on", partial(_not_on, reader), ()),
        is_home=problems.reading("is_home", partial(_yes_or_no, reader), None),
        is_cancelled=problems.reading("state", partial(_is_cancelled, reader), None),
        uid=problems.reading("uid", partial(_text, reader, "uid"), ""),
        errors=(),
    )
    if not problems.words:
        problems.reading("to_on", partial(_check, cells), None)
    return replace(cells, errors=tuple(problems.words))


def _check(cells: DateCells) -> None:
    """What stands against the cells together."""
    if cells.from_on is None:
        raise CellError(_("is missing"))
    if cells.to_on is not None and cells.to_on < cells.from_on:
        raise CellError(_("lies before the first day"))
    if cells.kind == FileKind.MATCH and (cells.weekdays or (cells.to_on or cells.from_on) > cells.from_on):
        raise CellError(_("a match is on one day; give each match its own row"))
    series = Series(frozenset(cells.weekdays), cells.from_on, cells.to_on, cells.every_weeks)
    if cells.weekdays and not has_days(series):
        raise CellError(_("the series has no day before it"))
    if not cells.weekdays and cells.to_on is not None and (cells.to_on - cells.from_on).days >= _LONGEST_DAYS:
        raise CellError(_("longer than a year; please check the dates"))


def _kind(reader: RowReader) -> str:
    text = reader.text("kind")
    if text:
        return read_choice(text, FileKind)
    if not reader.reading.what:
        raise CellError(_("is missing; choose what such rows are, one step back"))
    return reader.reading.what


def _squad(reader: RowReader, squads: Mapping[str, int]) -> int:
    text = reader.text("squad")
    if text:
        found = squads.get(fold(text))
        if found is None:
            raise CellError(_("no squad of yours is called “%(name)s”") % {"name": shown(text)})
        return found
    if reader.reading.squad not in squads.values():
        raise CellError(_("is missing; choose one for such rows, one step back"))
    return int(reader.reading.squad or 0)


def _text(reader: RowReader, key: str) -> str:
    text = reader.text(key)
    if len(text) > _LONGEST[key]:
        raise CellError(_("longer than %(most)s letters") % {"most": _LONGEST[key]})
    return text


def _first_day(reader: RowReader) -> date:
    day = reader.day("from_on")
    if day is None:
        raise CellError(_("is missing"))
    if not 1990 <= day.year <= 2200:
        raise CellError(_("please check the year"))
    return day


def _time(reader: RowReader) -> time | None:
    text = reader.text("starts_at")
    if not text:
        return None
    try:
        hour, minute = (int(part) for part in text.replace(".", ":").replace("h", ":").split(":")[:2])
        return time(hour, minute)
    except ValueError:
        raise CellError(_("“%(text)s” is no time such as 18:30") % {"text": shown(text)}) from None


def _minutes(reader: RowReader) -> int | None:
    text = reader.text("minutes")
    if not text:
        return None
    minutes = read_whole(text)
    if not 5 <= minutes <= 1440:
        raise CellError(_("5 to 1440, please"))
    return minutes


def _weekdays(reader: RowReader) -> tuple[int, ...]:
    """ "mo we", "Monday, Wednesday"; anything else is said as it stands, because it may be a rule from a calendar."""
    text = reader.text("weekdays")
    words = [fold(word) for word in text.replace(",", " ").replace(";", " ").split()]
    known = {code: day for day, code in enumerate(DAY_CODES)} | {fold(str(day.label)): day.value for day in Weekday}
    known |= {word[:3]: day for word, day in known.items() if len(word) > 3}
    if not set(words) <= set(known):
        told = {"text": shown(text)}
        raise CellError(_("“%(text)s” cannot be read as days of every week; enter its days by hand") % told)
    return tuple(sorted({known[word] for word in words}))


def _every_weeks(reader: RowReader) -> int:
    text = reader.text("every_weeks")
    weeks = read_whole(text) if text else 1
    if not 1 <= weeks <= 8:
        raise CellError(_("1 to 8, please"))
    return weeks


def _not_on(reader: RowReader) -> tuple[date, ...]:
    words = reader.text("not_on").replace(",", " ").replace(";", " ").split()
    return tuple(sorted({read_day(word, reader.reading.day_order) for word in words}))


def _yes_or_no(reader: RowReader) -> bool | None:
    text = fold(reader.text("is_home"))
    if text in _YES or text in _NO:
        return text in _YES
    if text:
        raise CellError(_("yes or no, please"))
    return None


def _is_cancelled(reader: RowReader) -> bool | None:
    text = reader.text("state")
    return read_choice(text, FileState) == FileState.CANCELLED if text else None
