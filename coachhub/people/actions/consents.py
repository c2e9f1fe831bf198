"""Consent on file: who gave it and when, who took it back and when. Nothing is overwritten."""

from __future__ import annotations

from datetime import date

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.people.actions.once import save_once
from coachhub.people.audit import record
from coachhub.people.models import Athlete, Consent, ConsentKind


@transaction.atomic
def give_consent(*, actor: Actor, athlete: Athlete, kind: ConsentKind, given_by: str, given_on: date) -> Consent:
    """ValidationError where the same consent stands already."""
    if athlete.consents.filter(kind=kind, withdrawn_on=None).exists():
        raise ValidationError(_("This consent is on file already."), code="twice")
    row = Consent(athlete=athlete, kind=kind, given_by=given_by.strip(), given_on=given_on)
    row.full_clean()
    save_once(row=row, told=_("This consent is on file already."))
    record(actor, "filed", row)
    return row


@transaction.atomic
def withdraw_consent(*, actor: Actor, consent: Consent, withdrawn_by: str, withdrawn_on: date) -> Consent:
    """`withdrawn_on` is the day from which it no longer stands; ValidationError for a day before it was given."""
    if withdrawn_on < consent.given_on:
        raise ValidationError({"withdrawn_on": _("This is before it was given.")})
    consent.withdrawn_by, consent.withdrawn_on = withdrawn_by.strip(), withdrawn_on
    consent.full_clean()
    consent.save()
    record(actor, "ended", consent)
    return consent
