"""The phases of a squad's season, each with the hard sets a week that are meant for a pattern."""

from __future__ import annotations

from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy

from coachhub.base.models import Pattern, choice_check
from coachhub.coaching.coverage import PRIMARY
from coachhub.coaching.review import phases
from coachhub.people.models import Squad
from coachhub.season.models_dates import SquadDateQuerySet


class PhaseCode(models.TextChoices):
    """The codes of `coaching.review.phases`."""

    GENERAL = "general", pgettext_lazy("phase", "general preparation")
    STRENGTH = "strength", pgettext_lazy("phase", "strength")
    POWER = "power", pgettext_lazy("phase", "power")
    IN_SEASON = "in_season", pgettext_lazy("phase", "in season")
    DELOAD = "deload", pgettext_lazy("phase", "deload")


class SeasonPhaseQuerySet(SquadDateQuerySet["SeasonPhase"]):
    pass


class SeasonPhase(models.Model):
    """From a day to a day, both included; those of a squad never overlap (its verb sees to that)."""

    squad = models.ForeignKey(Squad, on_delete=models.PROTECT, related_name="season_phases")
    code = models.CharField(_("phase"), max_length=9, choices=PhaseCode)
    from_on = models.DateField(_("from"))
    to_on = models.DateField(_("to"))

    objects = SeasonPhaseQuerySet.as_manager()

    class Meta:
        ordering = ("from_on", "pk")
        constraints = [
            choice_check("code", PhaseCode, "phase_code"),
            models.CheckConstraint(condition=Q(to_on__gte=F("from_on")), name="phase_ends_after_start"),
        ]

    def as_phase(self) -> phases.Phase:
        """For the checks of a coach."""
        targets = {row.pattern: phases.Target(row.low, row.high) for row in self.targets.all()}
        return phases.Phase(self.code, targets)  # type: ignore[arg-type]  # the database holds it to these codes


class PhaseTarget(models.Model):
    phase = models.ForeignKey(SeasonPhase, on_delete=models.CASCADE, related_name="targets")
    pattern = models.CharField(max_length=12, choices=[(code, Pattern(code).label) for code in PRIMARY])
    low = models.PositiveSmallIntegerField()
    high = models.PositiveSmallIntegerField()

    class Meta:
        ordering = ("pk",)
        constraints = [
            models.UniqueConstraint(fields=["phase", "pattern"], name="phase_target_once"),
            models.CheckConstraint(condition=Q(pattern__in=PRIMARY), name="phase_target_pattern"),
            models.CheckConstraint(condition=Q(high__gte=F("low"), high__lte=60), name="phase_target_range"),
        ]
