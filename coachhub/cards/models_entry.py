"""What was really done: append-only facts, and what is known of an athlete's strength."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from coachhub.base.models import LoadUnit, MassUnit, choice_check
from coachhub.cards.models_card import Card, CardLine
from coachhub.library.models import Exercise, Venue
from coachhub.people.models import Athlete, Device


class EntryKind(models.TextChoices):
    DONE = "done", _("done")
    SKIPPED = "skipped", _("skipped")
    VOID = "void", _("taken back")


class EntrySide(models.TextChoices):
    BOTH = "both", _("both sides")
    LEFT = "left", _("left")
    RIGHT = "right", _("right")


class SetEntry(models.Model):
    """A set as done. Never updated: a correction is a new row that supersedes an old one, and the old one stays."""

    uuid = models.UUIDField(unique=True)
    supersedes_uuid = models.UUIDField(null=True, blank=True)
    seq = models.PositiveIntegerField()
    kind = models.CharField(max_length=8, choices=EntryKind, default=EntryKind.DONE)
    card = models.ForeignKey(Card, on_delete=models.PROTECT, related_name="entries")
    line = models.ForeignKey(CardLine, on_delete=models.PROTECT, related_name="entries")
    line_key = models.CharField(max_length=40)
    athlete = models.ForeignKey(Athlete, on_delete=models.PROTECT, related_name="entries")
    exercise = models.ForeignKey(Exercise, on_delete=models.PROTECT, related_name="entries")
    venue = models.ForeignKey(Venue, on_delete=models.PROTECT, related_name="+")
    on_date = models.DateField()
    round = models.PositiveSmallIntegerField()
    side = models.CharField(max_length=5, choices=EntrySide, default=EntrySide.BOTH)
    reps = models.PositiveSmallIntegerField(null=True, blank=True)
    time_s = models.PositiveIntegerField(null=True, blank=True)
    distance_m = models.DecimalField(max_digits=7, decimal_places=2, null=True, blank=True)
    height_cm = models.DecimalField(max_digits=5, decimal_places=1, null=True, blank=True)
    load_value = models.DecimalField(max_digits=7, decimal_places=2, null=True, blank=True)
    load_unit = models.CharField(max_length=2, choices=LoadUnit, blank=True)
    load_kg = models.DecimalField(max_digits=9, decimal_places=4, null=True, blank=True)
    rir_half = models.PositiveSmallIntegerField(null=True, blank=True)
    note = models.CharField(max_length=300, blank=True)
    is_flagged = models.BooleanField(default=False, help_text="Done although a restriction stood against it.")
    client_at = models.DateTimeField()
    received_at = models.DateTimeField()
    author = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    device = models.ForeignKey(Device, on_delete=models.PROTECT, null=True, related_name="+")

    class Meta:
        ordering = ("pk",)
        indexes = [
            models.Index(fields=["athlete", "exercise", "on_date"], name="entry_history"),
            models.Index(fields=["card", "line_key"], name="entry_card"),
            models.Index(fields=["supersedes_uuid"], name="entry_supersedes"),
        ]
        constraints = [
            choice_check("kind", EntryKind, "entry_kind"),
            choice_check("side", EntrySide, "entry_side"),
            models.CheckConstraint(condition=Q(seq__gte=1), name="entry_seq"),
            models.CheckConstraint(condition=Q(round__range=(1, 40)), name="entry_round"),
            models.CheckConstraint(condition=Q(rir_half=None) | Q(rir_half__lte=20), name="entry_rir"),
            models.CheckConstraint(
                condition=Q(load_value=None, load_unit="", load_kg=None)
                | Q(load_value__isnull=False, load_value__gte=0, load_unit__in=LoadUnit.values, load_kg__isnull=False),
                name="entry_load_with_unit",
            ),
            models.CheckConstraint(
                condition=~Q(kind="done")
                | Q(reps__isnull=False)
                | Q(time_s__isnull=False)
                | Q(distance_m__isnull=False)
                | Q(height_cm__isnull=False),
                name="entry_done_has_amount",
            ),
        ]


class SetQuality(models.TextChoices):
    CLEAN = "clean", _("clean")
    SHAKY = "shaky", _("shaky")


class SetMark(models.Model):
    """Clean or shaky, by coach or assistant; the newest mark of an entry counts."""

    entry = models.ForeignKey(SetEntry, on_delete=models.PROTECT, related_name="marks")
    quality = models.CharField(max_length=6, choices=SetQuality)
    marked_at = models.DateTimeField()
    marked_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ("-pk",)
        constraints = [choice_check("quality", SetQuality, "mark_quality")]


class BestSource(models.TextChoices):
    TEST = "test", _("a test")
    TRAINING = "training", _("training")
    TOLD = "told", _("told by the athlete")
    COACH = "coach", _("the coach's start load")


def most_load(unit: str) -> int:
    """Nobody lifts more in a gym; what is written above it is a slip."""
    return 1300 if unit == MassUnit.LB else 600


class KnownBest(models.Model):
    """The best set known for an athlete and exercise: a squad without history can start on day one."""

    athlete = models.ForeignKey(Athlete, on_delete=models.PROTECT, related_name="known_bests")
    exercise = models.ForeignKey(Exercise, on_delete=models.PROTECT, related_name="known_bests")
    load_value = models.DecimalField(_("load"), max_digits=7, decimal_places=2)
    load_unit = models.CharField(_("unit"), max_length=2, choices=MassUnit)
    reps = models.PositiveSmallIntegerField(_("reps"), default=1)
    rir_half = models.PositiveSmallIntegerField(_("reps in reserve"), default=0)
    on_date = models.DateField(_("date"))
    source = models.CharField(_("source"), max_length=8, choices=BestSource, default=BestSource.TEST)
    noted_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")

    class Meta:
        ordering = ("-on_date", "-pk")
        indexes = [models.Index(fields=["athlete", "exercise"], name="best_of")]
        constraints = [
            models.CheckConstraint(condition=Q(load_value__gt=0), name="best_load_positive"),
            models.CheckConstraint(condition=Q(reps__range=(1, 30)), name="best_reps"),
            models.CheckConstraint(condition=Q(rir_half__lte=12), name="best_rir"),
            choice_check("load_unit", MassUnit, "best_unit"),
            choice_check("source", BestSource, "best_source"),
        ]


class StrengthEstimate(models.Model):
    """The current estimate of a one-repetition maximum, with its band; always shown as an estimate."""

    athlete = models.ForeignKey(Athlete, on_delete=models.PROTECT, related_name="estimates")
    exercise = models.ForeignKey(Exercise, on_delete=models.PROTECT, related_name="+")
    venue = models.ForeignKey(Venue, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    kg = models.DecimalField(max_digits=7, decimal_places=2)
    low_kg = models.DecimalField(max_digits=7, decimal_places=2)
    high_kg = models.DecimalField(max_digits=7, decimal_places=2)
    as_of_on = models.DateField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["athlete", "exercise", "venue"], name="estimate_once_a_venue"),
            models.UniqueConstraint(
                fields=["athlete", "exercise"], condition=Q(venue=None), name="estimate_once_anywhere"
            ),
            models.CheckConstraint(condition=Q(low_kg__gt=0, kg__gte=models.F("low_kg")), name="estimate_low"),
            models.CheckConstraint(condition=Q(high_kg__gte=models.F("kg")), name="estimate_high"),
        ]
