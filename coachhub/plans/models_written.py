"""What the coach writes: plan -> session -> segment -> circuit group (people read "block") -> prescription."""

from __future__ import annotations

from decimal import Decimal
from typing import ClassVar

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from coachhub.base.actor import Actor
from coachhub.base.models import Archivable, MassUnit, Named, SegmentKind, choice_check
from coachhub.library.models import Exercise
from coachhub.people.models import Squad
from coachhub.plans.models_fit import SessionRole, SessionVariant


class PlanQuerySet(models.QuerySet["Plan"]):
    def visible_to(self, actor: Actor) -> PlanQuerySet:
        """Owner: all; staff who read plans: their squads' plans and those of no squad."""
        if actor.sees_all:
            return self
        if not (actor.may_write or actor.may_log or actor.sees_health):
            return self.none()
        return self.filter(Q(squad__in=actor.squad_ids) | Q(squad=None))

    def editable_by(self, actor: Actor) -> PlanQuerySet:
        """Owner: all; coach: their squads' plans and those of no squad. A plan that was put away is only read."""
        return self.visible_to(actor).live() if actor.may_write else self.none()

    def live(self) -> PlanQuerySet:
        return self.filter(archived_at=None)


class Plan(Named, Archivable):
    """A reusable program: weeks x days of sessions. Placing it on a squad copies it (`copied_from`)."""

    key_fields: ClassVar[tuple[str, ...]] = ("name",)

    name = models.CharField(_("name"), max_length=80)
    squad = models.ForeignKey(Squad, on_delete=models.PROTECT, null=True, blank=True, related_name="plans")
    weeks = models.PositiveSmallIntegerField(_("weeks"), default=1)
    note = models.CharField(_("note"), max_length=300, blank=True)
    copied_from = models.ForeignKey("self", on_delete=models.PROTECT, null=True, blank=True, related_name="copies")
    created_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")

    objects = PlanQuerySet.as_manager()

    class Meta:
        ordering = ("search_key", "pk")
        constraints = [models.CheckConstraint(condition=Q(weeks__range=(1, 52)), name="plan_weeks")]

    def __str__(self) -> str:
        return self.name


class SessionQuerySet(models.QuerySet["Session"]):
    def visible_to(self, actor: Actor) -> SessionQuerySet:
        return self.filter(plan__in=Plan.objects.visible_to(actor))

    def editable_by(self, actor: Actor) -> SessionQuerySet:
        return self.live().filter(plan__in=Plan.objects.editable_by(actor))

    def live(self) -> SessionQuerySet:
        return self.filter(archived_at=None)


