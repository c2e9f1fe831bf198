"""What a session is for in its week, and on which days around a match a squad wants that."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from coachhub.base.models import choice_check
from coachhub.people.models import Squad


class SessionRole(models.TextChoices):
    """The codes of coaching.fitting."""

    ANY = "any", _("any day")
    MAIN = "main", _("main strength")
    SECOND = "second", _("second strength")
    POWER = "power", _("speed and power")
    PRIMER = "primer", _("primer before a match")
    RECOVERY = "recovery", _("recovery after a match")
    EXTRA = "extra", _("extra for those who hardly played")


class SessionVariant(models.TextChoices):
    EVERY_WEEK = "", _("every week")
    MATCH_WEEK = "match_week", _("only weeks with a match")
    FREE_WEEK = "free_week", _("only weeks without a match")


class FitRule(models.Model):
    """On which days a squad wants a role: "-4,-3" is MD-4, else MD-3. Without a row it has the usual days."""

    squad = models.ForeignKey(Squad, on_delete=models.PROTECT, related_name="fit_rules")
    role = models.CharField(max_length=8, choices=SessionRole)
    days = models.CharField(max_length=20, blank=True)
    is_only = models.BooleanField(default=False)
    set_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    set_at = models.DateTimeField()

    class Meta:
        ordering = ("squad", "role")
        constraints = [
            models.UniqueConstraint(fields=["squad", "role"], name="fit_rule_once"),
            choice_check("role", SessionRole, "fit_rule_role"),
            models.CheckConstraint(condition=~Q(role="any"), name="fit_rule_any_has_none"),
            models.CheckConstraint(condition=Q(is_only=False) | ~Q(days=""), name="fit_rule_only_names_days"),
        ]
