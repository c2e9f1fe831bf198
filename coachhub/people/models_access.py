"""How people get in: staff by password, athletes by a phone that a code has bound."""

from __future__ import annotations

from datetime import datetime

from django.contrib.auth.models import AbstractUser
from django.db import models
from django.db.models import F, Q
from django.db.models.functions import Lower
from django.utils.translation import gettext_lazy as _


class User(AbstractUser):
    """A person with a password: staff of the club."""

    class Meta(AbstractUser.Meta):
        constraints = [
            models.UniqueConstraint(Lower("email"), condition=~Q(email=""), name="user_email_once"),
        ]


class EnrolmentCodeQuerySet(models.QuerySet["EnrolmentCode"]):
    def live_at(self, moment: datetime) -> EnrolmentCodeQuerySet:
        """Still good for one phone."""
        return self.filter(used_at=None, revoked_at=None, expires_at__gt=moment, athlete__archived_at=None)


class EnrolmentCode(models.Model):
    """A one-time way in for one athlete's phone. Only hashes are stored: of the typed code and of the link's token."""

    athlete = models.ForeignKey("people.Athlete", on_delete=models.PROTECT, related_name="enrolment_codes")
    code_hash = models.CharField(max_length=64, unique=True)
    token_hash = models.CharField(max_length=64, unique=True)
    created_by = models.ForeignKey(User, on_delete=models.PROTECT, related_name="+")
    created_at = models.DateTimeField()
    expires_at = models.DateTimeField()
    used_at = models.DateTimeField(null=True, blank=True)
    revoked_at = models.DateTimeField(null=True, blank=True)

    objects = EnrolmentCodeQuerySet.as_manager()

    class Meta:
        constraints = [
            models.CheckConstraint(condition=Q(expires_at__gt=F("created_at")), name="code_expires_later"),
        ]


class Device(models.Model):
    """A phone bound to an athlete until revoked; its cookie holds a token, the row only the token's hash."""

    athlete = models.ForeignKey("people.Athlete", on_delete=models.PROTECT, related_name="devices")
    enrolment = models.OneToOneField(EnrolmentCode, on_delete=models.PROTECT, related_name="device")
    token_hash = models.CharField(max_length=64, unique=True)
    label = models.CharField(_("phone"), max_length=80, blank=True)
    bound_at = models.DateTimeField()
    last_seen_on = models.DateField(null=True, blank=True)
    revoked_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ("-bound_at", "pk")
