"""Reads: finding exercises as people type, one exercise with all its parts, venues with what they can load."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Final, cast

from django.db import models
from django.db.models import Case, Count, Exists, F, OuterRef, Prefetch, Q, QuerySet, Value, When
from django.db.models.functions import Concat

from coachhub.base.models import Pattern
from coachhub.base.text import fold
from coachhub.coaching.loading import Bar, LoadUnit, Plate, Scale, Stock, Weight
from coachhub.library.models import (
    ALWAYS_THERE,
    Equipment,
    EquipmentNeed,
    Exercise,
    ExerciseAlias,
    ExercisePattern,
    StockScale,
    Swap,
    Venue,
    WeightKind,
)
from coachhub.science.units import Unit

STOCK_PARTS: Final = ("bars", "plates", "weights", "items", "scales")
IN_USE: Final = Q(archived_at=None)
SHOWN: Final[dict[str, Q]] = {
    "unreviewed": IN_USE & Q(is_regions_reviewed=False),
    "own": IN_USE & Q(edited_at__isnull=False),
    "newer": IN_USE & Q(newer_text__isnull=False),
    "archived": ~IN_USE,
}


def search(
    text: str,
    *,
    pattern: str = "",
    segment: str = "",
    equipment: str = "",
    show: str = "",
    family: str = "",
    kinds: frozenset[str] | None = None,
) -> QuerySet[Exercise]:
    """Exercises whose name, other names, pattern or equipment hold every word of `text`; best names first.

    `equipment`: uses this kind. `kinds`: can be done with these kinds alone. `show`: one of `SHOWN`, else those in use.
    Codes that are unknown find nothing.
    """
    found: QuerySet[Exercise] = Exercise.objects.filter(SHOWN.get(show, IN_USE))
    for word in fold(text).split():
        found = found.filter(_has_word(word))
    if pattern:
        found = found.filter(_has_pattern([pattern]))
    if segment:
        found = found.filter(segment=segment)
    if equipment:
        found = found.filter(_needs([equipment]))
    if family:
        found = found.filter(family=family)
    if kinds is not None:
        found = found.exclude(_lacks(kinds))
    if family and not text:
        return found.order_by("family_rank", "search_key", "pk")
    return _ranked(found, fold(text))


def for_list(exercises: QuerySet[Exercise]) -> QuerySet[Exercise]:
    """With what a line of the list shows."""
    return exercises.prefetch_related("patterns", "needs", "aliases")


def whole_exercises() -> QuerySet[Exercise]:
    """With every part; those put away too, since old cards lead to them, and swaps to them."""
    swaps = Swap.objects.select_related("to")
    return Exercise.objects.prefetch_related(
        "patterns", "needs", "aliases", "cues", "regions", "files", Prefetch("swaps", queryset=swaps)
    )


def exercises_called(texts: Iterable[str]) -> dict[str, Exercise]:
    """Folded text -> the exercise with that name, or else with that other name; one in use before one put away."""
    keys = {fold(text) for text in texts}
    aliases = ExerciseAlias.objects.filter(search_key__in=keys).select_related("exercise").order_by("-pk")
    named = Exercise.objects.filter(search_key__in=keys).order_by("-pk")
    pairs = [(alias.search_key, alias.exercise) for alias in aliases] + [(one.search_key, one) for one in named]
    return dict(sorted(pairs, key=lambda pair: not pair[1].is_archived))


def family_of(exercise: Exercise) -> list[Exercise]:
    """Its family in use, easiest first, with itself; nobody without a family."""
    if not exercise.family:
        return []
    return list(Exercise.objects.live().filter(family=exercise.family).order_by("family_rank", "search_key", "pk"))


def family_names() -> list[str]:
    families = Exercise.objects.live().exclude(family="").order_by("family")
    return list(families.values_list("family", flat=True).distinct())


def exercise_names() -> list[str]:
    """Every name in use, for a list to pick from."""
    return list(Exercise.objects.live().order_by("search_key", "pk").values_list("name", flat=True))


def ids_of(refs: Iterable[str]) -> dict[str, int]:
    """`Exercise.ref` -> number."""
    return {row.ref: row.pk for row in _referred(refs).only("origin_key")}


def names_of(refs: Iterable[str]) -> dict[str, str]:
    """`Exercise.ref` -> name."""
    return {row.ref: row.name for row in _referred(refs)}


def _referred(refs: Iterable[str]) -> QuerySet[Exercise]:
    wanted = set(refs)
    numbers = [int(ref[1:]) for ref in wanted if ref.startswith("#")]
    return Exercise.objects.filter(Q(origin_key__in=wanted) | Q(pk__in=numbers))


def stocked_venues(*, with_away: bool = False) -> QuerySet[Venue]:
    """Venues in use, or those put away too, with their whole stock: six queries however many there are."""
    *parts, scales = STOCK_PARTS
    with_names = Prefetch(scales, queryset=StockScale.objects.select_related("exercise"))
    return Venue.objects.filter(Q() if with_away else IN_USE).prefetch_related(*parts, with_names)


def reach(kinds: frozenset[str]) -> tuple[int, int]:
    """How many exercises in use can be done with these kinds of equipment alone, and how many there are."""
    counts = Exercise.objects.filter(IN_USE).aggregate(
        can_do=Count("pk", filter=~Q(_lacks(kinds))), everything=Count("pk")
    )
    return counts["can_do"], counts["everything"]


def venue_stock(venue: Venue) -> Stock:
    """What can be loaded there; a bar's label is the code of its kind."""
    return Stock(
        unit=cast(Unit, str(venue.unit)),  # a row not yet read back holds the choice itself
        bars=tuple(
            Bar(bar.kind, bar.mass_value, cast(Unit, bar.mass_unit), bar.collar_value)
            for bar in venue.bars.all()
            if bar.count
        ),
        plates=tuple(Plate(p.mass_value, cast(Unit, p.mass_unit), p.pairs) for p in venue.plates.all()),
        dumbbells=_weights(venue, WeightKind.DUMBBELL),
        kettlebells=_weights(venue, WeightKind.KETTLEBELL),
        balls=_weights(venue, WeightKind.MEDICINE_BALL) + _weights(venue, WeightKind.SLAM_BALL),
        scales=tuple(
            Scale(row.kind, cast(LoadUnit, row.unit), tuple(map(Decimal, row.settings)), row.exercise_id)
            for row in venue.scales.all()
        ),
    )


