"""What the list of venues and a venue's page show."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby

from django.db import models
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from coachhub.library import queries
from coachhub.library.forms_stock import COUNTED
from coachhub.library.forms_stock_scales import SIZED
from coachhub.library.models import BarKind, StockBar, StockScale, StockWeight, Venue, WeightKind
from coachhub.library.words import item_words, mass_words, setting_words


@dataclass(frozen=True, slots=True)
class VenueLine:
    venue: Venue
    stock: str

    @classmethod
    def of(cls, venue: Venue) -> VenueLine:
        bars = sum(bar.count for bar in venue.bars.all())
        pairs = sum(plate.pairs for plate in venue.plates.all())
        weights = sum(weight.count for weight in venue.weights.all())
        items = sum(item.count for item in venue.items.all())
        scales = len(venue.scales.all())
        counted = (
            (bars, ngettext("%(n)s bar", "%(n)s bars", bars)),
            (pairs, ngettext("%(n)s pair of plates", "%(n)s pairs of plates", pairs)),
            (weights, ngettext("%(n)s weight to hold", "%(n)s weights to hold", weights)),
            (scales, ngettext("%(n)s machine or cable", "%(n)s machines or cables", scales)),
            (items, ngettext("%(n)s other piece", "%(n)s other pieces", items)),
        )
        return cls(venue, ", ".join(text % {"n": n} for n, text in counted if n))


@dataclass(frozen=True, slots=True)
class VenuesPage:
    """`away`: venues that were put away, for who may bring them back."""

    lines: list[VenueLine]
    away: list[Venue]

    @classmethod
    def of(cls) -> VenuesPage:
        rows = list(queries.stocked_venues(with_away=True))
        in_use = [VenueLine.of(venue) for venue in rows if venue.archived_at is None]
        return cls(in_use, [venue for venue in rows if venue.archived_at is not None])


@dataclass(frozen=True, slots=True)
class StockTable:
    """Rows of one kind: a mass, and how many there are."""

    heading: str | Promise
    rows: list[tuple[str, str]]


@dataclass(frozen=True, slots=True)
class VenuePage:
    venue: Venue
    tables: list[StockTable]
    items: list[tuple[str | Promise, int]]
    can_do: int
    all_exercises: int

    @classmethod
    def of(cls, pk: int) -> VenuePage:
        venue = find_venue(pk)
        counts = {item.kind: item.count for item in venue.items.all()}
        can_do, everything = queries.reach(queries.venue_kinds(venue))
        return cls(
            venue=venue,
            tables=list(_tables(venue)),
            items=[(label, counts[code]) for code, label in COUNTED if counts.get(code)],
            can_do=can_do,
            all_exercises=everything,
        )

    @property
    def lane(self) -> str:
        venue = self.venue
        return mass_words(venue.lane_value, venue.lane_unit) if venue.lane_value else ""

    @property
    def is_empty(self) -> bool:
        return not self.tables and not self.items


@dataclass(frozen=True, slots=True)
class VenueFormPage:
    """A form about a venue: its name as it is stored, and the way back."""

    pk: int | None
    name: str
    back_url: str

    @classmethod
    def new(cls) -> VenueFormPage:
        return cls(None, "", reverse("desk:venues"))

    @classmethod
    def of(cls, venue: Venue) -> VenueFormPage:
        return cls(venue.pk, venue.name, reverse("desk:venue", kwargs={"pk": venue.pk}))


def find_venue(pk: int) -> Venue:
    """With its stock; Http404 for one that is not there or no longer used."""
    return get_object_or_404(queries.stocked_venues(), pk=pk)


def find_archived_venue(pk: int) -> Venue:
    return get_object_or_404(Venue.objects.exclude(archived_at=None), pk=pk)


def _tables(venue: Venue) -> Iterable[StockTable]:
    for kind, bars in groupby(venue.bars.all(), lambda bar: bar.kind):
        yield StockTable(_plural(BarKind(kind)), [_bar_row(bar) for bar in bars])
    if plates := list(venue.plates.all()):
        yield StockTable(_("Plates"), [(mass_words(p.mass_value, p.mass_unit), _pairs(p.pairs)) for p in plates])
    for kind, weights in groupby(venue.weights.all(), lambda weight: weight.kind):
        yield StockTable(_plural(WeightKind(kind)), [_weight_row(weight) for weight in weights])
    if scales := list(venue.scales.all()):
        yield StockTable(_("Machines and cables"), [(_scale_name(scale), setting_words(scale)) for scale in scales])
    if sized := [item for item in venue.items.all() if item.kind in SIZED and item.count]:
        yield StockTable(_("Bands and boxes"), [(item_words(item), str(item.count)) for item in sized])


def _scale_name(scale: StockScale) -> str:
    if scale.exercise is None:
        return scale.name
    return _("%(machine)s, for %(exercise)s alone") % {"machine": scale.name, "exercise": scale.exercise.name}


def _bar_row(bar: StockBar) -> tuple[str, str]:
    mass = mass_words(bar.mass_value, bar.mass_unit)
    if bar.collar_value:
        collar = mass_words(bar.collar_value, bar.mass_unit)
        mass = _("%(mass)s, collars %(collar)s each") % {"mass": mass, "collar": collar}
    return mass, str(bar.count)


def _weight_row(weight: StockWeight) -> tuple[str, str]:
    return mass_words(weight.mass_value, weight.mass_unit), str(weight.count)


def _pairs(count: int) -> str:
    return ngettext("%(n)s pair", "%(n)s pairs", count) % {"n": count}


def _plural(kind: models.TextChoices) -> str:
    return {
        BarKind.BARBELL: _("Barbells"),
        BarKind.HEX_BAR: _("Hex bars"),
        WeightKind.DUMBBELL: _("Dumbbells"),
        WeightKind.KETTLEBELL: _("Kettlebells"),
        WeightKind.MEDICINE_BALL: _("Medicine balls"),
        WeightKind.SLAM_BALL: _("Slam balls"),
    }[kind]
