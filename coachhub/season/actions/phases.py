"""The phases of a squad's season."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.coaching.review.phases import USUAL, Target
from coachhub.people.audit import record
from coachhub.people.models import Squad
from coachhub.season.access import require_dates
from coachhub.season.models import PhaseTarget, SeasonPhase


@transaction.atomic
def set_phase(
    *,
    actor: Actor,
    squad: Squad,
    code: str,
    from_on: date,
    to_on: date,
    targets: Mapping[str, Target],
    phase: SeasonPhase | None = None,
) -> SeasonPhase:
    """Write a new phase, or change `phase`. A pattern without a target gets the usual one of the phase.

    ValidationError where another phase of the squad lies in these days; sent twice, it is one.
    """
    require_dates(actor, squad_id=squad.pk)
    # Two at once would both find the days free.
    list(Squad.objects.select_for_update().filter(pk=squad.pk))
    row = phase or SeasonPhase(squad=squad)
    others = SeasonPhase.objects.filter(squad=squad, from_on__lte=to_on, to_on__gte=from_on).exclude(pk=row.pk)
    other = others.first()
    if other is not None and (phase or (other.code, other.from_on, other.to_on) != (code, from_on, to_on)):
        told = {"phase": other.get_code_display(), "first": _day(other.from_on), "last": _day(other.to_on)}
        raise ValidationError(_("In these days lies “%(phase)s”, %(first)s – %(last)s.") % told, code="overlap")
    row = other or row
    row.code, row.from_on, row.to_on = code, from_on, to_on
    row.full_clean()
    row.save()
    row.targets.all().delete()
    whole = {**USUAL[code].targets, **targets}  # type: ignore[index]  # full_clean has held it to the codes
    PhaseTarget.objects.bulk_create(
        PhaseTarget(phase=row, pattern=pattern, low=target.low, high=target.high) for pattern, target in whole.items()
    )
    record(actor, "set", row)
    return row


@transaction.atomic
def remove_phase(*, actor: Actor, phase: SeasonPhase) -> None:
    require_dates(actor, squad_id=phase.squad_id)
    record(actor, "removed", phase)
    phase.delete()


def _day(day: date) -> str:
    return date_format(day, "j M Y")
