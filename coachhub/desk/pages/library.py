"""What the library's list and an exercise's page show."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final

from django.core.paginator import Page, Paginator
from django.db.models import QuerySet
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.utils.functional import Promise

from coachhub.desk.pages.media import Media
from coachhub.library import queries, words
from coachhub.library.content import content_from, content_of
from coachhub.library.differences import Difference, differences
from coachhub.library.forms import LibraryFilter
from coachhub.library.models import Direction, Exercise, Swap, SwapReason

PAGED_AT: Final = 50

Words = str | Promise


@dataclass(frozen=True, slots=True)
class LibraryPage:
    """`found`: one page of exercises, each with words for its patterns and equipment."""

    pager: Page[Exercise]
    lines: list[ExerciseLine]
    is_filtered: bool

    @classmethod
    def of(cls, form: LibraryFilter, number: str) -> LibraryPage:
        wanted = _wanted(form)
        pager = Paginator(queries.for_list(_found(**wanted)), PAGED_AT).get_page(number)
        lines = [ExerciseLine.of(exercise) for exercise in pager.object_list]
        return cls(pager=pager, lines=lines, is_filtered=bool(wanted))


@dataclass(frozen=True, slots=True)
class ExerciseLine:
    pk: int
    name: str
    also: str
    segment: Words
    patterns: str
    equipment: str
    needs_supervision: bool
    is_regions_reviewed: bool

    @classmethod
    def of(cls, exercise: Exercise) -> ExerciseLine:
        return cls(
            pk=exercise.pk,
            name=exercise.name,
            also=", ".join(alias.name for alias in exercise.aliases.all()),
            segment=exercise.get_segment_display(),
            patterns=words.pattern_words(exercise),
            equipment=words.equipment_words(exercise.needs.all()),
            needs_supervision=exercise.needs_supervision,
            is_regions_reviewed=exercise.is_regions_reviewed,
        )


@dataclass(frozen=True, slots=True)
class CueList:
    """Cues for one direction; without a heading for all."""

    heading: Words
    cues: list[str]


@dataclass(frozen=True, slots=True)
class SwapList:
    heading: Words
    swaps: list[Swap]


@dataclass(frozen=True, slots=True)
class ExercisePage:
    exercise: Exercise
    line: ExerciseLine
    directions: str
    demands: str
    regions: list[tuple[Words, Words]]
    cues: list[CueList]
    faults: list[str]
    swaps: list[SwapList]
    newer: list[Difference]
    media: Media
    family: list[Exercise]

    @classmethod
    def of(cls, pk: int) -> ExercisePage:
        exercise = find_exercise(pk)
        return cls(
            exercise=exercise,
            line=ExerciseLine.of(exercise),
            directions=words.direction_words(exercise),
            demands=words.demand_words(exercise),
            regions=[(r.get_region_display(), r.get_side_sense_display()) for r in exercise.regions.all()],
            cues=_cue_lists(exercise),
            faults=[fault for fault in exercise.faults.split("; ") if fault],
            swaps=_swap_lists(exercise),
            newer=_newer(exercise),
            media=Media.of(exercise),
            family=queries.family_of(exercise),
        )


@dataclass(frozen=True, slots=True)
class ExerciseFormPage:
    """`name`: as it is stored, empty for a new one."""

    name: str
    back_url: str

    @classmethod
    def new(cls) -> ExerciseFormPage:
        return cls("", reverse("desk:library"))

    @classmethod
    def of(cls, exercise: Exercise) -> ExerciseFormPage:
        return cls(exercise.name, reverse("desk:exercise", kwargs={"pk": exercise.pk}))


def find_exercise(pk: int) -> Exercise:
    """With all its parts; Http404 for one that is not there."""
    return get_object_or_404(queries.whole_exercises(), pk=pk)


def _wanted(form: LibraryFilter) -> dict[str, Any]:
    form.is_valid()  # what is wrong is said beside its field, and filters nothing
    return {name: value for name, value in form.cleaned_data.items() if value}


def _found(*, q: str = "", venue: Any = None, **codes: str) -> QuerySet[Exercise]:
    return queries.search(q, kinds=None if venue is None else queries.venue_kinds(venue), **codes)


def _newer(exercise: Exercise) -> list[Difference]:
    """What the starting library says otherwise by now; empty where it says nothing new."""
    if exercise.newer_text is None:
        return []
    ours, theirs = content_of(exercise), content_from(exercise.newer_text)
    return differences(ours, theirs, queries.names_of(swap.to for swap in (*ours.swaps, *theirs.swaps)))


def _cue_lists(exercise: Exercise) -> list[CueList]:
    cues = list(exercise.cues.all())
    lists = [
        CueList(Direction(code).label if code else "", [cue.text for cue in cues if cue.direction == code])
        for code in ("", *exercise.directions)
    ]
    return [one for one in lists if one.cues]


def _swap_lists(exercise: Exercise) -> list[SwapList]:
    swaps = [swap for swap in exercise.swaps.all() if not swap.to.is_archived]
    lists = [SwapList(reason.label, [swap for swap in swaps if swap.reason == reason]) for reason in SwapReason]
    return [one for one in lists if one.swaps]
