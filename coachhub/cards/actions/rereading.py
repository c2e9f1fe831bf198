"""A change in somebody's health reaches cards that exist: only the lines it concerns, in a revision of their own."""

from __future__ import annotations

from typing import Any

from django.db import transaction

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.cards.actions.snapshots import group_plan, new_revisions, snapshot
from coachhub.cards.models import Card, CardLine, CardRevision, LineStatus, RevisionReason
from coachhub.cards.queries.resolving import Recipe, recipe_of
from coachhub.cards.queries.session_facts import exercise_facts
from coachhub.coaching.facts import ExerciseFacts, note
from coachhub.coaching.obstacles import health_obstacles
from coachhub.coaching.resolve import ResolvedGroup, ResolvedLine
from coachhub.people.models import Athlete

# Steps of a trace that health put there: such a line is looked at again when health changes.
HEALTH_CODES = frozenset({"restricted", "restricted_unreviewed", "pain_off", "pain_hold", "restriction_cap"})


def reread_cards(*, athlete: Athlete, actor: Actor, reason: RevisionReason) -> list[Card]:
    """Revise the athlete's cards of today and later where a line is concerned; returns the cards that changed.

    A line with sets of its exercise keeps what was planned, unless something now stands against it: then what is left
    of it goes, or is done as another exercise, and comes back once nothing does, unless that other one is begun too.
    """
    cards = Card.objects.filter(athlete=athlete, assignment__on_date__gte=today(), assignment__cancelled_at=None)
    return [card for card in cards.order_by("pk") if _reread(card, actor, reason)]


def _reread(card: Card, actor: Actor, reason: RevisionReason) -> bool:
    recipe = recipe_of([card])
    fresh = {line.line.key: (group, line) for group in recipe.resolve(card.athlete_id).groups for line in group.lines}
    with transaction.atomic():
        locked = Card.objects.select_for_update().get(pk=card.pk)
        revision = CardRevision.objects.get(card=locked, number=locked.revision_number)
        current = list(revision.lines.order_by("position", "pk"))
        exercises = exercise_facts({line.exercise_id for line in current})
        begun = set(locked.entries.values_list("line_key", "exercise_id"))
        lines = [
            _next(
                line,
                fresh.get(line.line_key),
                exercises[line.exercise_id],
                recipe,
                (line.line_key, line.exercise_id) in begun,
            )
            for line in current
        ]
        if all(new is old for new, old in zip(lines, current, strict=True)):
            return False
        locked.revision_number += 1
        locked.save(update_fields=["revision_number"])
        new_revisions([(locked, _layout(revision.layout, fresh), lines)], reason, actor)
    return True


def _next(
    line: CardLine,
    fresh: tuple[ResolvedGroup, ResolvedLine] | None,
    exercise: ExerciseFacts,
    recipe: Recipe,
    is_begun: bool,
) -> CardLine:
    """Return the line as it is, or what replaces it."""
    athlete = next(iter(recipe.athletes.values()))
    against = health_obstacles(exercise, athlete)
    was_health = any(step["code"] in HEALTH_CODES for step in line.trace)
    if against and line.status == LineStatus.PLANNED:
        return snapshot(*fresh) if fresh else _dropped(line, against)
    if fresh is None or (is_begun and line.status == LineStatus.PLANNED):
        return line
    now_health = any(step.code in HEALTH_CODES for step in fresh[1].trace)
    if not was_health and not now_health:
        return line
    new = snapshot(*fresh)
    return line if _same(line, new) else new


def _same(line: CardLine, new: CardLine) -> bool:
    """Whether the athlete would do the same: exercise, status, load."""
    names = ("exercise_id", "status", "load_value", "load_unit")
    return all(getattr(line, name) == getattr(new, name) for name in names)


def _dropped(line: CardLine, against: tuple[Any, ...]) -> CardLine:
    """The session no longer has this line, so there is no swap to look for."""
    steps = (*against, note("dropped", written=line.name))
    line.status = LineStatus.DROPPED
    line.trace = [{"code": s.code, "params": dict(s.params), "entries": list(s.entry_ids)} for s in steps]
    copy = CardLine()
    copy.__dict__.update({k: v for k, v in line.__dict__.items() if k != "_state"})
    return copy


def _layout(layout: list[dict[str, Any]], fresh: dict[str, tuple[ResolvedGroup, ResolvedLine]]) -> list[dict[str, Any]]:
    """Keep the blocks as they were; a line's new snapshot names a block that is already there."""
    known = {plan["key"] for plan in layout}
    new = {group.group.key: group_plan(group.group) for group, _ in fresh.values()}
    used = [plan for key, plan in new.items() if key not in known]
    return [*layout, *used] if used else layout
