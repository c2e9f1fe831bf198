"""The squad's calendar: matches, gym slots, trainings, holidays; what athletes have besides; absences."""

from __future__ import annotations

from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from coachhub.base.actor import Actor, ActorKind
from coachhub.base.models import choice_check
from coachhub.coaching.series import Series
from coachhub.library.models import Venue
from coachhub.people.models import Athlete, Squad
from coachhub.season.models_dates import (
    LONGEST_UID,
    OWN_KINDS,
    SQUAD_KINDS,
    Counted,
    Happening,
    HappeningKind,
    HappeningQuerySet,
    SquadDateQuerySet,
    Weekday,
    weekdays_as_number,
)
from coachhub.season.models_feed import FeedLink, FeedLinkQuerySet
from coachhub.season.models_phase import PhaseCode, PhaseTarget, SeasonPhase

__all__ = [
    "OWN_KINDS",
    "SQUAD_KINDS",
    "Absence",
    "AbsenceReason",
    "FeedLink",
    "FeedLinkQuerySet",
    "GymSlot",
    "Happening",
    "HappeningKind",
    "HappeningQuerySet",
    "MatchDay",
    "MatchMinutes",
    "PhaseCode",
    "PhaseTarget",
    "SeasonPhase",
    "SkippedDay",
    "Weekday",
    "weekdays_as_number",
]


class MatchDayQuerySet(SquadDateQuerySet["MatchDay"]):
    pass


class MatchDay(Counted):
    squad = models.ForeignKey(Squad, on_delete=models.PROTECT, related_name="match_days")
    on_date = models.DateField(_("date"))
    starts_at = models.TimeField(_("starts at"), null=True, blank=True)
    opponent = models.CharField(_("against"), max_length=80, blank=True)
    is_home = models.BooleanField(_("at home"), default=True)
    uid = models.CharField(max_length=LONGEST_UID, blank=True, editable=False)
    cancelled_at = models.DateTimeField(null=True, blank=True, editable=False)

    objects = MatchDayQuerySet.as_manager()

    class Meta:
        ordering = ("on_date", "starts_at", "pk")
        constraints = [
            models.UniqueConstraint(fields=["squad", "on_date", "starts_at", "opponent"], name="match_once"),
            models.UniqueConstraint(
                fields=["squad", "on_date", "opponent"], condition=Q(starts_at=None), name="match_once_without_time"
            ),
            models.UniqueConstraint(fields=["squad", "uid"], condition=~Q(uid=""), name="match_uid_once"),
        ]


class MatchMinutes(models.Model):
    match_day = models.ForeignKey(MatchDay, on_delete=models.CASCADE, related_name="minutes_played")
    athlete = models.ForeignKey(Athlete, on_delete=models.PROTECT, related_name="match_minutes")
    minutes = models.PositiveSmallIntegerField(_("minutes played"))

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["match_day", "athlete"], name="match_minutes_once"),
            models.CheckConstraint(condition=Q(minutes__lte=240), name="match_minutes_plausible"),
        ]


class GymSlotQuerySet(SquadDateQuerySet["GymSlot"]):
    def visible_to(self, actor: Actor) -> GymSlotQuerySet:
        """As the squad is seen, but not by a head coach, who reads matches and trainings."""
        return self.none() if actor.kind is ActorKind.HEAD_COACH else super().visible_to(actor)


class GymSlot(Counted):
    """A squad's standing hour in a gym."""

    squad = models.ForeignKey(Squad, on_delete=models.PROTECT, related_name="gym_slots")
    venue = models.ForeignKey(Venue, on_delete=models.PROTECT, related_name="gym_slots")
    weekday = models.PositiveSmallIntegerField(_("weekday"), choices=Weekday)
    starts_at = models.TimeField(_("starts at"))
    minutes = models.PositiveSmallIntegerField(_("minutes"))
    from_on = models.DateField(_("from"))
    to_on = models.DateField(_("to"), null=True, blank=True)

    objects = GymSlotQuerySet.as_manager()

    class Meta:
        ordering = ("weekday", "starts_at", "pk")
        constraints = [
            models.CheckConstraint(condition=Q(weekday__in=Weekday.values), name="slot_weekday"),
            models.CheckConstraint(condition=Q(minutes__gte=10, minutes__lte=300), name="slot_minutes"),
            models.CheckConstraint(condition=Q(to_on=None) | Q(to_on__gte=F("from_on")), name="slot_ends_after_start"),
        ]

    @property
    def is_series(self) -> bool:
        return self.to_on is None or self.to_on > self.from_on

    @property
    def series(self) -> Series:
        """Its rule, skipped days not looked at."""
        return Series(frozenset([self.weekday]), self.from_on, self.to_on)


class SkippedDay(models.Model):
    """A day on which a series does not take place: called off, and then still shown; or moved, and shown elsewhere."""

    happening = models.ForeignKey(
        Happening, on_delete=models.CASCADE, null=True, blank=True, related_name="skipped_days"
    )
    slot = models.ForeignKey(GymSlot, on_delete=models.CASCADE, null=True, blank=True, related_name="skipped_days")
    on_date = models.DateField()
    is_cancelled = models.BooleanField(default=True)

    class Meta:
        ordering = ("on_date", "pk")
        constraints = [
            models.CheckConstraint(
                condition=Q(happening=None, slot__isnull=False) | Q(happening__isnull=False, slot=None),
                name="skipped_day_of_one_series",
            ),
            models.UniqueConstraint(fields=["happening", "on_date"], name="happening_skipped_once"),
            models.UniqueConstraint(fields=["slot", "on_date"], name="slot_skipped_once"),
        ]


class AbsenceReason(models.TextChoices):
    ILL = "ill", _("ill")
    AWAY = "away", _("away")
    SCHOOL = "school", _("school or work")
    OTHER = "other", _("other")


class Absence(models.Model):
    athlete = models.ForeignKey(Athlete, on_delete=models.PROTECT, related_name="absences")
    from_on = models.DateField(_("from"))
    to_on = models.DateField(_("to"))
    reason = models.CharField(_("why"), max_length=8, choices=AbsenceReason)

    class Meta:
        ordering = ("from_on", "pk")
        constraints = [
            models.CheckConstraint(condition=Q(to_on__gte=F("from_on")), name="absence_ends_after_start"),
            choice_check("reason", AbsenceReason, "absence_reason"),
        ]
