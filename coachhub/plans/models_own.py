"""Own activation work: items that join every card of an athlete, a squad or a position, whatever the session is."""

from __future__ import annotations

from datetime import date
from typing import ClassVar

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from coachhub.base.actor import Actor
from coachhub.base.models import Archivable, Named
from coachhub.library.models import Exercise
from coachhub.people.models import Athlete, Squad
from coachhub.plans.models_written import DoseColumns, dose_constraints


class OwnSet(Named, Archivable):
    """Items saved together under a name, to be given to several."""

    key_fields: ClassVar[tuple[str, ...]] = ("name",)

    name = models.CharField(_("name"), max_length=80, unique=True)
    created_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")

    class Meta:
        ordering = ("search_key", "pk")

    def __str__(self) -> str:
        return self.name


class OwnDose(DoseColumns):
    """An exercise with its dose, sets and goal; `position` 0 is the most important."""

    exercise = models.ForeignKey(Exercise, on_delete=models.PROTECT, related_name="+")
    sets = models.PositiveSmallIntegerField(_("sets"), default=1)
    goal = models.CharField(_("goal"), max_length=120, blank=True)
    position = models.PositiveSmallIntegerField(default=0)

    class Meta:
        abstract = True


class OwnSetItem(OwnDose):
    own_set = models.ForeignKey(OwnSet, on_delete=models.CASCADE, related_name="items")

    class Meta:
        ordering = ("position", "pk")
        constraints = [
            models.UniqueConstraint(fields=["own_set", "exercise"], name="own_set_item_once"),
            models.CheckConstraint(condition=Q(sets__range=(1, 20)), name="own_set_item_sets"),
            *dose_constraints("own_set_item"),
        ]


class OwnItemQuerySet(models.QuerySet["OwnItem"]):
    def standing(self) -> OwnItemQuerySet:
        """In force: the review date only raises a question."""
        return self.filter(ended_at=None)

    def visible_to(self, actor: Actor) -> OwnItemQuerySet:
        """Owner: all; staff: items of athletes and squads they see, and of a position in any squad."""
        if actor.sees_all:
            return self
        if not (actor.may_write or actor.may_log or actor.sees_health):
            return self.none()
        return self.filter(
            Q(athlete__in=Athlete.objects.visible_to(actor))
            | Q(squad__in=actor.squad_ids)
            | Q(athlete=None, squad=None)
        )

    def editable_by(self, actor: Actor) -> OwnItemQuerySet:
        """Owner: all; coach: those of their athletes and squads, and no position of every squad."""
        if actor.sees_all:
            return self
        return self.visible_to(actor).exclude(athlete=None, squad=None) if actor.may_write else self.none()


class OwnItem(OwnDose):
    """For one athlete, or for a squad, or for whoever plays a position (in one squad or in all)."""

    athlete = models.ForeignKey(Athlete, on_delete=models.PROTECT, null=True, blank=True, related_name="own_items")
    squad = models.ForeignKey(Squad, on_delete=models.PROTECT, null=True, blank=True, related_name="own_items")
    player_position = models.CharField(_("position"), max_length=40, blank=True)
    from_on = models.DateField(_("from"))
    review_on = models.DateField(_("look at again on"), null=True, blank=True)
    weekdays = models.JSONField(_("on"), default=list, blank=True, help_text=_("None chosen: every day."))
    from_set = models.ForeignKey(OwnSet, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    added_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    added_at = models.DateTimeField()
    ended_at = models.DateTimeField(null=True, blank=True)
    ended_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")

    objects = OwnItemQuerySet.as_manager()

    class Meta:
        ordering = ("position", "pk")
        constraints = [
            models.CheckConstraint(
                condition=Q(athlete__isnull=False, squad=None, player_position="")
                | (Q(athlete=None) & (Q(squad__isnull=False) | ~Q(player_position=""))),
                name="own_item_for_somebody",
            ),
            models.CheckConstraint(condition=Q(sets__range=(1, 20)), name="own_item_sets"),
            models.CheckConstraint(
                condition=Q(review_on=None) | Q(review_on__gte=F("from_on")), name="own_item_review_after_start"
            ),
            models.CheckConstraint(
                condition=Q(ended_at=None, ended_by=None) | Q(ended_at__isnull=False, ended_by__isnull=False),
                name="own_item_ended_by_someone",
            ),
            *dose_constraints("own_item"),
        ]

    def is_on(self, day: date) -> bool:
        """Whether it is for that day: it has begun, and the weekday is one of its own."""
        return self.from_on <= day and (not self.weekdays or day.weekday() in self.weekdays)

    @property
    def line_key(self) -> str:
        """The name of its line on every card."""
        return f"o{self.pk}"
