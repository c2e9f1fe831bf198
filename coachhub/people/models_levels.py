"""What a coach says of an athlete's progress: the level in a family of exercises, the stage on the way back.

Rows are only added; the newest that has begun counts, and the older ones stay to be read.
"""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from coachhub.library.models import Exercise
from coachhub.people.models_club import Athlete

LAST_STAGE = 3


class AthleteLevel(models.Model):
    """The variation of a family that is an athlete's for now; no exercise: as the session is written."""

    athlete = models.ForeignKey(Athlete, on_delete=models.PROTECT, related_name="levels")
    family = models.CharField(_("family"), max_length=40)
    exercise = models.ForeignKey(Exercise, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    from_on = models.DateField(_("from"))
    reason = models.CharField(_("why"), max_length=200)
    set_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    set_at = models.DateTimeField()

    class Meta:
        ordering = ("-from_on", "-pk")
        indexes = [models.Index(fields=["athlete", "family"], name="level_by_family")]
        constraints = [
            models.CheckConstraint(condition=~Q(family=""), name="level_of_a_family"),
            models.CheckConstraint(condition=~Q(reason=""), name="level_with_reason"),
        ]


class ReturnStage(models.Model):
    """A step on the way back after injury or illness, set by a coach or clinician; 0: back in full."""

    athlete = models.ForeignKey(Athlete, on_delete=models.PROTECT, related_name="return_stages")
    stage = models.PositiveSmallIntegerField(_("stage"))
    from_on = models.DateField(_("from"))
    on_word_of = models.CharField(_("on whose word"), max_length=120)
    set_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    set_at = models.DateTimeField()

    class Meta:
        ordering = ("-from_on", "-pk")
        constraints = [
            models.CheckConstraint(condition=Q(stage__lte=LAST_STAGE), name="return_stage_known"),
            models.CheckConstraint(condition=~Q(on_word_of=""), name="return_stage_on_word"),
        ]
