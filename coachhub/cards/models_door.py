"""What happens at the door of the gym: a session changed on the spot, who shares a station, who goes with whom."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from coachhub.base.models import choice_check
from coachhub.cards.models_card import Assignment, Card
from coachhub.library.models import Exercise, Venue
from coachhub.people.models import Athlete


class DoorChange(models.Model):
    """One change for everybody's card, or for one card alone; it stays in force until it is undone.

    `steps` holds what it does (coaching.door.DoorStep), only ever read whole.
    """

    uuid = models.UUIDField(unique=True)
    assignment = models.ForeignKey(Assignment, on_delete=models.PROTECT, related_name="door_changes")
    card = models.ForeignKey(Card, on_delete=models.PROTECT, null=True, blank=True, related_name="door_changes")
    steps = models.JSONField()
    venue_before = models.ForeignKey(Venue, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    made_at = models.DateTimeField()
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    undone_at = models.DateTimeField(null=True, blank=True)
    undone_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")

    class Meta:
        ordering = ("pk",)


class StationPlace(models.Model):
    """Which station of its assignment a card trains at; the newest row of a card counts, no number means none."""

    card = models.ForeignKey(Card, on_delete=models.PROTECT, related_name="station_places")
    number = models.PositiveSmallIntegerField(_("station"), null=True, blank=True)
    placed_at = models.DateTimeField()
    placed_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")

    class Meta:
        ordering = ("-pk",)
        constraints = [
            models.CheckConstraint(condition=Q(number=None) | Q(number__range=(1, 99)), name="station_number")
        ]


class WishKind(models.TextChoices):
    TOGETHER = "together", _("together")
    APART = "apart", _("apart")


class PairWishQuerySet(models.QuerySet["PairWish"]):
    def standing(self) -> PairWishQuerySet:
        return self.filter(ended_on=None)


class PairWish(models.Model):
    """Two athletes who share a station, or never do; `athlete` has the lower key of the two."""

    athlete = models.ForeignKey(Athlete, on_delete=models.PROTECT, related_name="+")
    other = models.ForeignKey(Athlete, on_delete=models.PROTECT, related_name="+")
    kind = models.CharField(_("kept"), max_length=8, choices=WishKind)
    word = models.CharField(_("a word on it"), max_length=30, blank=True)
    from_on = models.DateField()
    ended_on = models.DateField(null=True, blank=True)
    set_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")

    objects = PairWishQuerySet.as_manager()

    class Meta:
        ordering = ("pk",)
        constraints = [
            choice_check("kind", WishKind, "wish_kind"),
            models.CheckConstraint(condition=Q(athlete__lt=F("other")), name="wish_pair_in_order"),
            models.CheckConstraint(condition=Q(ended_on=None) | Q(ended_on__gte=F("from_on")), name="wish_ends_after"),
            models.UniqueConstraint(
                fields=["athlete", "other"], condition=Q(ended_on=None), name="one_standing_wish_a_pair"
            ),
        ]


class BarHeight(models.Model):
    """Which hole of the rack an athlete sets the bar at, for an exercise at a venue; the newest row counts."""

    athlete = models.ForeignKey(Athlete, on_delete=models.PROTECT, related_name="bar_heights")
    exercise = models.ForeignKey(Exercise, on_delete=models.PROTECT, related_name="+")
    venue = models.ForeignKey(Venue, on_delete=models.PROTECT, related_name="+")
    hole = models.PositiveSmallIntegerField(_("rack hole"))
    noted_at = models.DateTimeField()
    noted_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")

    class Meta:
        ordering = ("-pk",)
        indexes = [models.Index(fields=["athlete", "exercise", "venue"], name="bar_height_of")]
        constraints = [models.CheckConstraint(condition=Q(hole__range=(1, 60)), name="bar_height_hole")]
