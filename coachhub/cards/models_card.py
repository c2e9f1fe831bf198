"""Assignment -> card -> revision -> line. A revision is a snapshot: it never changes once written."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import Exists, F, OuterRef, Q
from django.utils.translation import gettext_lazy as _

from coachhub.base.actor import Actor, ActorKind
from coachhub.base.models import LoadUnit, SegmentKind, choice_check
from coachhub.library.models import Exercise, LoadMeaning, Venue
from coachhub.people.models import Athlete, Squad
from coachhub.plans.models import DoseKind, LoadRule, Per, Session


class AssignmentQuerySet(models.QuerySet["Assignment"]):
    def visible_to(self, actor: Actor) -> AssignmentQuerySet:
        """Owner: all; staff on the floor: assignments of their squads, or holding one of their athletes."""
        if actor.sees_all:
            return self
        if not (actor.may_log or actor.sees_health):
            return self.none()
        mine = Card.objects.filter(assignment=OuterRef("pk"), athlete__in=Athlete.objects.visible_to(actor))
        return self.filter(Q(squad__in=actor.squad_ids) | (Q(squad=None) & Exists(mine)))

    def live(self) -> AssignmentQuerySet:
        return self.filter(cancelled_at=None)


class Assignment(models.Model):
    """A session given to a squad, part of it or single athletes, on a day at a venue."""

    session = models.ForeignKey(Session, on_delete=models.PROTECT, related_name="assignments")
    squad = models.ForeignKey(Squad, on_delete=models.PROTECT, null=True, blank=True, related_name="assignments")
    venue = models.ForeignKey(Venue, on_delete=models.PROTECT, related_name="assignments")
    on_date = models.DateField(_("date"))
    week = models.PositiveSmallIntegerField(_("week of the plan"), default=1)
    created_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    created_at = models.DateTimeField()
    cancelled_at = models.DateTimeField(null=True, blank=True)

    objects = AssignmentQuerySet.as_manager()

    class Meta:
        ordering = ("-on_date", "pk")
        indexes = [models.Index(fields=["on_date", "squad"], name="assignment_day")]
        constraints = [models.CheckConstraint(condition=Q(week__range=(1, 52)), name="assignment_week")]


class CardQuerySet(models.QuerySet["Card"]):
    def visible_to(self, actor: Actor) -> CardQuerySet:
        """Staff who read training: cards of athletes they see; an athlete: their own. Guardians see none yet."""
        if actor.kind in {ActorKind.GUARDIAN, ActorKind.HEAD_COACH}:
            return self.none()
        return self.filter(athlete__in=Athlete.objects.visible_to(actor), assignment__cancelled_at=None)

    def editable_by(self, actor: Actor) -> CardQuerySet:
        """Only the assigning squad's coaches change a card; without a squad, every coach of the athlete."""
        seen = self.visible_to(actor)
        if actor.sees_all:
            return seen
        if not actor.may_write:
            return seen.none()
        return seen.filter(Q(assignment__squad__in=actor.squad_ids) | Q(assignment__squad=None))

    def stale(self) -> CardQuerySet:
        """Not begun, and made from an older writing of the session, or before what is the athlete's own changed."""
        is_older = Q(session_revision__lt=F("assignment__session__revision")) | Q(is_behind=True)
        return self.filter(is_older, started_at=None)


