"""Reads of plans and sessions."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from datetime import timedelta
from typing import Final, TypeVar

from django.db.models import (
    Case,
    Count,
    F,
    Model,
    OuterRef,
    Q,
    QuerySet,
    Subquery,
    Value,
    When,
    prefetch_related_objects,
)
from django.db.models.functions import Coalesce

from coachhub.base.actor import Actor
from coachhub.base.clock import now
from coachhub.base.text import fold
from coachhub.coaching.coverage import COUNTED_PARTS, FURTHER, PRIMARY, Movement
from coachhub.library.models import Exercise, ExercisePattern, LoadMeaning, Swap
from coachhub.library.queries import search
from coachhub.plans.models import (
    CircuitGroup,
    Plan,
    Prescription,
    PrescriptionSwap,
    PrescriptionWeek,
    Removal,
    Segment,
    Session,
)
from coachhub.plans.tree import SessionTree, build_tree

# What resolving a card asks of an exercise; each costs one query, for lines and swaps together.
EXERCISE_FACTS: Final = ("patterns", "regions", "needs")

PICKED: Final = 10
REMOVAL_KEPT: Final = timedelta(days=1)

_UNLOADED: Final = frozenset({LoadMeaning.NONE, LoadMeaning.ASSISTANCE})

Row = TypeVar("Row", bound=Model)


def plans_for(actor: Actor, *, squad_id: int | None = None, text: str = "") -> QuerySet[Plan]:
    """Plans in use, by name, with `session_count`."""
    plans = Plan.objects.visible_to(actor).live().select_related("squad")
    if squad_id is not None:
        plans = plans.filter(squad=squad_id)
    if key := fold(text):
        plans = plans.filter(search_key__contains=key)
    sessions = Count("sessions", filter=Q(sessions__archived_at=None))
    return plans.annotate(session_count=sessions).order_by("search_key", "pk")


def sessions_of(plan: Plan) -> QuerySet[Session]:
    """Sessions in use, in the order of weeks and days, with `line_count`."""
    return (
        plan.sessions.live()
        .annotate(line_count=Count("segments__groups__prescriptions"))
        .order_by("week_from", "week_to", "day", "pk")
    )


def removals_of(session: Session) -> QuerySet[Removal]:
    """What can still be put back, newest first."""
    return session.removals.filter(removed_at__gte=now() - REMOVAL_KEPT)


def weeks_that_differ(plan: Plan) -> set[tuple[int, int]]:
    """Session and week, wherever a line says something else than in the other weeks."""
    rows = PrescriptionWeek.objects.filter(prescription__group__segment__session__plan=plan)
    return set(rows.values_list("prescription__group__segment__session", "week"))


def weeks_of(*sessions: Session) -> dict[tuple[int, int], PrescriptionWeek]:
    """What differs from week to week, by line and week."""
    rows = PrescriptionWeek.objects.filter(prescription__group__segment__session__in=sessions)
    return {(row.prescription_id, row.week): row for row in rows}


def load_session(sessions: int | QuerySet[Session], *, facts: Sequence[str] = EXERCISE_FACTS) -> SessionTree:
    """The one session (of this key, or in this queryset) as a whole; Session.DoesNotExist if there is none.

    Four queries and one for each of `facts`: relations of exercises to have at hand.
    """
    found = Session.objects.filter(pk=sessions) if isinstance(sessions, int) else sessions
    segments = list(Segment.objects.filter(session__in=found).select_related("session__plan__squad"))
    session = segments[0].session if segments else found.select_related("plan__squad").get()
    tree = _trees([session], segments)[0]
    used = [one for line in tree.lines for one in (line.exercise, *line.swaps)]
    if used and facts:
        prefetch_related_objects(used, *facts)
    return tree


def load_plan(plan: Plan) -> list[SessionTree]:
    """Its sessions in use that have anything in them, whole, in the order of weeks and days. Four queries."""
    segments = list(Segment.objects.filter(session__in=plan.sessions.live()).select_related("session"))
    sessions = {segment.session_id: segment.session for segment in segments}
    for session in sessions.values():
        session.plan = plan
    return _trees(sorted(sessions.values(), key=lambda one: (one.week_from, one.week_to, one.day, one.pk)), segments)


def load_sessions(session_ids: Iterable[int]) -> dict[int, SessionTree]:
    """Those of these that have anything in them, whole, by key. Four queries."""
    segments = list(Segment.objects.filter(session__in=set(session_ids)).select_related("session__plan"))
    sessions = {segment.session_id: segment.session for segment in segments}
    return {tree.session.pk: tree for tree in _trees(list(sessions.values()), segments)}


def _trees(sessions: Sequence[Session], segments: Sequence[Segment]) -> list[SessionTree]:
    """Three queries for all of the sessions; their segments are at hand."""
    keys = [session.pk for session in sessions]
    groups = _by(CircuitGroup.objects.filter(segment__session__in=keys), "segment_id")
    lines = Prescription.objects.filter(group__segment__session__in=keys).select_related("exercise")
    # Counting drops the order that lines have by themselves.
    lines = lines.annotate(week_count=Count("week_values")).order_by("position", "pk")
    swapped: dict[int, list[Exercise]] = defaultdict(list)
    swaps = PrescriptionSwap.objects.filter(prescription__group__segment__session__in=keys)
    for swap in swaps.select_related("exercise"):
        swapped[swap.prescription_id].append(swap.exercise)
    parts, rows = _by(segments, "session_id"), _by(lines, "group_id")
    return [build_tree(session, parts.get(session.pk, ()), groups, rows, swapped) for session in sessions]


def _by(rows: Iterable[Row], owner: str) -> dict[int, list[Row]]:
    grouped: dict[int, list[Row]] = defaultdict(list)
    for row in rows:
        grouped[getattr(row, owner)].append(row)
    return grouped


def movements(exercise_ids: Iterable[int] = ()) -> dict[int, Movement]:
    """Exercises for strength and athleticism in use, and those named, as coverage sees them. One query."""
    wanted = Q(exercise__archived_at=None, exercise__segment__in=COUNTED_PARTS, pattern__in=(*PRIMARY, *FURTHER))
    asked = ExercisePattern.objects.filter(wanted | Q(exercise__in=set(exercise_ids)))
    rows = asked.order_by("position", "pk", "exercise__needs__group")
    names: dict[int, str] = {}
    loaded: set[int] = set()
    patterns: dict[int, dict[str, None]] = defaultdict(dict)
    needs: dict[int, dict[int, set[str]]] = defaultdict(dict)
    exercise = ("exercise_id", "exercise__name", "exercise__load_meaning")
    columns = (*exercise, "pattern", "exercise__needs__group", "exercise__needs__kind")
    for key, name, load_meaning, pattern, group, kind in rows.values_list(*columns):
        names[key] = name
        if load_meaning not in _UNLOADED:
            loaded.add(key)
        patterns[key][pattern] = None
        if kind is not None:
            needs[key].setdefault(group, set()).add(kind)
    return {
        key: Movement(key, name, tuple(patterns[key]), tuple(map(frozenset, needs[key].values())), key in loaded)
        for key, name in names.items()
    }


def exercise_picker(text: str, *, segment: str = "", limit: int = PICKED) -> list[Exercise]:
    """The best few for a type-ahead, with their patterns; two queries.

    As the names match; then those for the part that is being written, then what this club writes most, then names that
    begin so, then by name.
    """
    if not fold(text):
        return []
    written = Prescription.objects.filter(exercise=OuterRef("pk")).order_by().values("exercise")
    uses = Coalesce(Subquery(written.values(n=Count("pk"))), Value(0))
    belongs = Case(When(segment=segment, then=Value(0)), default=Value(1))
    begins = Case(When(search_key__startswith=fold(text), then=Value(0)), default=Value(1))
    found = search(text).alias(belongs=belongs, uses=uses, begins=begins)
    ordered = found.order_by(F("rank"), "belongs", "-uses", "begins", "search_key", "pk")
    return list(ordered.prefetch_related("patterns")[:limit])


def exercises_named(text: str, *, segment: str = "") -> list[Exercise]:
    """The exercise of that name; else those of that other name; else the best few that the words find."""
    key = fold(text)
    live = Exercise.objects.live()
    exact = list(live.filter(search_key=key)) or list(live.filter(aliases__search_key=key).distinct())
    return exact or exercise_picker(text, segment=segment)


def swap_options(exercise: Exercise) -> dict[int, list[Swap]]:
    """The library's swaps for it, by the exercise they lead to, in the library's order; one query."""
    options: dict[int, list[Swap]] = defaultdict(list)
    for swap in exercise.swaps.filter(to__archived_at=None).select_related("to"):
        options[swap.to_id].append(swap)
    return dict(options)
