"""What is measured beside the sets: physical tests, wellness, how hard a session was, flags for the coach."""

from __future__ import annotations

from uuid import uuid4

from django.conf import settings
from django.db import models
from django.db.models import Exists, OuterRef, Q
from django.utils.translation import gettext_lazy as _

from coachhub.base.actor import Actor, ActorKind
from coachhub.base.models import choice_check
from coachhub.cards.models import Card
from coachhub.people.models import Athlete, Device, Squad


class Trial(models.Model):
    """A physical test held on a day: a jump, a sprint, a rep-max."""

    squad = models.ForeignKey(Squad, on_delete=models.PROTECT, related_name="trials")
    name = models.CharField(_("name"), max_length=80)
    unit = models.CharField(_("unit"), max_length=12)
    is_lower_better = models.BooleanField(_("lower is better"), default=False)
    on_date = models.DateField(_("date"))

    class Meta:
        ordering = ("-on_date", "pk")
        constraints = [models.UniqueConstraint(fields=["squad", "name", "on_date"], name="trial_once")]


class TrialResult(models.Model):
    trial = models.ForeignKey(Trial, on_delete=models.PROTECT, related_name="results")
    athlete = models.ForeignKey(Athlete, on_delete=models.PROTECT, related_name="trial_results")
    attempt = models.PositiveSmallIntegerField(default=1)
    value = models.DecimalField(max_digits=9, decimal_places=3)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["trial", "athlete", "attempt"], name="trial_result_once"),
            models.CheckConstraint(condition=Q(value__gt=0), name="trial_value_positive"),
        ]


class WellnessEntry(models.Model):
    """McLean et al. 2010: fatigue, sleep, soreness, stress, mood, each 1-5, high = good."""

    athlete = models.ForeignKey(Athlete, on_delete=models.PROTECT, related_name="wellness")
    on_date = models.DateField()
    fatigue = models.PositiveSmallIntegerField()
    sleep = models.PositiveSmallIntegerField()
    soreness = models.PositiveSmallIntegerField()
    stress = models.PositiveSmallIntegerField()
    mood = models.PositiveSmallIntegerField()
    received_at = models.DateTimeField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["athlete", "on_date"], name="wellness_once_a_day"),
            models.CheckConstraint(
                condition=Q(fatigue__range=(1, 5), sleep__range=(1, 5), soreness__range=(1, 5))
                & Q(stress__range=(1, 5), mood__range=(1, 5)),
                name="wellness_1_5",
            ),
        ]


class EffortLoad(models.Model):
    """Session load: effort 0-10 (CR10) and minutes (Foster et al. 2001); the product is computed when read.

    The newest row of a card counts: an answer that was put right keeps the one before.
    """

    uuid = models.UUIDField(unique=True, default=uuid4)
    card = models.ForeignKey(Card, on_delete=models.PROTECT, related_name="efforts")
    effort = models.PositiveSmallIntegerField(_("how hard, 0 to 10"))
    minutes = models.PositiveSmallIntegerField(_("minutes"))
    received_at = models.DateTimeField()
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    device = models.ForeignKey(Device, on_delete=models.PROTECT, null=True, related_name="+")

    class Meta:
        ordering = ("-pk",)
        constraints = [
            models.CheckConstraint(condition=Q(effort__lte=10), name="effort_0_10"),
            models.CheckConstraint(condition=Q(minutes__range=(1, 600)), name="effort_minutes_plausible"),
        ]


class SessionNoteQuerySet(models.QuerySet["SessionNote"]):
    def visible_to(self, actor: Actor) -> SessionNoteQuerySet:
        """What an athlete writes may speak of health: read as notes on pain are, and by the athlete."""
        if not (actor.sees_health or actor.kind is ActorKind.ATHLETE):
            return self.none()
        return self.filter(card__in=Card.objects.visible_to(actor))

    def newest(self) -> SessionNoteQuerySet:
        """The one of each card that counts."""
        later = SessionNote.objects.filter(card=OuterRef("card"), pk__gt=OuterRef("pk"))
        return self.filter(~Exists(later))


class SessionNote(models.Model):
    """What an athlete tells the coach at the session's end. The newest of a card counts; an empty one takes it back."""

    uuid = models.UUIDField(unique=True)
    card = models.ForeignKey(Card, on_delete=models.PROTECT, related_name="notes")
    text = models.CharField(_("note to the coach"), max_length=500, blank=True)
    received_at = models.DateTimeField()
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    device = models.ForeignKey(Device, on_delete=models.PROTECT, null=True, related_name="+")
    read_at = models.DateTimeField(null=True, blank=True)
    read_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")

    objects = SessionNoteQuerySet.as_manager()

    class Meta:
        ordering = ("-pk",)
        constraints = [
            models.CheckConstraint(
                condition=Q(read_at=None, read_by=None) | Q(read_at__isnull=False, read_by__isnull=False),
                name="note_read_by_someone",
            ),
        ]


class FlagSeverity(models.TextChoices):
    NOTE = "note", _("note")
    WARNING = "warning", _("warning")


class Flag(models.Model):
    """Something the coach should see; data (code, parameters), put into words when shown."""

    athlete = models.ForeignKey(Athlete, on_delete=models.PROTECT, related_name="flags")
    code = models.SlugField(max_length=40)
    params = models.JSONField(default=dict)
    severity = models.CharField(max_length=8, choices=FlagSeverity)
    raised_on = models.DateField()
    accepted_at = models.DateTimeField(null=True, blank=True)
    accepted_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    accepted_word = models.CharField(max_length=200, blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["athlete", "code", "raised_on"], name="flag_once_a_day"),
            choice_check("severity", FlagSeverity, "flag_severity"),
        ]
