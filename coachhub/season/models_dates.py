"""What every row of the calendar shares: who sees it, and how a calendar program learns that it has changed."""

from __future__ import annotations

from typing import Any, Final, Self, TypeVar

from django.db import models
from django.utils.translation import gettext_lazy as _

from coachhub.base.actor import Actor, ActorKind
from coachhub.base.clock import now, today
from coachhub.coaching.series import Series
from coachhub.people.models import Athlete, Membership, Squad

Dates = TypeVar("Dates", bound=models.Model)
LONGEST_UID: Final = 200


def squads_seen(actor: Actor) -> models.Q:
    """Of a row's `squad`. Owner: all; staff: their squads; an athlete: those of today; guardians: none yet."""
    if actor.sees_all:
        return models.Q(squad__isnull=False)
    if actor.is_staff:
        return models.Q(squad__in=actor.squad_ids)
    if actor.kind is not ActorKind.ATHLETE:
        return models.Q(pk__in=[])
    own = Membership.objects.on(today()).filter(athlete__in=actor.athlete_ids, squad__archived_at=None)
    return models.Q(squad__in=own.values("squad"))


class SquadDateQuerySet(models.QuerySet[Dates]):
    def visible_to(self, actor: Actor) -> Self:
        return self.filter(squads_seen(actor))


class Weekday(models.IntegerChoices):
    MONDAY = 0, _("Monday")
    TUESDAY = 1, _("Tuesday")
    WEDNESDAY = 2, _("Wednesday")
    THURSDAY = 3, _("Thursday")
    FRIDAY = 4, _("Friday")
    SATURDAY = 5, _("Saturday")
    SUNDAY = 6, _("Sunday")


class Counted(models.Model):
    """`sequence` and `changed_at` go out with the calendar feed (RFC 5545, 3.8.7.3 and 3.8.7.4)."""

    changed_at = models.DateTimeField(default=now, editable=False)
    sequence = models.PositiveIntegerField(default=0, editable=False)

    class Meta:
        abstract = True

    def change(self, **values: Any) -> None:
        """Set and save; a calendar program takes the row anew."""
        for name, value in values.items():
            setattr(self, name, value)
        self.sequence += 1
        self.changed_at = now()
        self.full_clean()
        self.save()


class HappeningKind(models.TextChoices):
    TRAINING = "training", _("training")
    HOLIDAY = "holiday", _("holiday")
    TEST = "test", _("test")
    OTHER = "other", _("other")
    SCHOOL = "school", _("school")
    SPORT = "sport", _("other sport")


# What a squad has together, and what an athlete has besides.
SQUAD_KINDS: Final = (HappeningKind.TRAINING, HappeningKind.HOLIDAY, HappeningKind.TEST, HappeningKind.OTHER)
OWN_KINDS: Final = (HappeningKind.SPORT, HappeningKind.SCHOOL)
# What a head coach reads beside the matches.
HEAD_COACH_KINDS: Final = (HappeningKind.TRAINING,)


class HappeningQuerySet(models.QuerySet["Happening"]):
    def visible_to(self, actor: Actor) -> HappeningQuerySet:
        """The squad's as the squad is seen; an athlete's own by themselves and by who reads training of them."""
        if actor.kind is ActorKind.HEAD_COACH:
            return self.filter(squads_seen(actor), kind__in=HEAD_COACH_KINDS)
        own = models.Q(athlete__in=Athlete.objects.visible_to(actor).values("pk"))
        return self.filter(squads_seen(actor) | own)


class Happening(Counted):
    """A date of a squad or of one athlete. With `weekdays` it is a series, which may be without end; else it lasts from
    a day to a day.

    `weekdays`: 1 for Monday, 2 for Tuesday, 4 for Wednesday …, added up. `uid`: by which a file brings it again.
    """

    squad = models.ForeignKey(Squad, on_delete=models.PROTECT, null=True, blank=True, related_name="happenings")
    athlete = models.ForeignKey(Athlete, on_delete=models.PROTECT, null=True, blank=True, related_name="happenings")
    kind = models.CharField(_("what"), max_length=8, choices=HappeningKind)
    name = models.CharField(_("name"), max_length=80, blank=True)
    place = models.CharField(_("place"), max_length=80, blank=True)
    from_on = models.DateField(_("from"))
    to_on = models.DateField(_("to"), null=True, blank=True)
    weekdays = models.PositiveSmallIntegerField(default=0)
    every_weeks = models.PositiveSmallIntegerField(_("every … weeks"), default=1)
    starts_at = models.TimeField(_("starts at"), null=True, blank=True)
    minutes = models.PositiveSmallIntegerField(_("minutes"), null=True, blank=True)
    uid = models.CharField(max_length=LONGEST_UID, blank=True, editable=False)
    cancelled_at = models.DateTimeField(null=True, blank=True, editable=False)

    objects = HappeningQuerySet.as_manager()

    class Meta:
        ordering = ("from_on", "starts_at", "pk")
        constraints = [
            models.CheckConstraint(
                condition=models.Q(squad=None, athlete__isnull=False, kind__in=OWN_KINDS)
                | models.Q(squad__isnull=False, athlete=None, kind__in=SQUAD_KINDS),
                name="happening_of_squad_or_athlete",
            ),
            models.CheckConstraint(
                condition=models.Q(to_on=None) | models.Q(to_on__gte=models.F("from_on")),
                name="happening_ends_after_start",
            ),
            models.CheckConstraint(
                condition=models.Q(weekdays__gt=0) | models.Q(to_on__isnull=False), name="happening_ends_or_repeats"
            ),
            models.CheckConstraint(condition=models.Q(weekdays__lte=127), name="happening_weekdays"),
            models.CheckConstraint(condition=models.Q(every_weeks__range=(1, 8)), name="happening_every_weeks"),
            models.CheckConstraint(
                condition=models.Q(minutes=None) | models.Q(minutes__range=(5, 1440)), name="happening_minutes"
            ),
            models.UniqueConstraint(fields=["squad", "uid"], condition=~models.Q(uid=""), name="happening_uid_once"),
        ]

    @property
    def is_series(self) -> bool:
        return self.weekdays > 0

    @property
    def weekday_set(self) -> frozenset[int]:
        return frozenset(day for day in Weekday.values if self.weekdays >> day & 1)

    @property
    def series(self) -> Series:
        """Its rule, skipped days not looked at."""
        return Series(self.weekday_set, self.from_on, self.to_on, self.every_weeks)


def weekdays_as_number(days: Any) -> int:
    """What `Happening.weekdays` stores."""
    return sum(1 << int(day) for day in set(days))
