"""The club's own picture and film of an exercise."""

from __future__ import annotations

import secrets

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from coachhub.base.models import choice_check
from coachhub.library.media_kinds import SUFFIXES
from coachhub.library.models_exercise import Exercise


class FileKind(models.TextChoices):
    PICTURE = "picture", _("picture")
    FILM = "film", _("film")


def random_name(file: ExerciseFile, _name: str) -> str:
    """Nothing of the name it was sent under; the folder is no part of what is served as static."""
    return f"exercises/{secrets.token_urlsafe(24)}.{SUFFIXES[file.media_type]}"


class ExerciseFile(models.Model):
    """At most one of each kind."""

    exercise = models.ForeignKey(Exercise, on_delete=models.CASCADE, related_name="files")
    kind = models.CharField(max_length=8, choices=FileKind)
    media_type = models.CharField(max_length=12)
    file = models.FileField(upload_to=random_name, max_length=80)
    size = models.PositiveIntegerField()
    shows = models.CharField(_("what it shows"), max_length=160)
    added_at = models.DateTimeField()

    class Meta:
        ordering = ("kind", "pk")
        constraints = [
            models.UniqueConstraint(fields=["exercise", "kind"], name="file_once"),
            choice_check("kind", FileKind, "file_kind"),
            models.CheckConstraint(condition=Q(media_type__in=list(SUFFIXES)), name="file_media_type"),
        ]
