"""Club, squads, athletes, guardians, staff."""

from __future__ import annotations

from datetime import date
from typing import ClassVar

from django.conf import settings
from django.db import models
from django.db.models import Exists, F, OuterRef, Q
from django.utils.translation import gettext_lazy as _

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.base.models import Archivable, MassUnit, Named, choice_check
from coachhub.coaching.limits import ADULT_AGE

OLDEST_YEARS, YOUNGEST_YEARS = 100, 5


class Club(models.Model):
    """The single row of this installation."""

    name = models.CharField(_("club name"), max_length=80)
    unit = models.CharField(_("unit"), max_length=2, choices=MassUnit, default=MassUnit.KG)
    time_zone = models.CharField(_("time zone"), max_length=60, default="UTC")
    accent = models.CharField(_("accent colour"), max_length=7, default="#0b5d4a")
    is_demo = models.BooleanField(default=False, editable=False)
    gap_days = models.PositiveSmallIntegerField(
        _("a break that is eased, days"),
        default=14,
        help_text=_("After so many days without a movement pattern the first cards are eased, fewer sets first."),
    )

    class Meta:
        constraints = [
            models.CheckConstraint(condition=Q(pk=1), name="one_club"),
            models.CheckConstraint(condition=Q(gap_days__range=(7, 90)), name="club_gap_days"),
            choice_check("unit", MassUnit, "club_unit"),
        ]

    def __str__(self) -> str:
        return self.name


class SquadQuerySet(models.QuerySet["Squad"]):
    def visible_to(self, actor: Actor) -> SquadQuerySet:
        """Owner: all; staff: their squads; nobody else sees a squad."""
        if actor.sees_all:
            return self
        return self.filter(pk__in=actor.squad_ids) if actor.is_staff else self.none()


class Squad(Named, Archivable):
    key_fields: ClassVar[tuple[str, ...]] = ("name",)

    name = models.CharField(_("name"), max_length=60, unique=True)
    note = models.CharField(_("note"), max_length=200, blank=True)
    is_paper_only = models.BooleanField(
        _("on paper only, no phones"),
        default=False,
        help_text=_(
            "Nobody is offered a code for a phone; cards are printed and typed in. What was done is always taken."
        ),
    )

    objects = SquadQuerySet.as_manager()

    class Meta:
        ordering = ("search_key", "pk")

    def __str__(self) -> str:
        return self.name


class Level(models.TextChoices):
    NOVICE = "novice", _("novice")
    INTERMEDIATE = "intermediate", _("intermediate")
    ADVANCED = "advanced", _("advanced")


class DominantSide(models.TextChoices):
    UNKNOWN = "", _("not noted")
    LEFT = "left", _("left")
    RIGHT = "right", _("right")
    BOTH = "both", _("both")


class AthleteQuerySet(models.QuerySet["Athlete"]):
    def live(self) -> AthleteQuerySet:
        return self.filter(archived_at=None)

    def in_squads(self, squad_ids: frozenset[int], on: date) -> AthleteQuerySet:
        """Members of any of the squads on that day."""
        rows = Membership.objects.filter(athlete=OuterRef("pk"), squad__in=squad_ids).on(on)
        return self.filter(Exists(rows))

    def members_of(self, squad_id: int, on: date) -> AthleteQuerySet:
        """Members of the squad on that day who have not left the club."""
        return self.live().in_squads(frozenset([squad_id]), on)

    def visible_to(self, actor: Actor) -> AthleteQuerySet:
        """Owner: all; staff: members of their squads today; athlete and guardian: their own."""
        if actor.sees_all:
            return self
        if actor.is_staff:
            return self.in_squads(actor.squad_ids, today())
        return self.filter(pk__in=actor.athlete_ids)


