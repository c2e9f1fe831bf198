"""Abstract models that every record app shares."""

from __future__ import annotations

from typing import Any, ClassVar

from django.db import models
from django.utils.translation import gettext_lazy as _

from coachhub.base.text import fold


class Archivable(models.Model):
    """Nothing is deleted: a row that is no longer used is put away with its date."""

    archived_at = models.DateTimeField(null=True, blank=True, editable=False)

    class Meta:
        abstract = True

    @property
    def is_archived(self) -> bool:
        return self.archived_at is not None


class Named(models.Model):
    """A row people find by its name; `search_key` is kept on every save, so both databases sort and search alike."""

    key_fields: ClassVar[tuple[str, ...]] = ("name",)

    search_key = models.CharField(max_length=200, editable=False, db_index=True)

    class Meta:
        abstract = True

    def save(self, *args: Any, **kwargs: Any) -> None:
        self.renew_key()
        super().save(*args, **kwargs)

    def renew_key(self) -> None:
        """Before rows are written in bulk, which does not go through `save`."""
        self.search_key = fold(" ".join(str(getattr(self, f)) for f in self.key_fields))[:200]


class MassUnit(models.TextChoices):
    KG = "kg", _("kilograms (kg)")
    LB = "lb", _("pounds (lb)")


class LoadUnit(models.TextChoices):
    """What a load is read in; the number of a plate says nothing of kilograms, and counts at its own stack alone."""

    KG = "kg", _("kilograms (kg)")
    LB = "lb", _("pounds (lb)")
    PLATE = "pl", _("plate number (pl)")


class BodySide(models.TextChoices):
    """The side of a body part that hurts or is restricted."""

    BOTH = "both", _("both sides")
    LEFT = "left", _("left")
    RIGHT = "right", _("right")


class Region(models.TextChoices):
    """Body regions, from head to foot; what an exercise loads, where it hurts, what is restricted."""

    NECK = "neck", _("neck")
    SHOULDER = "shoulder", _("shoulder")
    ELBOW = "elbow", _("elbow")
    WRIST_HAND = "wrist_hand", _("wrist or hand")
    CHEST = "chest", _("chest")
    UPPER_BACK = "upper_back", _("upper back")
    LOW_BACK = "low_back", _("lower back")
    ABDOMEN = "abdomen", _("abdomen")
    HIP = "hip", _("hip")
    GROIN = "groin", _("groin")
    THIGH_FRONT = "thigh_front", _("front of the thigh")
    THIGH_BACK = "thigh_back", _("back of the thigh")
    KNEE = "knee", _("knee")
    LOWER_LEG = "lower_leg", _("lower leg")
    ANKLE = "ankle", _("ankle")
    FOOT = "foot", _("foot")


class Pattern(models.TextChoices):
    """Movement patterns; the five primary ones first."""

    HINGE = "hinge", _("hinge")
    SQUAT = "squat", _("squat")
    LUNGE = "lunge", _("lunge")
    PUSH = "push", _("push")
    PULL = "pull", _("pull")
    CARRY = "carry", _("carry")
    TRUNK = "trunk", _("trunk")
    JUMP = "jump", _("jump")
    LANDING = "landing", _("landing")
    SPRINT = "sprint", _("sprint")
    AGILITY = "agility", _("agility")
    ROTATION = "rotation", _("rotation")
    LOCOMOTION = "locomotion", _("locomotion")
    MOBILITY = "mobility", _("mobility")
    HIP = "hip", _("hip control")
    SHOULDER = "shoulder", _("shoulder control")
    ANKLE = "ankle", _("ankle")
    KNEE_FLEXION = "knee_flexion", _("knee flexion")
    RECOVERY = "recovery", _("recovery")


class SegmentKind(models.TextChoices):
    WARM_UP = "warm_up", _("Warm-up")
    ACTIVATION = "activation", _("Activation")
    ATHLETICISM = "athleticism", _("Athleticism")
    STRENGTH = "strength", _("Strength")
    CONDITIONING = "conditioning", _("Conditioning")
    COOL_DOWN = "cool_down", _("Cool-down")


def choice_check(field: str, choices: type[models.TextChoices], name: str) -> models.CheckConstraint:
    """The database holds a code column to its named codes."""
    return models.CheckConstraint(condition=models.Q(**{f"{field}__in": choices.values}), name=name)
