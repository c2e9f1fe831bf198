"""A table that somebody uploaded and has not confirmed yet."""

from __future__ import annotations

from datetime import datetime

from django.conf import settings
from django.db import models
from django.db.models import F, Q

from coachhub.base.columns import Reading
from coachhub.base.models import choice_check
from coachhub.base.tables import Table


class ImportKind(models.TextChoices):
    ROSTER = "roster", "roster"
    SEASON = "season", "season"
    BESTS = "bests", "bests"


class ImportDraftQuerySet(models.QuerySet["ImportDraft"]):
    def live_of(self, owner_id: int | None, moment: datetime) -> ImportDraftQuerySet:
        return self.filter(owner=owner_id, expires_at__gt=moment)


class ImportDraft(models.Model):
    """Kept between preview and confirmation, for an hour, for one person; then deleted, whatever came of it.

    The rows stay in the club's own database because they are children's data: no file, no browser holds them.
    """

    owner = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="import_drafts")
    kind = models.CharField(max_length=8, choices=ImportKind)
    file_name = models.CharField(max_length=120)
    table = models.JSONField()
    reading = models.JSONField(null=True)
    created_at = models.DateTimeField()
    expires_at = models.DateTimeField(db_index=True)

    objects = ImportDraftQuerySet.as_manager()

    class Meta:
        constraints = [
            choice_check("kind", ImportKind, "import_kind"),
            models.UniqueConstraint(fields=["owner", "kind"], name="one_import_at_a_time"),
            models.CheckConstraint(condition=Q(expires_at__gt=F("created_at")), name="import_expires_later"),
        ]

    def as_table(self) -> Table:
        return Table.from_data(self.table)

    def as_reading(self) -> Reading | None:
        """None until the columns are matched."""
        return Reading.from_data(self.reading) if self.reading else None
