"""Sets that count, one after another, for files of any length: only one card at a time stands in memory."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import groupby
from typing import Any, Final

from django.db.models import OuterRef, QuerySet, Subquery

from coachhub.base.actor import Actor
from coachhub.cards.models import SetEntry, SetMark
from coachhub.coaching.entries import counting
from coachhub.people.models import Athlete, Squad

LOG_COLUMNS: Final = (
    "pk", "uuid", "supersedes_uuid", "seq", "kind", "card_id", "line_key", "round", "side", "on_date", "reps",
    "time_s", "distance_m", "height_cm", "load_value", "load_unit", "load_kg", "rir_half", "athlete__given_name",
    "athlete__family_name", "venue__name", "line__label", "line__position", "line__name", "line__load_meaning",
    "card__assignment__session__name", "quality",
)  # fmt: skip
_ROWS_A_FETCH: Final = 2000
_SIDES: Final = {"both": 0, "left": 1, "right": 2}


def done_by(athlete: Athlete) -> Iterator[Any]:
    """Return the athlete's sets as named tuples of `LOG_COLUMNS`, oldest first."""
    return _counting(SetEntry.objects.filter(athlete=athlete))


def done_in_squad(actor: Actor, squad: Squad, first: date, last: date) -> Iterator[Any]:
    """Return the sets done in the squad's sessions of those days, by athletes that the actor sees."""
    mine = Athlete.objects.visible_to(actor)
    return _counting(
        SetEntry.objects.filter(card__assignment__squad=squad, on_date__range=(first, last), athlete__in=mine)
    )


def _counting(entries: QuerySet[SetEntry]) -> Iterator[Any]:
    marks = SetMark.objects.filter(entry=OuterRef("pk")).order_by("-pk")
    rows = (
        entries.annotate(quality=Subquery(marks.values("quality")[:1]))
        .order_by("card__assignment__on_date", "athlete__search_key", "card", "pk")
        .values_list(*LOG_COLUMNS, named=True)
    )
    for _card, own in groupby(rows.iterator(chunk_size=_ROWS_A_FETCH), key=lambda row: row.card_id):
        facts = [counted.fact for counted in counting(own).values()]
        yield from sorted(facts, key=lambda row: (row.line__position, row.round, _SIDES[row.side]))
