"""Sets as lines of a table for a spreadsheet. Without notes: they may speak of health."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from typing import Any

from django.utils.translation import gettext as _

from coachhub.base.tables import Cell
from coachhub.cards.models import EntryKind, EntrySide, SetQuality
from coachhub.library.models import LoadMeaning


def head() -> tuple[str, ...]:
    return (
        _("Date"), _("Athlete"), _("Session"), _("Venue"), _("Line"), _("Exercise"), _("Round"), _("Side"), _("Set"),
        _("Repetitions"), _("Seconds"), _("Metres"), _("Centimetres"), _("Load"), _("Unit"), _("Load in kg"),
        _("The load means"), _("In reserve"), _("Seen"),
    )  # fmt: skip


def log_lines(rows: Iterable[Any]) -> Iterator[Sequence[Cell]]:
    """Return the heading and a line for each of `rows` (named tuples of `queries.LOG_COLUMNS`)."""
    yield head()
    words = {
        code: str(label) for kinds in (EntryKind, EntrySide, SetQuality, LoadMeaning) for code, label in kinds.choices
    }
    for row in rows:
        yield _line(row, words)


def _line(row: Any, words: dict[str, str]) -> Sequence[Cell]:
    is_mass = row.load_value is not None and row.load_unit != "pl"
    return (
        row.on_date.isoformat(),
        f"{row.athlete__given_name} {row.athlete__family_name}".strip(),
        row.card__assignment__session__name,
        row.venue__name,
        row.line__label,
        row.line__name,
        row.round,
        "" if row.side == EntrySide.BOTH else words[row.side],
        words[row.kind],
        _figure(row.reps),
        _figure(row.time_s),
        _figure(row.distance_m),
        _figure(row.height_cm),
        _figure(row.load_value),
        row.load_unit,
        _figure(row.load_kg if is_mass else None),
        words[row.line__load_meaning] if row.load_value is not None else "",
        _figure(None if row.rir_half is None else Decimal(row.rir_half) / 2),
        words[row.quality] if row.quality else "",
    )


def _figure(value: int | Decimal | None) -> Cell:
    if value is None:
        return ""
    return int(value) if value == int(value) else Decimal(value).normalize()
