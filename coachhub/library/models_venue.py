"""Places to train and what stands there."""

from __future__ import annotations

from decimal import Decimal
from typing import ClassVar

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from coachhub.base.models import Archivable, LoadUnit, MassUnit, Named, choice_check
from coachhub.library.models_exercise import Equipment, Exercise


class LengthUnit(models.TextChoices):
    M = "m", _("metres (m)")
    YD = "yd", _("yards (yd)")


class HeightUnit(models.TextChoices):
    CM = "cm", _("centimetres (cm)")
    IN = "in", _("inches (in)")


class Venue(Named, Archivable):
    key_fields: ClassVar[tuple[str, ...]] = ("name",)

    name = models.CharField(_("name"), max_length=60, unique=True)
    unit = models.CharField(_("unit on the plates"), max_length=2, choices=MassUnit, default=MassUnit.KG)
    is_supervised = models.BooleanField(
        _("a coach is present"),
        default=True,
        help_text=_("Where no coach is present, under-18s get only exercises cleared for it."),
    )
    lane_value = models.DecimalField(_("carry lane"), max_digits=5, decimal_places=1, null=True, blank=True)
    lane_unit = models.CharField(_("unit of the lane"), max_length=2, choices=LengthUnit, default=LengthUnit.M)
    capacity = models.PositiveSmallIntegerField(_("places on the floor"), null=True, blank=True)
    note = models.CharField(_("note"), max_length=200, blank=True)

    class Meta:
        ordering = ("search_key", "pk")
        constraints = [
            choice_check("unit", MassUnit, "venue_unit"),
            choice_check("lane_unit", LengthUnit, "venue_lane_unit"),
            models.CheckConstraint(condition=Q(lane_value=None) | Q(lane_value__gt=0), name="venue_lane_positive"),
            models.CheckConstraint(condition=Q(capacity=None) | Q(capacity__gt=0), name="venue_capacity_positive"),
        ]

    def __str__(self) -> str:
        return self.name


class BarKind(models.TextChoices):
    BARBELL = "barbell", _("barbell")
    HEX_BAR = "hex_bar", _("hex bar")


class StockBar(models.Model):
    venue = models.ForeignKey(Venue, on_delete=models.CASCADE, related_name="bars")
    kind = models.CharField(_("kind"), max_length=12, choices=BarKind, default=BarKind.BARBELL)
    mass_value = models.DecimalField(_("mass"), max_digits=6, decimal_places=2)
    mass_unit = models.CharField(_("unit"), max_length=2, choices=MassUnit, default=MassUnit.KG)
    collar_value = models.DecimalField(_("each collar"), max_digits=5, decimal_places=2, default=Decimal(0))
    count = models.PositiveSmallIntegerField(_("how many"), default=1)

    class Meta:
        ordering = ("kind", "-mass_value", "pk")
        constraints = [
            models.UniqueConstraint(fields=["venue", "kind", "mass_value", "mass_unit"], name="bar_once"),
            models.CheckConstraint(condition=Q(mass_value__gt=0) & Q(collar_value__gte=0), name="bar_mass_positive"),
            choice_check("kind", BarKind, "bar_kind"),
            choice_check("mass_unit", MassUnit, "bar_unit"),
        ]


class StockPlate(models.Model):
    """Plates go on in pairs, so pairs are what is counted."""

    venue = models.ForeignKey(Venue, on_delete=models.CASCADE, related_name="plates")
    mass_value = models.DecimalField(_("mass of one"), max_digits=6, decimal_places=2)
    mass_unit = models.CharField(_("unit"), max_length=2, choices=MassUnit, default=MassUnit.KG)
    pairs = models.PositiveSmallIntegerField(_("pairs"), default=1)

    class Meta:
        ordering = ("-mass_value", "pk")
        constraints = [
            models.UniqueConstraint(fields=["venue", "mass_value", "mass_unit"], name="plate_once"),
            models.CheckConstraint(condition=Q(mass_value__gt=0), name="plate_mass_positive"),
            choice_check("mass_unit", MassUnit, "plate_unit"),
        ]


class WeightKind(models.TextChoices):
    DUMBBELL = "dumbbell", _("dumbbell")
    KETTLEBELL = "kettlebell", _("kettlebell")
    MEDICINE_BALL = "medicine_ball", _("medicine ball")
    SLAM_BALL = "slam_ball", _("slam ball")


class StockWeight(models.Model):
    """Weights that are held: counted in single pieces, so a pair of dumbbells is two."""

    venue = models.ForeignKey(Venue, on_delete=models.CASCADE, related_name="weights")
    kind = models.CharField(_("kind"), max_length=14, choices=WeightKind, default=WeightKind.DUMBBELL)
    mass_value = models.DecimalField(_("mass"), max_digits=6, decimal_places=2)
    mass_unit = models.CharField(_("unit"), max_length=2, choices=MassUnit, default=MassUnit.KG)
    count = models.PositiveSmallIntegerField(_("pieces"), default=2)

    class Meta:
        ordering = ("kind", "mass_value", "pk")
        constraints = [
            models.UniqueConstraint(fields=["venue", "kind", "mass_value", "mass_unit"], name="weight_once"),
            models.CheckConstraint(condition=Q(mass_value__gt=0), name="weight_mass_positive"),
            choice_check("kind", WeightKind, "weight_kind"),
            choice_check("mass_unit", MassUnit, "weight_unit"),
        ]


class ScaleKind(models.TextChoices):
    MACHINE = "machine", _("machine")
    CABLE = "cable", _("cable")


class StockScale(models.Model):
    """What one machine or cable can be set to here: texts of decimals, ascending. Its numbers count here alone."""

    venue = models.ForeignKey(Venue, on_delete=models.CASCADE, related_name="scales")
    kind = models.CharField(_("kind"), max_length=8, choices=ScaleKind)
    name = models.CharField(_("name"), max_length=40)
    unit = models.CharField(_("unit"), max_length=2, choices=LoadUnit)
    settings = models.JSONField()
    exercise = models.ForeignKey(Exercise, on_delete=models.PROTECT, null=True, blank=True, related_name="+")

    class Meta:
        ordering = ("kind", "name", "pk")
        constraints = [
            choice_check("kind", ScaleKind, "scale_kind"),
            choice_check("unit", LoadUnit, "scale_unit"),
        ]


class StockItem(models.Model):
    """Everything else, as counts: racks, benches; bands by colour or tension, boxes by height, where that is known."""

    venue = models.ForeignKey(Venue, on_delete=models.CASCADE, related_name="items")
    kind = models.CharField(_("kind"), max_length=14, choices=Equipment)
    label = models.CharField(_("colour or tension"), max_length=30, blank=True)
    # 0 where nobody has measured: part of what tells two rows apart.
    height_value = models.DecimalField(_("height"), max_digits=5, decimal_places=1, default=Decimal(0))
    height_unit = models.CharField(_("unit"), max_length=2, choices=HeightUnit, default=HeightUnit.CM)
    count = models.PositiveSmallIntegerField(_("how many"), default=1)

    class Meta:
        ordering = ("kind", "height_value", "pk")
        constraints = [
            models.UniqueConstraint(fields=["venue", "kind", "label", "height_value", "height_unit"], name="item_once"),
            models.CheckConstraint(condition=Q(height_value__gte=0), name="item_height"),
            choice_check("height_unit", HeightUnit, "item_height_unit"),
            choice_check("kind", Equipment, "item_kind"),
        ]
