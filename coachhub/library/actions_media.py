"""Verbs on what a club puts beside an exercise. None of them makes it an edited one: the text is untouched."""

from __future__ import annotations

from functools import partial

from django.core.files import File
from django.db import transaction

from coachhub.base.actor import Actor
from coachhub.base.clock import now
from coachhub.library.access import check_may_edit
from coachhub.library.media_kinds import CleanFile
from coachhub.library.models import Exercise, ExerciseFile, FileKind


@transaction.atomic
def link_film(*, actor: Actor, exercise: Exercise, video_url: str) -> None:
    """An empty address takes the link away."""
    check_may_edit(actor)
    Exercise.objects.filter(pk=exercise.pk).update(video_url=video_url)


@transaction.atomic
def put_file(*, actor: Actor, exercise: Exercise, file: CleanFile, shows: str) -> ExerciseFile:
    """In place of the picture, or the film, that is there; `file` is used up."""
    check_may_edit(actor)
    kind = FileKind.FILM if file.is_film else FileKind.PICTURE
    for old in ExerciseFile.objects.select_for_update().filter(exercise=exercise, kind=kind):
        _take_away(old)
    row = ExerciseFile(
        exercise=exercise, kind=kind, media_type=file.media_type, size=file.size, shows=shows, added_at=now()
    )
    with file.content as content:
        row.file.save(kind, File(content), save=False)
    row.save()
    return row


@transaction.atomic
def remove_file(*, actor: Actor, file: ExerciseFile) -> None:
    check_may_edit(actor)
    _take_away(file)


def _take_away(row: ExerciseFile) -> None:
    """The bytes go once the row has really gone."""
    transaction.on_commit(partial(row.file.storage.delete, row.file.name or ""))
    row.delete()
