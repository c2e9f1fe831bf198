"""The exercise library."""

from __future__ import annotations

from typing import ClassVar

from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from coachhub.base.models import Archivable, Named, Pattern, Region, SegmentKind, choice_check


class Laterality(models.TextChoices):
    BILATERAL = "bilateral", _("both sides together")
    UNILATERAL = "unilateral", _("one side at a time")
    ALTERNATING = "alternating", _("side by side in turn")


class Measure(models.TextChoices):
    REPS = "reps", _("repetitions")
    TIME = "time", _("time")
    DISTANCE = "distance", _("distance")
    CONTACTS = "contacts", _("ground contacts")
    HEIGHT = "height", _("height")


class LoadMeaning(models.TextChoices):
    """What the number means; always printed. A machine's number never carries over to another venue."""

    BAR_TOTAL = "bar_total", _("total with the bar")
    PER_HAND = "per_hand", _("in each hand")
    SINGLE = "single", _("the one weight held")
    ADDED = "added", _("added to the body")
    ASSISTANCE = "assistance", _("assistance")
    MACHINE = "machine", _("machine setting")
    NONE = "none", _("no load")


class Spotting(models.TextChoices):
    NONE = "none", _("No spotter needed.")
    HEAD = "head", _("A trained spotter stands at the head, hands near the bar from the first rep to the rack.")
    SAFETY_ARMS = (
        "safety_arms",
        _("Safety arms set just below the deepest point first; else two spotters, one at each end of the bar."),
    )
    CLEAR_SPACE = "clear_space", _("Nobody spots. Clear space all round; learn to let go of the bar.")
    WRISTS = "wrists", _("The spotter guards the wrists, not the elbows.")
    PARTNER = "partner", _("A partner holds or helps; agree on the stop word first.")


class Direction(models.TextChoices):
    FORWARD = "forward", _("forward")
    BACKWARD = "backward", _("backward")
    LATERAL = "lateral", _("to the side")
    DIAGONAL = "diagonal", _("diagonal")
    CROSSOVER = "crossover", _("crossover")
    VERTICAL = "vertical", _("vertical")
    HORIZONTAL = "horizontal", _("horizontal")
    INCLINE = "incline", _("incline")
    ROTATIONAL = "rotational", _("rotational")
    IN_PLACE = "in_place", _("in place")


class SideSense(models.TextChoices):
    """Which side of the body a region is loaded on, seen from the side that works."""

    BOTH = "both", _("both sides")
    WORKING = "working", _("the working side")
    OTHER = "other", _("the other side")


class Equipment(models.TextChoices):
    BARBELL = "barbell", _("barbell")
    PLATES = "plates", _("plates")
    RACK = "rack", _("rack")
    SAFETY_ARMS = "safety_arms", _("safety arms")
    BENCH = "bench", _("bench")
    INCLINE_BENCH = "incline_bench", _("incline bench")
    HEX_BAR = "hex_bar", _("hex bar")
    LANDMINE = "landmine", _("landmine or corner")
    DUMBBELL = "dumbbell", _("dumbbell")
    KETTLEBELL = "kettlebell", _("kettlebell")
    CABLE = "cable", _("cable")
    MACHINE = "machine", _("machine")
    MINI_BAND = "mini_band", _("mini-band")
    LONG_BAND = "long_band", _("long band")
    ANCHOR = "anchor", _("anchor point")
    BOX = "box", _("box")
    LOW_BOX = "low_box", _("low box")
    MEDICINE_BALL = "medicine_ball", _("medicine ball")
    SLAM_BALL = "slam_ball", _("slam ball")
    CONES = "cones", _("cones or marks")
    AGILITY_LADDER = "agility_ladder", _("agility ladder")
    PULL_UP_BAR = "pull_up_bar", _("pull-up bar")
    SUSPENSION = "suspension", _("suspension straps")
    SLED = "sled", _("sled")
    WALL = "wall", _("wall")
    STEP = "step", _("step")
    PARTNER = "partner", _("partner")
    PAD = "pad", _("pad")
    STICK = "stick", _("stick")
    MAT = "mat", _("mat")
    SLIDER = "slider", _("slider or towel")


# Found wherever people train, so never counted as stock: a wall to lean on, a team-mate.
ALWAYS_THERE = frozenset({Equipment.WALL, Equipment.PARTNER})


class SwapReason(models.TextChoices):
    EQUIPMENT = "equipment", _("no equipment")
    EASIER = "easier", _("easier")
    HARDER = "harder", _("harder")
    PREFERENCE = "preference", _("preference")
    BUILD = "build", _("builds toward it")
    SPARES = "spares", _("spares a body region")


class ExerciseQuerySet(models.QuerySet["Exercise"]):
    def live(self) -> ExerciseQuerySet:
        return self.filter(archived_at=None)