class Session(Archivable):
    """One day's work. `revision` rises with every change; cards remember the one they were made from."""

    plan = models.ForeignKey(Plan, on_delete=models.PROTECT, related_name="sessions")
    name = models.CharField(_("name"), max_length=80)
    day = models.PositiveSmallIntegerField(_("day"), default=1)
    week_from = models.PositiveSmallIntegerField(_("from week"), default=1)
    week_to = models.PositiveSmallIntegerField(_("to week"), default=1)
    slot_minutes = models.PositiveSmallIntegerField(_("minutes of the slot"), default=60)
    role = models.CharField(_("what it is for"), max_length=8, choices=SessionRole, default=SessionRole.ANY)
    variant = models.CharField(_("in which weeks"), max_length=10, choices=SessionVariant, blank=True)
    revision = models.PositiveIntegerField(default=1, editable=False)
    note = models.CharField(_("note"), max_length=300, blank=True)

    objects = SessionQuerySet.as_manager()

    class Meta:
        ordering = ("plan", "week_from", "day", "pk")
        constraints = [
            models.CheckConstraint(condition=Q(week_from__gte=1, week_to__gte=F("week_from")), name="session_weeks"),
            models.CheckConstraint(condition=Q(day__range=(1, 14)), name="session_day"),
            models.CheckConstraint(condition=Q(slot_minutes__range=(10, 300)), name="session_slot"),
            choice_check("role", SessionRole, "session_role"),
            choice_check("variant", SessionVariant, "session_variant"),
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def weeks(self) -> range:
        """The weeks of the plan in which it is done."""
        return range(self.week_from, self.week_to + 1)


class Segment(models.Model):
    session = models.ForeignKey(Session, on_delete=models.CASCADE, related_name="segments")
    kind = models.CharField(_("part"), max_length=12, choices=SegmentKind)
    position = models.PositiveSmallIntegerField()
    minutes = models.PositiveSmallIntegerField(_("minutes"), null=True, blank=True)

    class Meta:
        ordering = ("position", "pk")
        constraints = [
            choice_check("kind", SegmentKind, "segment_kind"),
        ]


class CircuitGroup(models.Model):
    """Exercises done as a circuit. A letter in the strength part is not stored: it is the group's place (A, B, C)."""

    segment = models.ForeignKey(Segment, on_delete=models.CASCADE, related_name="groups")
    position = models.PositiveSmallIntegerField()
    is_optional = models.BooleanField(_("optional"), default=False)
    rounds_min = models.PositiveSmallIntegerField(_("rounds"), default=1)
    rounds_max = models.PositiveSmallIntegerField(_("to"), default=1)
    rest_min_s = models.PositiveSmallIntegerField(_("rest between rounds, s"), null=True, blank=True)
    rest_max_s = models.PositiveSmallIntegerField(_("to"), null=True, blank=True)
    rest_note = models.CharField(_("heart-rate note"), max_length=80, blank=True)
    rest_after_s = models.PositiveSmallIntegerField(_("rest after the block, s"), null=True, blank=True)
    intent = models.CharField(_("intent"), max_length=120, blank=True)

    class Meta:
        ordering = ("position", "pk")
        constraints = [
            models.CheckConstraint(
                condition=Q(rounds_min__gte=1, rounds_max__gte=F("rounds_min"), rounds_max__lte=20), name="group_rounds"
            ),
            models.CheckConstraint(
                condition=Q(rest_min_s=None, rest_max_s=None)
                | Q(rest_min_s__isnull=False, rest_max_s=None)
                | Q(rest_min_s__isnull=False, rest_max_s__gte=F("rest_min_s"), rest_max_s__lte=1800),
                name="group_rest",
            ),
        ]


class DoseKind(models.TextChoices):
    REPS = "reps", _("repetitions")
    TIME = "time", _("time")
    DISTANCE = "distance", _("distance")
    CONTACTS = "contacts", _("contacts")
    HOLD = "hold", _("hold")


class Per(models.TextChoices):
    TOTAL = "", _("in all")
    SIDE = "side", _("each side")
    DIRECTION = "direction", _("each direction")


class LoadRule(models.TextChoices):
    NONE = "none", _("none, bodyweight")
    FIXED = "fixed", _("fixed")
    PERCENT = "percent", _("% of known best")
    RIR = "rir", _("by reps in reserve")
    LAST = "last", _("as last time")
    FIND = "find", _("find it")
    WORDS = "words", _("in words")


class DoseColumns(models.Model):
    """How much: the columns of one `coaching.notation.Dose`, without the sets."""

    dose_kind = models.CharField(max_length=8, choices=DoseKind, default=DoseKind.REPS)
    low = models.DecimalField(max_digits=6, decimal_places=2)
    high = models.DecimalField(max_digits=6, decimal_places=2, null=True, blank=True)
    per = models.CharField(max_length=9, choices=Per, blank=True)
    load_rule = models.CharField(max_length=7, choices=LoadRule, default=LoadRule.NONE)
    load = models.DecimalField(max_digits=7, decimal_places=2, null=True, blank=True)
    load_high = models.DecimalField(max_digits=7, decimal_places=2, null=True, blank=True)
    ceiling = models.DecimalField(max_digits=7, decimal_places=2, null=True, blank=True)
    load_unit = models.CharField(max_length=2, choices=MassUnit, blank=True)
    hands = models.PositiveSmallIntegerField(default=1)
    percent = models.DecimalField(max_digits=5, decimal_places=2, null=True, blank=True)
    percent_high = models.DecimalField(max_digits=5, decimal_places=2, null=True, blank=True)
    rir_half = models.PositiveSmallIntegerField(null=True, blank=True)
    tempo = models.CharField(max_length=4, blank=True)
    words = models.CharField(max_length=120, blank=True)

    class Meta:
        abstract = True


def dose_constraints(prefix: str) -> list[models.BaseConstraint]:
    """The database's own word on a dose."""
    mass = Q(load__isnull=True) | Q(load__gt=Decimal(0))
    return [
        models.CheckConstraint(condition=Q(dose_kind__in=DoseKind.values), name=f"{prefix}_kind"),
        models.CheckConstraint(condition=Q(per__in=Per.values), name=f"{prefix}_per"),
        models.CheckConstraint(
            condition=Q(low__gte=1) & (Q(high=None) | Q(high__gte=F("low"))), name=f"{prefix}_range"
        ),
        models.CheckConstraint(
            condition=mass & (Q(load=None) | Q(load_unit__in=MassUnit.values)) & Q(hands__in=[1, 2]),
            name=f"{prefix}_load",
        ),
        models.CheckConstraint(
            condition=(Q(load_rule="fixed", load__isnull=False) | ~Q(load_rule="fixed"))
            & (Q(load_rule="percent", percent__isnull=False, percent__gt=0, percent__lte=100) | ~Q(load_rule="percent"))
            & (Q(load_rule="rir", rir_half__isnull=False) | ~Q(load_rule="rir"))
            & ((Q(load_rule="words") & ~Q(words="")) | ~Q(load_rule="words"))
            & Q(load_rule__in=LoadRule.values),
            name=f"{prefix}_rule",
        ),
        models.CheckConstraint(condition=Q(rir_half=None) | Q(rir_half__lte=12), name=f"{prefix}_rir"),
    ]


class Prescription(DoseColumns):
    """A1, A2 ...: one exercise in a block. `sets` empty: one set in each round."""

    group = models.ForeignKey(CircuitGroup, on_delete=models.CASCADE, related_name="prescriptions")
    position = models.PositiveSmallIntegerField()
    exercise = models.ForeignKey(Exercise, on_delete=models.PROTECT, related_name="+")
    sets = models.PositiveSmallIntegerField(_("sets, where fewer than the rounds"), null=True, blank=True)
    ramp_up_sets = models.PositiveSmallIntegerField(_("ramp-up sets"), default=0)
    directions = models.JSONField(default=list, blank=True)
    cue = models.CharField(_("cue"), max_length=120, blank=True)
    rest_after_s = models.PositiveSmallIntegerField(_("rest after the exercise, s"), default=0)
    pair_with = models.ForeignKey("self", on_delete=models.SET_NULL, null=True, blank=True, related_name="+")
    is_by_level = models.BooleanField(
        _("each athlete's own level"),
        default=False,
        help_text=_("Speaks of the family of the exercise: each athlete does the variation of their level."),
    )

    class Meta:
        ordering = ("position", "pk")
        constraints = [
            models.CheckConstraint(condition=Q(ramp_up_sets__lte=6), name="prescription_ramp_ups"),
            models.CheckConstraint(condition=Q(sets=None) | Q(sets__range=(1, 20)), name="prescription_sets"),
            models.CheckConstraint(condition=Q(rest_after_s__lte=900), name="prescription_rest"),
            *dose_constraints("prescription"),
        ]

    @property
    def line_key(self) -> str:
        """The name of this line on every revision of every card."""
        return f"p{self.pk}"


class PrescriptionSwap(models.Model):
    """A swap the coach allows here, in the order to try."""

    prescription = models.ForeignKey(Prescription, on_delete=models.CASCADE, related_name="swaps")
    exercise = models.ForeignKey(Exercise, on_delete=models.PROTECT, related_name="+")
    position = models.PositiveSmallIntegerField(default=0)

    class Meta:
        ordering = ("position", "pk")
        constraints = [models.UniqueConstraint(fields=["prescription", "exercise"], name="prescription_swap_once")]


class PrescriptionWeek(models.Model):
    """What differs in one week of the plan; an empty column inherits, but a figure of its own is the whole range."""

    prescription = models.ForeignKey(Prescription, on_delete=models.CASCADE, related_name="week_values")
    week = models.PositiveSmallIntegerField()
    sets = models.PositiveSmallIntegerField(null=True, blank=True)
    low = models.DecimalField(max_digits=6, decimal_places=2, null=True, blank=True)
    high = models.DecimalField(max_digits=6, decimal_places=2, null=True, blank=True)
    load = models.DecimalField(max_digits=7, decimal_places=2, null=True, blank=True)
    load_high = models.DecimalField(max_digits=7, decimal_places=2, null=True, blank=True)
    percent = models.DecimalField(max_digits=5, decimal_places=2, null=True, blank=True)
    percent_high = models.DecimalField(max_digits=5, decimal_places=2, null=True, blank=True)
    rir_half = models.PositiveSmallIntegerField(null=True, blank=True)

    class Meta:
        ordering = ("week",)
        constraints = [
            models.UniqueConstraint(fields=["prescription", "week"], name="week_once"),
            models.CheckConstraint(condition=Q(week__range=(1, 52)), name="week_range"),
            models.CheckConstraint(condition=Q(percent=None) | Q(percent__gt=0, percent__lte=100), name="week_percent"),
        ]


class Removal(models.Model):
    """What was just taken out of a session, kept for a day so that it can come back as the same rows.

    `rows` are serialized, parents first; `pairs` are other lines that named one of them: [line, the removed one].
    """

    session = models.ForeignKey(Session, on_delete=models.CASCADE, related_name="removals")
    title = models.CharField(max_length=120)
    rows = models.JSONField()
    pairs = models.JSONField(default=list)
    removed_at = models.DateTimeField()

    class Meta:
        ordering = ("-removed_at", "-pk")
