"""Restrictions, availability, pain and red flags. None of them ends by itself."""

from __future__ import annotations

from datetime import date

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from coachhub.base.models import BodySide, MassUnit, Pattern, Region, choice_check
from coachhub.library.models import Exercise
from coachhub.people.models_club import Athlete


class RestrictionKind(models.TextChoices):
    REGION = "region", _("a body region")
    PATTERN = "pattern", _("a movement pattern")
    EXERCISE = "exercise", _("an exercise")
    IMPACT = "impact", _("impact")
    OVERHEAD = "overhead", _("overhead work")
    GRIP = "grip", _("heavy grip")
    RANGE = "range", _("end of range")
    LOAD_CAP = "load_cap", _("a load cap")


class StandingQuerySet(models.QuerySet["Restriction"]):
    def standing(self) -> StandingQuerySet:
        """In force: its review date only raises a question."""
        return self.filter(lifted_at=None)


class Restriction(models.Model):
    """What an athlete must not do for now, what they can do instead, on whose word, when it is looked at again."""

    athlete = models.ForeignKey(Athlete, on_delete=models.PROTECT, related_name="restrictions")
    kind = models.CharField(_("restricts"), max_length=10, choices=RestrictionKind)
    region = models.CharField(_("body region"), max_length=12, choices=Region, blank=True)
    side = models.CharField(_("side"), max_length=5, choices=BodySide, default=BodySide.BOTH)
    pattern = models.CharField(_("movement pattern"), max_length=14, choices=Pattern, blank=True)
    exercise = models.ForeignKey(Exercise, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    cap_value = models.DecimalField(_("at most"), max_digits=7, decimal_places=2, null=True, blank=True)
    cap_unit = models.CharField(_("unit"), max_length=2, choices=MassUnit, blank=True)
    can_do = models.CharField(_("can do instead"), max_length=200, blank=True)
    diagnosis = models.CharField(_("diagnosis"), max_length=200, blank=True)
    on_word_of = models.CharField(_("on whose word"), max_length=120)
    is_clinical = models.BooleanField(_("a clinician's hold"), default=False)
    starts_on = models.DateField(_("from"))
    review_on = models.DateField(_("look at again on"), null=True, blank=True)
    set_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    set_at = models.DateTimeField()
    lifted_at = models.DateTimeField(null=True, blank=True)
    lifted_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    lifted_on_word_of = models.CharField(_("lifted on whose word"), max_length=120, blank=True)

    objects = StandingQuerySet.as_manager()

    class Meta:
        ordering = ("starts_on", "pk")
        constraints = [
            choice_check("kind", RestrictionKind, "restriction_kind"),
            choice_check("side", BodySide, "restriction_side"),
            models.CheckConstraint(
                condition=(Q(kind="region", region__in=Region.values) | (~Q(kind="region") & Q(region="")))
                & (Q(kind="pattern", pattern__in=Pattern.values) | (~Q(kind="pattern") & Q(pattern="")))
                & (Q(kind="exercise", exercise__isnull=False) | ~Q(kind="exercise"))
                & (
                    Q(kind="load_cap", cap_value__isnull=False, cap_value__gt=0, cap_unit__in=MassUnit.values)
                    | ~Q(kind="load_cap")
                ),
                name="restriction_says_what",
            ),
            models.CheckConstraint(
                condition=Q(lifted_at=None, lifted_by=None)
                | (Q(lifted_at__isnull=False, lifted_by__isnull=False) & ~Q(lifted_on_word_of="")),
                name="restriction_lifted_on_word",
            ),
            models.CheckConstraint(
                condition=Q(review_on=None) | Q(review_on__gte=F("starts_on")), name="restriction_review_after_start"
            ),
        ]

    def needs_review_on(self, day: date) -> bool:
        return self.lifted_at is None and self.review_on is not None and self.review_on <= day


class RestrictionException(models.Model):
    """A named exception, so that nobody lifts a whole restriction to get on: "split squat to 20 kg, on Dr X's word".

    After its last day it no longer counts: the restriction, which never ends by itself, holds the exercise again.
    """

    restriction = models.ForeignKey(Restriction, on_delete=models.PROTECT, related_name="exceptions")
    exercise = models.ForeignKey(Exercise, on_delete=models.PROTECT, related_name="+")
    cap_value = models.DecimalField(_("at most"), max_digits=7, decimal_places=2, null=True, blank=True)
    cap_unit = models.CharField(_("unit"), max_length=2, choices=MassUnit, blank=True)
    on_word_of = models.CharField(_("on whose word"), max_length=120)
    until_on = models.DateField(_("last day"), null=True, blank=True)
    added_at = models.DateTimeField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["restriction", "exercise"], name="exception_once"),
            models.CheckConstraint(
                condition=Q(cap_value=None, cap_unit="")
                | Q(cap_value__isnull=False, cap_value__gt=0, cap_unit__in=MassUnit.values),
                name="exception_cap_with_unit",
            ),
        ]