def venue_kinds(venue: Venue) -> frozenset[str]:
    """Codes of the equipment that can be used there."""
    there = {str(kind) for kind in ALWAYS_THERE}
    there.update(item.kind for item in venue.items.all() if item.count)
    there.update(bar.kind for bar in venue.bars.all() if bar.count)
    there.update(weight.kind for weight in venue.weights.all() if weight.count)
    there.update(scale.kind for scale in venue.scales.all())
    there.update(Equipment.PLATES.value for plate in venue.plates.all() if plate.pairs)
    return frozenset(there)


def _weights(venue: Venue, kind: WeightKind) -> tuple[Weight, ...]:
    return tuple(
        Weight(kind.value, w.mass_value, cast(Unit, w.mass_unit), w.count)
        for w in venue.weights.all()
        if w.kind == kind
    )


def _has_word(word: str) -> Q:
    named = ExerciseAlias.objects.filter(exercise=OuterRef("pk"), search_key__contains=word)
    condition = Q(search_key__contains=word) | Q(family__contains=word) | Q(Exists(named))
    if patterns := _codes_called(Pattern, word):
        condition |= Q(_has_pattern(patterns))
    if kinds := _codes_called(Equipment, word):
        condition |= Q(_needs(kinds))
    return condition


def _codes_called(choices: type[models.TextChoices], word: str) -> list[str]:
    """Codes with a word in their label that starts so: "dumb" finds the dumbbell."""
    return [code for code, label in choices.choices if f" {word}" in f" {fold(str(label))}"]


def _has_pattern(patterns: list[str]) -> Exists:
    return Exists(ExercisePattern.objects.filter(exercise=OuterRef("pk"), pattern__in=patterns))


def _needs(kinds: list[str]) -> Exists:
    return Exists(EquipmentNeed.objects.filter(exercise=OuterRef("pk"), kind__in=kinds))


def _lacks(kinds: frozenset[str]) -> Exists:
    """True for an exercise with a group of which not one kind is there."""
    met = EquipmentNeed.objects.filter(exercise=OuterRef("exercise"), group=OuterRef("group"), kind__in=kinds)
    return Exists(EquipmentNeed.objects.filter(~Exists(met), exercise=OuterRef("pk")))


def _ranked(found: QuerySet[Exercise], key: str) -> QuerySet[Exercise]:
    """Names with the words whole first, then names with a word that starts so, other names, the rest."""
    if not key:
        return found.order_by("search_key", "pk")
    joined = key.replace(" ", "-")  # who types "press up" means the press-up
    # A space at each end makes the first and the last word one like the others.
    spaced = Concat(Value(" "), F("search_key"), Value(" "), output_field=models.CharField())
    starts = Q(search_key__startswith=key) | Q(search_key__contains=f" {key}")
    called_so = ExerciseAlias.objects.filter(exercise=OuterRef("pk"), search_key__startswith=key)
    rank = Case(
        When(Q(spaced__contains=f" {key} ") | Q(spaced__contains=f" {joined} "), then=Value(0)),
        When(starts | Q(search_key__startswith=joined) | Q(search_key__contains=f" {joined}"), then=Value(1)),
        When(Exists(called_so), then=Value(2)),
        When(search_key__contains=key, then=Value(3)),
        default=Value(4),
    )
    return found.alias(spaced=spaced).alias(rank=rank).order_by("rank", "search_key", "pk")
