"""What one row of a table of bests says, and what is wrong with its cells."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from functools import partial
from typing import Final

from django.utils.translation import gettext as _

from coachhub.base.clock import today
from coachhub.base.columns import (
    UNIT_WORDS,
    CellError,
    Problems,
    RowReader,
    read_choice,
    read_number,
    read_whole,
    shown,
)
from coachhub.base.models import MassUnit
from coachhub.base.text import fold
from coachhub.cards.bests.columns import COLUMNS
from coachhub.cards.bests.known import Known, has_load, plain_name
from coachhub.cards.models import BestSource, most_load
from coachhub.library.models import Exercise
from coachhub.people.models import Athlete

_LEAST: Final = Decimal("0.25")
_MOST_REPS: Final = 30
_MOST_RIR: Final = 6

Load = tuple[Decimal, str]


@dataclass(frozen=True, slots=True)
class BestCells:
    """`reps`, `rir_half` and `source` are None where the row does not say."""

    pk: int | None
    athlete: Athlete
    exercise: Exercise
    load: Load
    reps: int | None
    rir_half: int | None
    on_date: date
    source: str | None


@dataclass(frozen=True, slots=True)
class BestRow:
    """`cells` None where something is wrong with them; `name` is whom and what the row is about, as far as it says."""

    number: int
    name: str
    cells: BestCells | None
    errors: tuple[str, ...]


def read_best(reader: RowReader, known: Known) -> BestRow:
    problems = Problems(reader, COLUMNS)
    athlete = problems.reading("athlete", partial(_athlete, reader, known), None)
    exercise = problems.reading("exercise", partial(_exercise, reader, known), None)
    load = problems.reading("load", partial(_load, reader), None)
    on_date = problems.reading("on_date", partial(_on_date, reader), None)
    pk = problems.reading("id", partial(_whole, reader, "id"), None)
    reps = problems.reading("reps", partial(_reps, reader), None)
    rir_half = problems.reading("rir", partial(_rir_half, reader), None)
    source = problems.reading("source", partial(_source, reader), None)
    cells = None
    if athlete and exercise and load and on_date and not problems.words:
        cells = BestCells(pk, athlete, exercise, load, reps, rir_half, on_date, source)
    name = " · ".join(str(part) for part in (athlete, exercise) if part)
    return BestRow(reader.row.number, name, cells, tuple(problems.words))


def _whole(reader: RowReader, key: str) -> int | None:
    text = reader.text(key)
    return read_whole(text) if text else None


def _athlete(reader: RowReader, known: Known) -> Athlete:
    """By id, else by name, in either order; the date of birth tells two of one name apart."""
    name = f"{reader.text('athlete')} {reader.text('family_name')}".strip()
    pk, born_on = _whole(reader, "athlete_id"), reader.day("born_on")
    if not name and pk is None:
        raise CellError(_("is missing"))
    found = known.by_name.get(plain_name(name), []) if name else list(known.athletes.values())
    found = [row for row in found if pk in {None, row.pk} and born_on in {None, row.born_on}]
    if not found:
        raise CellError(_("no athlete of yours is “%(name)s”") % {"name": shown(name or str(pk))})
    if len(found) > 1:
        raise CellError(_("several are called “%(name)s”; add the date of birth") % {"name": shown(name)})
    return found[0]


def _exercise(reader: RowReader, known: Known) -> Exercise:
    text = reader.text("exercise")
    if not text:
        raise CellError(_("is missing"))
    found = known.exercises.get(fold(text), [])
    if not found:
        raise CellError(_("the library has no “%(name)s”") % {"name": shown(text)})
    if len(found) > 1:
        words = ", ".join(row.name for row in found)
        raise CellError(_("“%(name)s” could be: %(words)s") % {"name": shown(text), "words": words})
    if not has_load(found[0]):
        raise CellError(_("%(name)s is done without a load") % {"name": found[0]})
    return found[0]


def _load(reader: RowReader) -> Load:
    """A unit behind the number goes before the unit's own column, and that before what was chosen for the file."""
    text = reader.text("load")
    if not text:
        raise CellError(_("is missing"))
    value, behind = read_number(text)
    unit = read_choice(behind or reader.text("unit") or reader.reading.unit, MassUnit, UNIT_WORDS)
    if value < _LEAST:
        raise CellError(_("must be more than nothing"))
    if value > most_load(unit):
        raise CellError(_("more than %(most)s %(unit)s: please check") % {"most": most_load(unit), "unit": unit})
    return value, unit


def _reps(reader: RowReader) -> int | None:
    reps = _whole(reader, "reps")
    if reps is not None and not 1 <= reps <= _MOST_REPS:
        raise CellError(_("go from 1 to 30"))
    return reps


def _rir_half(reader: RowReader) -> int | None:
    text = reader.text("rir")
    if not text:
        return None
    value, behind = read_number(text)
    if behind or value > _MOST_RIR or value * 2 != int(value * 2):
        raise CellError(_("go from 0 to 6 in halves"))
    return int(value * 2)


def _on_date(reader: RowReader) -> date:
    day = reader.day("on_date")
    if day is None:
        raise CellError(_("is missing"))
    if day > today():
        raise CellError(_("this day has not come yet"))
    return day


def _source(reader: RowReader) -> str | None:
    text = reader.text("source")
    return read_choice(text, BestSource) if text else None
