"""The tables that can be imported, each with its words, its review and its verb."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, Final

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from coachhub.base.actor import Actor
from coachhub.base.changes import Outcome
from coachhub.base.columns import Column, Reading
from coachhub.base.tables import Table
from coachhub.cards.actions import import_bests
from coachhub.cards.bests.changes import review_bests
from coachhub.cards.bests.columns import COLUMNS as BEST_COLUMNS
from coachhub.cards.bests.export import best_lines
from coachhub.people.actions import import_roster
from coachhub.people.forms_files import TableFileForm
from coachhub.people.models import ImportKind, Squad
from coachhub.people.roster.changes import review_roster
from coachhub.people.roster.columns import COLUMNS as ROSTER_COLUMNS
from coachhub.people.roster.export import roster_lines
from coachhub.season.actions.files import import_dates
from coachhub.season.files.changes import review_dates
from coachhub.season.files.columns import COLUMNS as SEASON_COLUMNS
from coachhub.season.files.columns import FileKind
from coachhub.season.files.export import date_lines
from coachhub.season.forms_files import DatesFileForm


@dataclass(frozen=True, slots=True)
class ImportSort:
    """`day_key`: the column whose days show how this file writes dates. `whats`: what a row may be that does not say.
    `has_doubts`: whether rows may have to be ticked first.

    `upload`, `csv`, `xlsx`, `done`: names of addresses.
    """

    kind: ImportKind
    title: str | Promise
    intro: str | Promise
    columns: Sequence[Column]
    day_key: str
    review: Callable[[Actor, Table, Reading], Sequence[Outcome[Any]]]
    write: Callable[..., dict[str, int]]
    lines: Callable[[Actor, Squad | None], list[list[str]]]
    file_name: str
    upload: str
    csv: str
    xlsx: str
    done: str = "desk:athletes"
    form: type[TableFileForm] = TableFileForm
    whats: Sequence[tuple[str, str | Promise]] = ()
    has_doubts: bool = False


SORTS: Final = {
    ImportKind.ROSTER: ImportSort(
        kind=ImportKind.ROSTER,
        title=_("Import athletes"),
        intro=_(
            "Who is known by name and date of birth is updated, everyone else is added. "
            "Nothing is written before you have seen what would change."
        ),
        columns=ROSTER_COLUMNS,
        day_key="born_on",
        review=review_roster,
        write=import_roster,
        lines=roster_lines,
        file_name="athletes",
        upload="desk:roster_upload",
        csv="desk:roster_csv",
        xlsx="desk:roster_xlsx",
    ),
    ImportKind.BESTS: ImportSort(
        kind=ImportKind.BESTS,
        title=_("Import known bests"),
        intro=_(
            "One row for each best set: who, which exercise, how much, when. Without reps it counts as one repetition. "
            "Nothing is written before you have seen what would change."
        ),
        columns=BEST_COLUMNS,
        day_key="on_date",
        review=review_bests,
        write=import_bests,
        lines=best_lines,
        file_name="known-bests",
        upload="desk:bests_upload",
        csv="desk:bests_csv",
        xlsx="desk:bests_xlsx",
        has_doubts=True,
    ),
    ImportKind.SEASON: ImportSort(
        kind=ImportKind.SEASON,
        title=_("Import dates"),
        intro=_(
            "Matches, trainings, holidays and tests from a calendar file (.ics) or a table, one row for each. The same "
            "file again updates what it brought. Nothing is written before you have seen what would change."
        ),
        columns=SEASON_COLUMNS,
        day_key="from_on",
        review=review_dates,
        write=import_dates,
        lines=date_lines,
        file_name="calendar",
        upload="desk:season_upload",
        csv="desk:season_csv",
        xlsx="desk:season_xlsx",
        done="desk:season",
        form=DatesFileForm,
        whats=FileKind.choices,
    ),
}
