"""What a club makes of the checks: rules switched off or edited, and findings accepted with a word."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from coachhub.people.models import Athlete, Squad
from coachhub.plans.models_written import Plan, Session


class ReviewSetting(models.Model):
    """`rule`: a code of coaching.review; without a row it is on. Without a value it has its usual threshold."""

    rule = models.CharField(max_length=40, unique=True)
    is_on = models.BooleanField(default=True)
    value = models.DecimalField(max_digits=6, decimal_places=2, null=True, blank=True)
    set_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    set_at = models.DateTimeField()

    class Meta:
        ordering = ("rule",)
        constraints = [
            models.CheckConstraint(condition=~Q(rule=""), name="review_rule_named"),
            models.CheckConstraint(condition=Q(value=None) | Q(value__gte=0), name="review_value_not_negative"),
        ]


class FindingAcceptanceQuerySet(models.QuerySet["FindingAcceptance"]):
    def standing(self) -> FindingAcceptanceQuerySet:
        return self.filter(withdrawn_at=None)


class FindingAcceptance(models.Model):
    """A finding that stays quiet, on whose word. It is about a session, a week of a plan, a squad or an athlete."""

    session = models.ForeignKey(Session, on_delete=models.PROTECT, null=True, blank=True, related_name="acceptances")
    plan = models.ForeignKey(Plan, on_delete=models.PROTECT, null=True, blank=True, related_name="acceptances")
    week = models.PositiveSmallIntegerField(null=True, blank=True)
    squad = models.ForeignKey(Squad, on_delete=models.PROTECT, null=True, blank=True, related_name="acceptances")
    athlete = models.ForeignKey(Athlete, on_delete=models.PROTECT, null=True, blank=True, related_name="acceptances")
    key = models.CharField(max_length=600)
    word = models.CharField(_("why that is all right"), max_length=120)
    accepted_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    accepted_at = models.DateTimeField()
    withdrawn_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    withdrawn_at = models.DateTimeField(null=True, blank=True)

    objects = FindingAcceptanceQuerySet.as_manager()

    class Meta:
        ordering = ("pk",)
        constraints = [
            models.CheckConstraint(
                condition=Q(session__isnull=False, plan=None, week=None, squad=None, athlete=None)
                | Q(session=None, plan__isnull=False, week__isnull=False, squad=None, athlete=None)
                | Q(session=None, plan=None, week=None, squad__isnull=False, athlete=None)
                | Q(session=None, plan=None, week=None, squad=None, athlete__isnull=False),
                name="acceptance_about_one_thing",
            ),
            models.CheckConstraint(condition=~Q(key="") & ~Q(word=""), name="acceptance_has_key_and_word"),
            models.CheckConstraint(condition=Q(week=None) | Q(week__range=(1, 52)), name="acceptance_week"),
            models.UniqueConstraint(
                fields=["session", "key"], condition=Q(withdrawn_at=None), name="session_finding_accepted_once"
            ),
            models.UniqueConstraint(
                fields=["plan", "week", "key"], condition=Q(withdrawn_at=None), name="week_finding_accepted_once"
            ),
            models.UniqueConstraint(
                fields=["squad", "key"], condition=Q(withdrawn_at=None), name="squad_finding_accepted_once"
            ),
            models.UniqueConstraint(
                fields=["athlete", "key"], condition=Q(withdrawn_at=None), name="athlete_finding_accepted_once"
            ),
        ]