class AvailabilityStatus(models.TextChoices):
    FULL = "full", _("full")
    MODIFIED = "modified", _("modified")
    OUT = "out", _("out")


class Availability(models.Model):
    """From a day on, until the next row: all that a head coach sees of health."""

    athlete = models.ForeignKey(Athlete, on_delete=models.PROTECT, related_name="availabilities")
    status = models.CharField(_("availability"), max_length=8, choices=AvailabilityStatus)
    from_on = models.DateField(_("from"))
    can_do = models.CharField(_("can do"), max_length=200, blank=True)
    set_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    set_at = models.DateTimeField()

    class Meta:
        ordering = ("-from_on", "-pk")
        constraints = [choice_check("status", AvailabilityStatus, "availability_status")]


class PainReport(models.Model):
    """Something hurts: 0-10 with region and side; "muscle sore" apart. Holds loads until a coach clears it."""

    uuid = models.UUIDField(unique=True)
    athlete = models.ForeignKey(Athlete, on_delete=models.PROTECT, related_name="pain_reports")
    region = models.CharField(_("where"), max_length=12, choices=Region)
    side = models.CharField(_("side"), max_length=5, choices=BodySide, default=BodySide.BOTH)
    score = models.PositiveSmallIntegerField(_("how much, 0 to 10"))
    is_sore_only = models.BooleanField(_("muscle sore only"), default=False)
    note = models.CharField(_("note"), max_length=300, blank=True)
    on_date = models.DateField()
    reported_at = models.DateTimeField()
    reported_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    device = models.ForeignKey("people.Device", on_delete=models.PROTECT, null=True, related_name="+")
    cleared_at = models.DateTimeField(null=True, blank=True)
    cleared_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    cleared_note = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ("-reported_at", "-pk")
        constraints = [
            choice_check("region", Region, "pain_region"),
            choice_check("side", BodySide, "pain_side"),
            models.CheckConstraint(condition=Q(score__lte=10), name="pain_score_0_10"),
            models.CheckConstraint(
                condition=Q(cleared_at=None, cleared_by=None) | Q(cleared_at__isnull=False, cleared_by__isnull=False),
                name="pain_cleared_by_someone",
            ),
        ]


class RedFlagKind(models.TextChoices):
    HEAD_KNOCK = "head_knock", _("a knock to the head")
    CHEST_PAIN = "chest_pain", _("chest pain")
    FAINT = "faint", _("fainted or nearly")
    NUMBNESS = "numbness", _("numbness or weakness")
    GIVING_WAY = "giving_way", _("a joint gave way")
    POP = "pop", _("a pop was felt or heard")


class RedFlag(models.Model):
    """Stops the card; coming cards wait until a clearance with name and date is recorded."""

    uuid = models.UUIDField(unique=True)
    athlete = models.ForeignKey(Athlete, on_delete=models.PROTECT, related_name="red_flags")
    kind = models.CharField(_("what happened"), max_length=12, choices=RedFlagKind)
    note = models.CharField(_("note"), max_length=300, blank=True)
    on_date = models.DateField()
    reported_at = models.DateTimeField()
    reported_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    device = models.ForeignKey("people.Device", on_delete=models.PROTECT, null=True, related_name="+")
    cleared_on = models.DateField(_("cleared on"), null=True, blank=True)
    cleared_by_name = models.CharField(_("cleared by"), max_length=120, blank=True)
    cleared_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    cleared_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ("-reported_at", "-pk")
        constraints = [
            choice_check("kind", RedFlagKind, "red_flag_kind"),
            models.CheckConstraint(
                condition=Q(cleared_on=None, cleared_at=None, cleared_by=None, cleared_by_name="")
                | (
                    Q(cleared_on__isnull=False, cleared_at__isnull=False, cleared_by__isnull=False)
                    & ~Q(cleared_by_name="")
                ),
                name="red_flag_cleared_by_name_and_date",
            ),
        ]
