"""Who shares a station: proposed by load, rack hole and wishes, decided by the coach."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.forms import BoundField
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from coachhub.base.actor import Actor
from coachhub.cards.forms_stations import StationsForm, WishForm
from coachhub.cards.models import Assignment, PairWish
from coachhub.cards.queries.stations import StationRow, station_rows, stations_at, wishes_among, wishes_by_card
from coachhub.cards.words import mass_text
from coachhub.coaching.partners import partners
from coachhub.desk.pages.cards_assignment import changeable_assignment


@dataclass(frozen=True, slots=True)
class PartnerRow:
    row: StationRow
    lift: str
    station: BoundField
    hole: BoundField | None


@dataclass(frozen=True, slots=True)
class PartnersPage:
    """`is_proposed`: what stands in the fields is a proposal that nobody has taken yet.

    `crowd`: that its groups are more than the venue has stations; else empty.
    """

    row: Assignment
    form: StationsForm
    wish_form: WishForm
    rows: tuple[PartnerRow, ...]
    wishes: tuple[PairWish, ...]
    is_proposed: bool
    crowd: str

    @classmethod
    def of(
        cls,
        actor: Actor,
        pk: int,
        *,
        data: object = None,
        wish_data: object = None,
        propose: bool = False,
    ) -> PartnersPage:
        assignment = changeable_assignment(actor, pk)
        rows = station_rows(actor, assignment)
        wishes = wishes_among([row.athlete_id for row in rows])
        is_proposed = data is None and (propose or all(row.station is None for row in rows))
        stations: dict[int, int | None] = {row.card_id: row.station for row in rows}
        crowd = ""
        if is_proposed:
            here = [row for row in rows if not row.is_absent]
            standing = stations_at(assignment, here)
            proposed = proposal(here, wishes, standing)
            stations = {**proposed}
            crowd = crowd_text(max(proposed.values(), default=0), standing)
        form = StationsForm(data, rows=rows, stations=stations)
        ordered = sorted(rows, key=lambda row: stations.get(row.card_id) or 100)
        shown = tuple(_row(row, form) for row in ordered)
        return cls(assignment, form, WishForm(wish_data, rows=rows), shown, tuple(wishes), is_proposed, crowd)


def proposal(here: Sequence[StationRow], wishes: Sequence[PairWish], standing: int | None) -> dict[int, int]:
    """Return a station for each of these, by card."""
    groups = partners([row.lifter for row in here], wishes_by_card(here, wishes), standing)
    return {card_id: number for number, group in enumerate(groups, 1) for card_id in group}


def crowd_text(groups: int, standing: int | None) -> str:
    if standing is None or groups <= standing:
        return ""
    told = ngettext(
        "Even in threes these are %(groups)s groups, and the venue has %(count)s station: let them take turns.",
        "Even in threes these are %(groups)s groups, and the venue has %(count)s stations: let them take turns.",
        standing,
    )
    return told % {"groups": groups, "count": standing}


def partners_url(pk: int) -> str:
    return reverse("desk:partners", kwargs={"pk": pk})


def _row(row: StationRow, form: StationsForm) -> PartnerRow:
    load = mass_text(row.load) if row.load else _("find it")
    lift = f"{row.exercise}, {load}" if row.exercise_id else ""
    hole = form[f"h-{row.card_id}"] if row.exercise_id else None
    return PartnerRow(row, lift, form[f"s-{row.card_id}"], hole)
