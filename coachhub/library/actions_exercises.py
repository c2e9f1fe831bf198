"""Verbs on exercises: the club's own, and those of the starting library that it has made its own."""

from __future__ import annotations

from django.db import transaction

from coachhub.base.actor import Actor
from coachhub.base.clock import now
from coachhub.library.access import check_may_edit
from coachhub.library.content import Content, content_from, content_of
from coachhub.library.models import Exercise
from coachhub.library.queries import ids_of, whole_exercises
from coachhub.library.writing import columns_of, replace_parts


class NameTakenError(Exception):
    """Another exercise has this name; kept as its one argument."""


@transaction.atomic
def add_exercise(*, actor: Actor, content: Content, is_regions_reviewed: bool) -> Exercise:
    """Until somebody has reviewed its regions, a new exercise counts as loading all of them."""
    check_may_edit(actor)
    exercise = Exercise(edited_at=now())
    _write(exercise, content, is_regions_reviewed=is_regions_reviewed)
    return exercise


@transaction.atomic
def change_exercise(*, actor: Actor, exercise: Exercise, content: Content, is_regions_reviewed: bool) -> bool:
    """Whether anything was different. What the club has changed, no update of the starting library touches."""
    check_may_edit(actor)
    before = whole_exercises().select_for_update().get(pk=exercise.pk)
    if content == content_of(before) and is_regions_reviewed == before.is_regions_reviewed:
        return False
    before.edited_at = now()
    _write(before, content, is_regions_reviewed=is_regions_reviewed)
    return True


@transaction.atomic
def archive_exercise(*, actor: Actor, exercise: Exercise) -> None:
    """Sessions and cards that have it keep it; it cannot be picked any more."""
    check_may_edit(actor)
    Exercise.objects.filter(pk=exercise.pk, archived_at=None).update(archived_at=now())


@transaction.atomic
def bring_back_exercise(*, actor: Actor, exercise: Exercise) -> None:
    check_may_edit(actor)
    Exercise.objects.filter(pk=exercise.pk).update(archived_at=None)


@transaction.atomic
def take_newer_text(*, actor: Actor, exercise: Exercise) -> None:
    """Replace the club's text by the newer one; from now on updates reach it again. NameTakenError if they clash."""
    check_may_edit(actor)
    row = Exercise.objects.select_for_update().get(pk=exercise.pk)
    if row.newer_text is None:
        return
    content = content_from(row.newer_text)
    columns = columns_of(content)
    if Exercise.objects.filter(search_key=columns["search_key"]).exclude(pk=row.pk).exists():
        raise NameTakenError(content.name)
    row.edited_at, row.newer_text, row.starting_digest = None, None, content.digest
    _write(row, content, is_regions_reviewed=bool(content.regions))


@transaction.atomic
def keep_own_text(*, actor: Actor, exercise: Exercise) -> None:
    """Say no to the newer text; only a later one is offered again."""
    check_may_edit(actor)
    row = Exercise.objects.select_for_update().get(pk=exercise.pk)
    if row.newer_text is not None:
        row.starting_digest, row.newer_text = content_from(row.newer_text).digest, None
        row.save(update_fields=["starting_digest", "newer_text"])


def _write(exercise: Exercise, content: Content, *, is_regions_reviewed: bool) -> None:
    for name, value in columns_of(content).items():
        setattr(exercise, name, value)
    exercise.is_regions_reviewed = is_regions_reviewed
    exercise.save()
    replace_parts([(exercise.pk, content)], ids_of(swap.to for swap in content.swaps))
