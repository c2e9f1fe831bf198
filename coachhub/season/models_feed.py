"""The secret address by which a calendar program reads a squad's or an athlete's dates."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import Q

from coachhub.people.models import Athlete, Squad


class FeedLinkQuerySet(models.QuerySet["FeedLink"]):
    def live(self) -> FeedLinkQuerySet:
        """Not taken back, and whom it is about is still with the club."""
        about = Q(squad__isnull=False, squad__archived_at=None) | Q(athlete__isnull=False, athlete__archived_at=None)
        return self.filter(about, revoked_at=None)


class FeedLink(models.Model):
    """Only the token's hash is stored, so the address can be shown once; who has lost it makes another."""

    squad = models.ForeignKey(Squad, on_delete=models.PROTECT, null=True, blank=True, related_name="feed_links")
    athlete = models.ForeignKey(Athlete, on_delete=models.PROTECT, null=True, blank=True, related_name="feed_links")
    token_hash = models.CharField(max_length=64, unique=True)
    made_at = models.DateTimeField()
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    revoked_at = models.DateTimeField(null=True, blank=True)

    objects = FeedLinkQuerySet.as_manager()

    class Meta:
        ordering = ("pk",)
        constraints = [
            models.CheckConstraint(
                condition=Q(squad=None, athlete__isnull=False) | Q(squad__isnull=False, athlete=None),
                name="feed_of_squad_or_athlete",
            ),
            models.UniqueConstraint(fields=["squad"], condition=Q(revoked_at=None), name="one_feed_a_squad"),
            models.UniqueConstraint(fields=["athlete"], condition=Q(revoked_at=None), name="one_feed_an_athlete"),
        ]
