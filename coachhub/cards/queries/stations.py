"""Who is at which station, what each lifts first from the bar, and who is kept together or apart."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from typing import Any

from django.db.models import Exists, OuterRef, Q, QuerySet, Subquery, Sum

from coachhub.base.actor import Actor
from coachhub.cards.models import (
    Assignment,
    Attendance,
    AttendanceStatus,
    BarHeight,
    Card,
    CardLine,
    LineStatus,
    PairWish,
    StationPlace,
    WishKind,
)
from coachhub.coaching.facts import Mass
from coachhub.coaching.partners import Lifter, Wishes
from coachhub.library.models import Equipment, EquipmentNeed, StockBar, StockItem, Venue


@dataclass(frozen=True, slots=True)
class StationRow:
    """`load` and `exercise`: the first line with a bar that is still planned; None and empty without one."""

    card_id: int
    athlete_id: int
    name: str
    exercise_id: int | None
    exercise: str
    load: Mass | None
    hole: int | None
    station: int | None
    is_absent: bool

    @property
    def lifter(self) -> Lifter:
        return Lifter(self.card_id, self.exercise_id, self.load.kg if self.load else None, self.hole)


def station_rows(actor: Actor, assignment: Assignment) -> list[StationRow]:
    """By name, for every card that the actor may change; one query."""
    lines = CardLine.objects.filter(
        revision__card=OuterRef("pk"),
        revision__number=OuterRef("revision_number"),
        status=LineStatus.PLANNED,
        load_meaning="bar_total",
    ).order_by("position", "pk")
    heights = BarHeight.objects.filter(
        athlete=OuterRef("athlete"), exercise=OuterRef("exercise_id"), venue=OuterRef("assignment__venue")
    )
    rows = (
        Card.objects.editable_by(actor)
        .filter(assignment=assignment)
        .select_related("athlete")
        .annotate(
            exercise_id=Subquery(lines.values("exercise")[:1]),
            exercise=Subquery(lines.values("name")[:1]),
            load_value=Subquery(lines.values("load_value")[:1]),
            load_unit=Subquery(lines.values("load_unit")[:1]),
            hole=Subquery(heights.order_by("-pk").values("hole")[:1]),
            station=Subquery(_newest(StationPlace.objects.all(), "number")),
            attendance_status=Subquery(_newest(Attendance.objects.all(), "status")),
        )
        .order_by("athlete__search_key", "pk")
    )
    return [_row(card) for card in rows]


def stations_at(assignment: Assignment, rows: Collection[StationRow]) -> int | None:
    """Return how many stations the venue has for what these lift first: racks if any of it needs one, else bars.

    None where nobody lifts from a bar, or the stock counts none. One query.
    """
    exercises = {row.exercise_id for row in rows if row.exercise_id}
    if not exercises:
        return None
    racks = StockItem.objects.filter(kind=Equipment.RACK)
    needs = EquipmentNeed.objects.filter(exercise__in=exercises, kind=Equipment.RACK)
    venue = Venue.objects.filter(pk=assignment.venue_id)
    racks_there, bars_there, is_rack = venue.values_list(
        Subquery(_sum(racks)), Subquery(_sum(StockBar.objects.all())), Exists(needs)
    ).get()
    standing: int | None = racks_there if is_rack else bars_there
    return standing


def _sum(rows: QuerySet[Any]) -> QuerySet[Any, Any]:
    sums: QuerySet[Any, Any] = rows.filter(venue=OuterRef("pk")).order_by().values("venue").annotate(n=Sum("count"))
    return sums.values("n")


def _newest(rows: QuerySet[Any], column: str) -> QuerySet[Any, Any]:
    return rows.filter(card=OuterRef("pk")).order_by("-pk").values(column)[:1]


def _row(card: Any) -> StationRow:
    return StationRow(
        card_id=card.pk,
        athlete_id=card.athlete_id,
        name=card.athlete.name,
        exercise_id=card.exercise_id,
        exercise=card.exercise or "",
        load=None if card.load_value is None else Mass(card.load_value, card.load_unit),
        hole=card.hole,
        station=card.station,
        is_absent=card.attendance_status == AttendanceStatus.ABSENT,
    )


def wishes_among(athlete_ids: Collection[int]) -> list[PairWish]:
    """Return what stands between two of them, oldest first."""
    both = Q(athlete__in=athlete_ids, other__in=athlete_ids)
    return list(PairWish.objects.standing().filter(both).select_related("athlete", "other").order_by("pk"))


def wishes_by_card(rows: Collection[StationRow], wishes: Collection[PairWish]) -> Wishes:
    """Return the wishes as pairs of cards."""
    cards = {row.athlete_id: row.card_id for row in rows}
    kinds: dict[str, set[frozenset[int]]] = {WishKind.TOGETHER: set(), WishKind.APART: set()}
    for wish in wishes:
        if wish.athlete_id in cards and wish.other_id in cards:
            kinds[wish.kind].add(frozenset((cards[wish.athlete_id], cards[wish.other_id])))
    return Wishes(frozenset(kinds[WishKind.TOGETHER]), frozenset(kinds[WishKind.APART]))
