"""What stands beside an exercise: a link, a picture, a film."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import urlsplit

from django.http import Http404
from django.shortcuts import get_object_or_404

from coachhub.library.forms_media import FileForm, LinkForm
from coachhub.library.models import Exercise, ExerciseFile, FileKind


@dataclass(frozen=True, slots=True)
class Media:
    """`host`: where the link leads, for people to see before they follow it."""

    video_url: str
    host: str
    picture: ExerciseFile | None
    film: ExerciseFile | None

    @classmethod
    def of(cls, exercise: Exercise) -> Media:
        files = {file.kind: file for file in exercise.files.all()}
        host = urlsplit(exercise.video_url).netloc
        return cls(exercise.video_url, host, files.get(FileKind.PICTURE), files.get(FileKind.FILM))

    @property
    def is_empty(self) -> bool:
        return not (self.video_url or self.picture or self.film)


@dataclass(frozen=True, slots=True)
class MediaPage:
    exercise: Exercise
    media: Media
    link: LinkForm
    file: FileForm

    @classmethod
    def of(cls, exercise: Exercise, *, link: LinkForm | None = None, file: FileForm | None = None) -> MediaPage:
        start = LinkForm(initial={"video_url": exercise.video_url})
        return cls(exercise, Media.of(exercise), link or start, file or FileForm())


def find_for_media(pk: int) -> Exercise:
    return get_object_or_404(Exercise.objects.prefetch_related("files"), pk=pk)


def find_file(pk: int) -> ExerciseFile:
    """Http404 for a row whose bytes are not there any more, too."""
    row = get_object_or_404(ExerciseFile, pk=pk)
    if not row.file.storage.exists(row.file.name or ""):
        raise Http404
    return row
