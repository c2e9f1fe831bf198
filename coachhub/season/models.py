"""The squad's calendar: matches, gym slots, absences."""

from __future__ import annotations

from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from coachhub.base.models import choice_check
from coachhub.library.models import Venue
from coachhub.people.models import Athlete, Squad


class MatchDay(models.Model):
    squad = models.ForeignKey(Squad, on_delete=models.PROTECT, related_name="match_days")
    on_date = models.DateField(_("date"))
    starts_at = models.TimeField(_("starts at"), null=True, blank=True)
    opponent = models.CharField(_("against"), max_length=80, blank=True)
    is_home = models.BooleanField(_("at home"), default=True)
    cancelled_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ("on_date", "starts_at", "pk")
        constraints = [
            models.UniqueConstraint(fields=["squad", "on_date", "starts_at", "opponent"], name="match_once"),
            models.UniqueConstraint(
                fields=["squad", "on_date", "opponent"], condition=Q(starts_at=None), name="match_once_without_time"
            ),
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


class Weekday(models.IntegerChoices):
    MONDAY = 0, _("Monday")
    TUESDAY = 1, _("Tuesday")
    WEDNESDAY = 2, _("Wednesday")
    THURSDAY = 3, _("Thursday")
    FRIDAY = 4, _("Friday")
    SATURDAY = 5, _("Saturday")
    SUNDAY = 6, _("Sunday")


class GymSlot(models.Model):
    """A squad's standing hour in a gym."""

    squad = models.ForeignKey(Squad, on_delete=models.PROTECT, related_name="gym_slots")
    venue = models.ForeignKey(Venue, on_delete=models.PROTECT, related_name="gym_slots")
    weekday = models.PositiveSmallIntegerField(_("weekday"), choices=Weekday)
    starts_at = models.TimeField(_("starts at"))
    minutes = models.PositiveSmallIntegerField(_("minutes"))
    from_on = models.DateField(_("from"))
    to_on = models.DateField(_("to"), null=True, blank=True)

    class Meta:
        ordering = ("weekday", "starts_at", "pk")
        constraints = [
            models.CheckConstraint(condition=Q(weekday__in=Weekday.values), name="slot_weekday"),
            models.CheckConstraint(condition=Q(minutes__gte=10, minutes__lte=300), name="slot_minutes"),
            models.CheckConstraint(condition=Q(to_on=None) | Q(to_on__gte=F("from_on")), name="slot_ends_after_start"),
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