class Card(models.Model):
    """One athlete's own sheet for one assignment. `venue`: only where it is not the assignment's.

    `is_behind`: the athlete's own activation work or level has changed since it was made.
    """

    assignment = models.ForeignKey(Assignment, on_delete=models.PROTECT, related_name="cards")
    athlete = models.ForeignKey(Athlete, on_delete=models.PROTECT, related_name="cards")
    revision_number = models.PositiveIntegerField(default=1)
    session_revision = models.PositiveIntegerField()
    digest = models.CharField(max_length=64)
    started_at = models.DateTimeField(null=True, blank=True)
    created_at = models.DateTimeField()
    venue = models.ForeignKey(Venue, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    is_guest = models.BooleanField(default=False)
    is_behind = models.BooleanField(default=False)

    objects = CardQuerySet.as_manager()

    class Meta:
        ordering = ("pk",)
        constraints = [models.UniqueConstraint(fields=["assignment", "athlete"], name="one_card_each")]

    @property
    def place_id(self) -> int:
        """Where this card is trained."""
        return self.venue_id or self.assignment.venue_id


class RevisionReason(models.TextChoices):
    FIRST = "first", _("made")
    RENEWED = "renewed", _("renewed from the session")
    RESTRICTED = "restricted", _("changed by a restriction")
    PAIN = "pain", _("changed because something hurts")
    SWAPPED = "swapped", _("one exercise swapped")
    DOOR = "door", _("changed at the door")
    DOOR_UNDONE = "door_undone", _("a change at the door undone")
    MOVED = "moved", _("moved to another day")


class CardRevision(models.Model):
    """`layout` holds the blocks as they were (coaching.facts.GroupPlan), only ever read whole.

    `change`: the change at the door that made it, or that it undoes.
    """

    card = models.ForeignKey(Card, on_delete=models.PROTECT, related_name="revisions")
    number = models.PositiveIntegerField()
    reason = models.CharField(max_length=12, choices=RevisionReason, default=RevisionReason.FIRST)
    layout = models.JSONField()
    change = models.ForeignKey(
        "cards.DoorChange", on_delete=models.PROTECT, null=True, blank=True, related_name="revisions"
    )
    made_at = models.DateTimeField()
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")

    class Meta:
        ordering = ("number",)
        constraints = [
            models.UniqueConstraint(fields=["card", "number"], name="revision_once"),
            models.CheckConstraint(condition=Q(number__gte=1), name="revision_number"),
            choice_check("reason", RevisionReason, "revision_reason"),
        ]


class LineStatus(models.TextChoices):
    PLANNED = "planned", _("planned")
    DROPPED = "dropped", _("left out")


class CardLine(models.Model):
    """One exercise on one revision of a card, with everything needed to read it years later."""

    revision = models.ForeignKey(CardRevision, on_delete=models.PROTECT, related_name="lines")
    line_key = models.CharField(max_length=40)
    group_key = models.CharField(max_length=40)
    segment = models.CharField(max_length=12, choices=SegmentKind)
    position = models.PositiveSmallIntegerField()
    label = models.CharField(max_length=8)
    status = models.CharField(max_length=8, choices=LineStatus, default=LineStatus.PLANNED)
    exercise = models.ForeignKey(Exercise, on_delete=models.PROTECT, related_name="card_lines")
    written_exercise = models.ForeignKey(Exercise, on_delete=models.PROTECT, related_name="+")
    name = models.CharField(max_length=60)
    cues = models.JSONField(default=list)
    measure = models.CharField(max_length=10)
    load_meaning = models.CharField(max_length=12, choices=LoadMeaning)
    laterality = models.CharField(max_length=12)
    spotting = models.CharField(max_length=12)
    patterns = models.JSONField(default=list)
    regions = models.JSONField(default=list)
    sets = models.PositiveSmallIntegerField()
    dose_kind = models.CharField(max_length=8, choices=DoseKind)
    low = models.DecimalField(max_digits=6, decimal_places=2)
    high = models.DecimalField(max_digits=6, decimal_places=2, null=True)
    per = models.CharField(max_length=9, choices=Per, blank=True)
    directions = models.JSONField(default=list)
    load_rule = models.CharField(max_length=7, choices=LoadRule)
    load_value = models.DecimalField(max_digits=7, decimal_places=2, null=True)
    load_unit = models.CharField(max_length=2, choices=LoadUnit, blank=True)
    load_high = models.DecimalField(max_digits=7, decimal_places=2, null=True)
    hands = models.PositiveSmallIntegerField(default=1)
    load_words = models.CharField(max_length=160, blank=True)
    rir_half = models.PositiveSmallIntegerField(null=True)
    tempo = models.CharField(max_length=4, blank=True)
    cue = models.CharField(max_length=120, blank=True)
    rest_after_s = models.PositiveSmallIntegerField(default=0)
    ramp_ups = models.JSONField(default=list)
    plates = models.JSONField(default=dict)
    steps = models.JSONField(default=list, help_text="Loadable values around the planned one, for 'it was different'.")
    last = models.JSONField(null=True)
    trace = models.JSONField(default=list)

    class Meta:
        ordering = ("position", "pk")
        constraints = [
            models.UniqueConstraint(fields=["revision", "line_key"], name="line_once"),
            choice_check("status", LineStatus, "line_status"),
            choice_check("segment", SegmentKind, "line_segment"),
            choice_check("load_meaning", LoadMeaning, "line_load_meaning"),
            choice_check("dose_kind", DoseKind, "line_dose_kind"),
            choice_check("per", Per, "line_per"),
            choice_check("load_rule", LoadRule, "line_load_rule"),
            models.CheckConstraint(
                condition=Q(load_value=None) | Q(load_value__gt=0, load_unit__in=LoadUnit.values), name="line_load"
            ),
        ]


class AttendanceStatus(models.TextChoices):
    PRESENT = "present", _("present")
    ABSENT = "absent", _("absent")
    LATE = "late", _("late")


class Attendance(models.Model):
    """Who was there; the newest row of a card counts. `minutes_left` of the slot, for whoever came late."""

    card = models.ForeignKey(Card, on_delete=models.PROTECT, related_name="attendance")
    status = models.CharField(max_length=8, choices=AttendanceStatus)
    minutes_left = models.PositiveSmallIntegerField(null=True, blank=True)
    noted_at = models.DateTimeField()
    noted_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")

    class Meta:
        ordering = ("-pk",)
        constraints = [
            choice_check("status", AttendanceStatus, "attendance_status"),
            models.CheckConstraint(
                condition=Q(minutes_left=None) | Q(status="late", minutes_left__range=(1, 300)),
                name="attendance_minutes_left",
            ),
        ]


class CopyKind(models.TextChoices):
    PRINTED = "printed", _("printed")
    OFFLINE = "offline", _("kept on a phone")


class CardCopy(models.Model):
    """A printed or offline copy of a revision that somebody may still hold."""

    card = models.ForeignKey(Card, on_delete=models.PROTECT, related_name="copies")
    revision_number = models.PositiveIntegerField()
    kind = models.CharField(max_length=8, choices=CopyKind)
    made_at = models.DateTimeField()

    class Meta:
        ordering = ("-made_at", "-pk")
        constraints = [choice_check("kind", CopyKind, "copy_kind")]