class Exercise(Named, Archivable):
    """One library entry. `origin_key`, `edited_at`: updates of the starting library touch only rows never edited."""

    key_fields: ClassVar[tuple[str, ...]] = ("name",)

    origin_key = models.SlugField(max_length=80, null=True, blank=True, unique=True)
    edited_at = models.DateTimeField(null=True, blank=True, editable=False)
    # Names the row of the starting library that this one was taken or edited from; a later one waits to be looked at.
    starting_digest = models.CharField(max_length=64, blank=True, editable=False)
    newer_text = models.JSONField(null=True, blank=True, editable=False)
    name = models.CharField(_("name"), max_length=60, unique=True)
    family = models.CharField(_("family"), max_length=40, blank=True, db_index=True)
    family_rank = models.PositiveSmallIntegerField(_("place in the family"), default=0)
    segment = models.CharField(_("part of the session"), max_length=12, choices=SegmentKind)
    laterality = models.CharField(_("sides"), max_length=12, choices=Laterality)
    measure = models.CharField(_("measured by"), max_length=10, choices=Measure)
    load_meaning = models.CharField(_("the load means"), max_length=12, choices=LoadMeaning)
    spotting = models.CharField(_("spotting"), max_length=12, choices=Spotting, default=Spotting.NONE)
    directions = models.JSONField(default=list, help_text="Direction codes, in the order of the cues.")
    why = models.CharField(_("what it is for"), max_length=160, blank=True)
    faults = models.CharField(_("common faults"), max_length=300, blank=True)
    is_impact = models.BooleanField(_("impact"), default=False)
    is_overhead = models.BooleanField(_("overhead"), default=False)
    is_grip = models.BooleanField(_("heavy grip"), default=False)
    is_deep_range = models.BooleanField(_("near the end of range"), default=False)
    is_regions_reviewed = models.BooleanField(_("loaded regions reviewed"), default=False)
    needs_supervision = models.BooleanField(_("not unsupervised"), default=True)
    video_url = models.CharField(_("film elsewhere"), max_length=300, blank=True)

    objects = ExerciseQuerySet.as_manager()

    class Meta:
        ordering = ("search_key", "pk")
        constraints = [
            choice_check("segment", SegmentKind, "exercise_segment"),
            choice_check("laterality", Laterality, "exercise_laterality"),
            choice_check("measure", Measure, "exercise_measure"),
            choice_check("load_meaning", LoadMeaning, "exercise_load_meaning"),
            choice_check("spotting", Spotting, "exercise_spotting"),
            models.CheckConstraint(
                condition=Q(family="", family_rank=0) | (~Q(family="") & Q(family_rank__gte=1)), name="exercise_family"
            ),
            models.CheckConstraint(
                condition=Q(video_url="") | Q(video_url__startswith="https://"), name="exercise_video_https"
            ),
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def ref(self) -> str:
        """How a text names this exercise: by its key in the starting library, else by its number."""
        return self.origin_key or f"#{self.pk}"


class ExerciseAlias(Named):
    exercise = models.ForeignKey(Exercise, on_delete=models.CASCADE, related_name="aliases")
    name = models.CharField(max_length=60)

    class Meta:
        ordering = ("pk",)
        constraints = [models.UniqueConstraint(fields=["exercise", "name"], name="alias_once")]

    def __str__(self) -> str:
        return self.name


class ExercisePattern(models.Model):
    """An exercise may cover several patterns: a squat jump is squat and jump."""

    exercise = models.ForeignKey(Exercise, on_delete=models.CASCADE, related_name="patterns")
    pattern = models.CharField(max_length=14, choices=Pattern)
    position = models.PositiveSmallIntegerField(default=0)

    class Meta:
        ordering = ("position", "pk")
        constraints = [
            models.UniqueConstraint(fields=["exercise", "pattern"], name="pattern_once"),
            choice_check("pattern", Pattern, "exercise_pattern_code"),
        ]


class ExerciseCue(models.Model):
    """A short cue; with a direction where the exercise has several."""

    exercise = models.ForeignKey(Exercise, on_delete=models.CASCADE, related_name="cues")
    direction = models.CharField(max_length=12, choices=Direction, blank=True)
    text = models.CharField(max_length=80)
    position = models.PositiveSmallIntegerField(default=0)

    class Meta:
        ordering = ("position", "pk")
        constraints = [
            models.CheckConstraint(condition=Q(direction__in=["", *Direction.values]), name="cue_direction_code"),
        ]


class ExerciseRegion(models.Model):
    """A body region the exercise loads in earnest, with its side sense."""

    exercise = models.ForeignKey(Exercise, on_delete=models.CASCADE, related_name="regions")
    region = models.CharField(max_length=12, choices=Region)
    side_sense = models.CharField(max_length=8, choices=SideSense)

    class Meta:
        ordering = ("pk",)
        constraints = [
            models.UniqueConstraint(fields=["exercise", "region"], name="region_once"),
            choice_check("region", Region, "exercise_region_code"),
            choice_check("side_sense", SideSense, "exercise_region_side"),
        ]


class EquipmentNeed(models.Model):
    """One kind inside an any-of group: every group must be met, inside a group any one kind does."""

    exercise = models.ForeignKey(Exercise, on_delete=models.CASCADE, related_name="needs")
    group = models.PositiveSmallIntegerField()
    kind = models.CharField(max_length=14, choices=Equipment)

    class Meta:
        ordering = ("group", "pk")
        constraints = [
            models.UniqueConstraint(fields=["exercise", "group", "kind"], name="need_once"),
            choice_check("kind", Equipment, "need_kind_code"),
        ]


class Swap(models.Model):
    """`exercise` may be replaced by `to`, for a reason."""

    exercise = models.ForeignKey(Exercise, on_delete=models.CASCADE, related_name="swaps")
    to = models.ForeignKey(Exercise, on_delete=models.PROTECT, related_name="swapped_from")
    reason = models.CharField(max_length=12, choices=SwapReason)
    region = models.CharField(max_length=12, choices=Region, blank=True)
    position = models.PositiveSmallIntegerField(default=0)

    class Meta:
        ordering = ("position", "pk")
        constraints = [
            models.UniqueConstraint(fields=["exercise", "to", "reason", "region"], name="swap_once"),
            models.CheckConstraint(condition=~Q(exercise=F("to")), name="swap_to_another"),
            choice_check("reason", SwapReason, "swap_reason_code"),
            models.CheckConstraint(
                condition=Q(reason="spares", region__in=Region.values) | (~Q(reason="spares") & Q(region="")),
                name="swap_region_when_sparing",
            ),
        ]
