"""A plan given in the background: many sessions to many athletes, one session after the other."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from coachhub.base.actor import Actor
from coachhub.base.models import choice_check
from coachhub.cards.models_card import Assignment
from coachhub.library.models import Venue
from coachhub.people.models import Squad
from coachhub.plans.models import Session


class AssignmentRunQuerySet(models.QuerySet["AssignmentRun"]):
    def visible_to(self, actor: Actor) -> AssignmentRunQuerySet:
        """Owner: all; a coach: their own, and those for their squads."""
        if actor.sees_all:
            return self
        if not actor.may_write:
            return self.none()
        return self.filter(Q(squad__in=actor.squad_ids) | Q(started_by=actor.user_id))


class AssignmentRun(models.Model):
    """`athlete_ids` are only ever read whole. `beat_at`: the last sign of life of the process that works on it."""

    uuid = models.UUIDField(unique=True)
    squad = models.ForeignKey(Squad, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    athlete_ids = models.JSONField()
    started_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    started_at = models.DateTimeField()
    beat_at = models.DateTimeField(null=True, blank=True)
    cancelled_at = models.DateTimeField(null=True, blank=True)
    finished_at = models.DateTimeField(null=True, blank=True)

    objects = AssignmentRunQuerySet.as_manager()

    class Meta:
        ordering = ("-started_at", "-pk")


class StepState(models.TextChoices):
    OPEN = "open", _("waits")
    DONE = "done", _("given")
    FAILED = "failed", _("not given")


class RunStep(models.Model):
    """One session on one day: everybody's card of it, or nobody's."""

    run = models.ForeignKey(AssignmentRun, on_delete=models.CASCADE, related_name="steps")
    position = models.PositiveSmallIntegerField()
    session = models.ForeignKey(Session, on_delete=models.PROTECT, related_name="+")
    week = models.PositiveSmallIntegerField()
    on_date = models.DateField()
    venue = models.ForeignKey(Venue, on_delete=models.PROTECT, related_name="+")
    state = models.CharField(max_length=6, choices=StepState, default=StepState.OPEN)
    assignment = models.ForeignKey(Assignment, on_delete=models.PROTECT, null=True, blank=True, related_name="+")

    class Meta:
        ordering = ("position",)
        constraints = [
            models.UniqueConstraint(fields=["run", "position"], name="run_step_once"),
            choice_check("state", StepState, "run_step_state"),
            models.CheckConstraint(
                condition=Q(state="done", assignment__isnull=False) | (~Q(state="done") & Q(assignment=None)),
                name="run_step_done_with_assignment",
            ),
            models.CheckConstraint(condition=Q(week__range=(1, 52)), name="run_step_week"),
        ]
