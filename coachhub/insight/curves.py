"""An athlete's exercise over the months, as page and paper show it: plots, and beside each its figures."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from typing import Final

from django.utils.functional import Promise
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from coachhub.cards.words import number
from coachhub.insight.plots import Size, draw
from coachhub.insight.strands import Day, DoneSet, Dot, Strand, strands_of
from coachhub.insight.words import runs_text
from coachhub.library.models import LoadMeaning
from coachhub.science.units import Unit

# A year: older sets stay in the list of all sets.
CURVE_DAYS: Final = 365
_SCALES: Final[dict[str, str | Promise]] = {
    "kg": gettext_lazy("kg"),
    "lb": gettext_lazy("lb"),
    "pl": gettext_lazy("number of the plate"),
    "reps": gettext_lazy("repetitions"),
    "s": gettext_lazy("seconds"),
    "m": gettext_lazy("metres"),
    "cm": gettext_lazy("centimetres"),
}


@dataclass(frozen=True, slots=True)
class CurveRow:
    on_date: date
    sets: str
    best: str
    work: str


@dataclass(frozen=True, slots=True)
class Curve:
    """`title`: what the numbers mean. `work_plot` is empty where a day's sets do not add up to anything."""

    title: str
    sets_title: str
    sets_plot: SafeString
    work_title: str
    work_plot: str
    rows: tuple[CurveRow, ...]


def curves_of(sets: list[DoneSet], name: str, unit: Unit, size: Size) -> tuple[Curve, ...]:
    """Return a curve for each scale that the sets of the exercise `name` were done on; masses in `unit`."""
    return tuple(_curve(strand, name, size) for strand in strands_of(sets, unit))


def _curve(strand: Strand, name: str, size: Size) -> Curve:
    dots = [(dot.on_date, dot.value) for day in strand.days for dot in day.dots]
    best = [(day.on_date, day.best.value) for day in strand.days]
    work = [(day.on_date, day.work) for day in strand.days if day.work is not None and strand.work_scale]
    sets_title, work_title = _sets_title(strand), _work_title(strand)
    return Curve(
        title=title_of(strand),
        sets_title=sets_title,
        sets_plot=draw(label=_label(name, sets_title, dots), dots=dots, line=best, size=size),
        work_title=work_title,
        work_plot=draw(label=_label(name, work_title, work), dots=work, line=(), size=size) if work else "",
        rows=tuple(_row(strand, day) for day in reversed(strand.days)),
    )


def title_of(strand: Strand) -> str:
    """Return "Total with the bar", "Machine setting at Mill Lane gym", "Without a load"."""
    if not strand.meaning:
        return _("Without a load")
    meaning = str(LoadMeaning(strand.meaning).label).capitalize()
    return _("%(meaning)s at %(venue)s") % {"meaning": meaning, "venue": strand.venue} if strand.venue else meaning


def _sets_title(strand: Strand) -> str:
    told = {"scale": str(_SCALES[strand.scale])}
    return _("Each set, in %(scale)s") % told if strand.meaning else _("Each set: %(scale)s") % told


def _work_title(strand: Strand) -> str:
    if not strand.work_scale:
        return ""
    told = {"scale": str(_SCALES[strand.work_scale])}
    if strand.is_volume:
        return _("Volume of the day: load × repetitions, in %(scale)s") % told
    return _("All sets of the day: %(scale)s") % told


def _label(name: str, title: str, points: list[tuple[date, Decimal]]) -> str:
    days = len({on_date for on_date, _value in points})
    return _("%(name)s. %(title)s. %(days)s days; the figures are in the table.") % {
        "name": name,
        "title": title,
        "days": days,
    }


def _row(strand: Strand, day: Day) -> CurveRow:
    work = "" if day.work is None or not strand.work_scale else _work_text(strand, day.work)
    return CurveRow(day.on_date, runs_text(set_text(dot) for dot in day.dots), set_text(day.best), work)


def _work_text(strand: Strand, work: Decimal) -> str:
    whole = number(work.quantize(Decimal(1), ROUND_HALF_UP)) if strand.is_volume else number(work)
    return f"{whole} {strand.work_scale}" if strand.work_scale != "reps" else whole


def set_text(dot: Dot) -> str:
    """Return the set as it was seen, whatever unit the plot is in: "135 lb × 5", "2 × 12 kg × 8", "30 s"."""
    done = dot.done
    hands = "2 × " if done.meaning == LoadMeaning.PER_HAND else ""
    load = "" if done.load is None else f"{hands}{number(done.load.value)} {done.load.unit}"
    amounts = (
        "" if done.reps is None else str(done.reps),
        "" if done.time_s is None else f"{done.time_s} s",
        "" if done.distance_m is None else f"{number(done.distance_m)} m",
        "" if done.height_cm is None else f"{number(done.height_cm)} cm",
    )
    return " × ".join(text for text in (load, *amounts) if text)
