"""The sets of one athlete in one exercise, as far as a curve needs them."""

from __future__ import annotations

from datetime import date
from typing import Any, Final, cast

from django.db.models import Exists, OuterRef

from coachhub.cards.models import EntryKind, EntrySide, SetEntry
from coachhub.coaching.entries import counting
from coachhub.coaching.facts import Mass
from coachhub.insight.strands import DoneSet
from coachhub.plans.models import Per

_COLUMNS: Final = (
    "pk", "uuid", "supersedes_uuid", "seq", "kind", "card_id", "line_key", "round", "side", "on_date", "venue_id",
    "venue__name", "reps", "time_s", "distance_m", "height_cm", "load_value", "load_unit", "line__load_meaning",
    "line__per", "line__directions",
)  # fmt: skip


def sets_done(athlete_id: int, exercise_id: int, since: date) -> list[DoneSet]:
    """Return every done set that counts, from that day on, oldest first. One query."""
    newer = SetEntry.objects.filter(supersedes_uuid=OuterRef("uuid"), card=OuterRef("card"))
    rows = SetEntry.objects.filter(~Exists(newer), athlete=athlete_id, exercise=exercise_id, on_date__gte=since)
    by_card: dict[int, list[Any]] = {}
    for row in rows.order_by("on_date", "card", "pk").values_list(*_COLUMNS, named=True):
        by_card.setdefault(row.card_id, []).append(row)
    counted = [c.fact for own in by_card.values() for c in counting(own).values()]
    done = [fact for fact in counted if fact.kind == EntryKind.DONE]
    return [_done(fact) for fact in sorted(done, key=lambda fact: (fact.on_date, fact.card_id, fact.round, fact.pk))]


def _done(row: Any) -> DoneSet:
    is_both_at_once = row.line__per == Per.SIDE and row.side == EntrySide.BOTH
    ways = max(len(row.line__directions), 1) if row.line__per == Per.DIRECTION else 1
    return DoneSet(
        on_date=row.on_date,
        venue_id=row.venue_id,
        venue=row.venue__name,
        meaning=row.line__load_meaning,
        load=None if row.load_value is None else Mass(row.load_value, cast(Any, row.load_unit)),
        reps=row.reps,
        time_s=row.time_s,
        distance_m=row.distance_m,
        height_cm=row.height_cm,
        times=ways * (2 if is_both_at_once else 1),
    )