class Athlete(Named, Archivable):
    key_fields: ClassVar[tuple[str, ...]] = ("family_name", "given_name")

    given_name = models.CharField(_("given name"), max_length=60)
    family_name = models.CharField(_("family name"), max_length=60)
    born_on = models.DateField(_("date of birth"))
    unit = models.CharField(_("reads loads in"), max_length=2, choices=MassUnit, default=MassUnit.KG)
    level = models.CharField(_("level"), max_length=12, choices=Level, default=Level.NOVICE)
    is_rir_taught = models.BooleanField(
        _("has been taught reps in reserve"),
        default=False,
        help_text=_("Until then nobody asks for reps in reserve, and no load is set by them."),
    )
    position = models.CharField(_("position"), max_length=40, blank=True)
    dominant_side = models.CharField(_("dominant side"), max_length=5, choices=DominantSide, blank=True)
    note = models.TextField(_("note"), max_length=1000, blank=True)
    emergency_contact = models.CharField(_("emergency contact"), max_length=120, blank=True)
    health_alert = models.CharField(_("asthma, allergy or other alert"), max_length=200, blank=True)

    objects = AthleteQuerySet.as_manager()

    class Meta:
        ordering = ("search_key", "pk")
        constraints = [
            choice_check("unit", MassUnit, "athlete_unit"),
            choice_check("level", Level, "athlete_level"),
            models.CheckConstraint(condition=Q(dominant_side__in=["", "left", "right", "both"]), name="athlete_side"),
            models.CheckConstraint(condition=Q(born_on__gte=date(1900, 1, 1)), name="athlete_born_plausible"),
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def name(self) -> str:
        return f"{self.given_name} {self.family_name}".strip()

    def age_on(self, day: date) -> int:
        """Whole years."""
        had_birthday = (day.month, day.day) >= (self.born_on.month, self.born_on.day)
        return day.year - self.born_on.year - (0 if had_birthday else 1)

    def is_minor_on(self, day: date) -> bool:
        return self.age_on(day) < ADULT_AGE


def is_birthday_plausible(born_on: date, day: date) -> bool:
    """Old enough to train, and no slip of a century."""
    return YOUNGEST_YEARS <= day.year - born_on.year <= OLDEST_YEARS


class MembershipQuerySet(models.QuerySet["Membership"]):
    def on(self, day: date) -> MembershipQuerySet:
        return self.filter(Q(ended_on=None) | Q(ended_on__gte=day), started_on__lte=day)


class Membership(models.Model):
    """An athlete belongs to a squad from a day to a day (the last one included)."""

    squad = models.ForeignKey(Squad, on_delete=models.PROTECT, related_name="memberships")
    athlete = models.ForeignKey(Athlete, on_delete=models.PROTECT, related_name="memberships")
    started_on = models.DateField(_("from"))
    ended_on = models.DateField(_("to"), null=True, blank=True)

    objects = MembershipQuerySet.as_manager()

    class Meta:
        ordering = ("started_on", "pk")
        constraints = [
            models.UniqueConstraint(
                fields=["squad", "athlete"], condition=Q(ended_on=None), name="one_open_membership"
            ),
            models.CheckConstraint(
                condition=Q(ended_on=None) | Q(ended_on__gte=F("started_on")), name="membership_ends_after_start"
            ),
        ]

    def is_on(self, day: date) -> bool:
        return self.started_on <= day and (self.ended_on is None or day <= self.ended_on)


class GuardianQuerySet(models.QuerySet["Guardian"]):
    def visible_to(self, actor: Actor) -> GuardianQuerySet:
        """Guardians of the live athletes whom the actor sees; whose role reads them is said in `people.access`."""
        mine = Athlete.objects.visible_to(actor).live()
        links = Guardianship.objects.filter(guardian=OuterRef("pk"), athlete__in=mine)
        return self.filter(Exists(links), archived_at=None)


class Guardian(Named, Archivable):
    key_fields: ClassVar[tuple[str, ...]] = ("name",)

    name = models.CharField(_("name"), max_length=120)
    phone = models.CharField(_("phone"), max_length=40, blank=True)
    email = models.EmailField(_("e-mail"), blank=True)

    objects = GuardianQuerySet.as_manager()

    class Meta:
        ordering = ("search_key", "pk")

    def __str__(self) -> str:
        return self.name


class Guardianship(models.Model):
    guardian = models.ForeignKey(Guardian, on_delete=models.PROTECT, related_name="guardianships")
    athlete = models.ForeignKey(Athlete, on_delete=models.PROTECT, related_name="guardianships")
    relation = models.CharField(_("relation"), max_length=40, blank=True)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["guardian", "athlete"], name="guardianship_once")]


class ConsentKind(models.TextChoices):
    TRAINING = "training", _("strength training")
    DATA = "data", _("keeping training data")
    PHONE = "phone", _("own phone in training")


class Consent(models.Model):
    athlete = models.ForeignKey(Athlete, on_delete=models.PROTECT, related_name="consents")
    kind = models.CharField(_("for"), max_length=10, choices=ConsentKind)
    given_by = models.CharField(_("given by"), max_length=120)
    given_on = models.DateField(_("on"))
    withdrawn_on = models.DateField(_("withdrawn on"), null=True, blank=True)
    withdrawn_by = models.CharField(_("withdrawn by"), max_length=120, blank=True)

    class Meta:
        ordering = ("given_on", "pk")
        constraints = [
            choice_check("kind", ConsentKind, "consent_kind"),
            models.UniqueConstraint(
                fields=["athlete", "kind"], condition=Q(withdrawn_on=None), name="one_standing_consent"
            ),
            models.CheckConstraint(
                condition=Q(withdrawn_on=None, withdrawn_by="") | Q(withdrawn_on__gte=F("given_on")),
                name="consent_withdrawn_after_given",
            ),
        ]


class StaffRole(models.TextChoices):
    OWNER = "owner", _("owner")
    COACH = "coach", _("coach")
    ASSISTANT = "assistant", _("assistant")
    CLINICIAN = "clinician", _("clinician")
    HEAD_COACH = "head_coach", _("head coach")


class Staff(Archivable):
    user = models.OneToOneField(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="staff")
    name = models.CharField(_("name"), max_length=120)
    role = models.CharField(_("role"), max_length=12, choices=StaffRole)
    squads: models.ManyToManyField[Squad, StaffSquad] = models.ManyToManyField(
        Squad, through="people.StaffSquad", related_name="staff"
    )

    class Meta:
        ordering = ("name", "pk")
        constraints = [choice_check("role", StaffRole, "staff_role")]

    def __str__(self) -> str:
        return self.name


class StaffSquad(models.Model):
    staff = models.ForeignKey(Staff, on_delete=models.CASCADE, related_name="staff_squads")
    squad = models.ForeignKey(Squad, on_delete=models.PROTECT, related_name="staff_squads")

    class Meta:
        constraints = [models.UniqueConstraint(fields=["staff", "squad"], name="staff_squad_once")]
