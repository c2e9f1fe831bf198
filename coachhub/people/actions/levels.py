"""Verbs on an athlete's level in a family of exercises. Rows are only added: the older ones stay to be read."""

from __future__ import annotations

from datetime import date

from django.core.exceptions import PermissionDenied
from django.db import transaction

from coachhub.base.actor import Actor
from coachhub.base.clock import now
from coachhub.library.models import Exercise
from coachhub.people.audit import author, record
from coachhub.people.models import Athlete, AthleteLevel


@transaction.atomic
def set_level(
    *, actor: Actor, athlete: Athlete, family: str, exercise: Exercise | None, from_on: date, reason: str
) -> bool:
    """`exercise` None: as the session is written. Whether the variation is another one than before.

    Sent twice, the second adds nothing. PermissionDenied for who may not, ValueError for an exercise of another family.
    """
    if not actor.may_write or not Athlete.objects.visible_to(actor).filter(pk=athlete.pk).exists():
        raise PermissionDenied
    if not family or (exercise is not None and exercise.family != family):
        raise ValueError("an exercise of another family")
    Athlete.objects.select_for_update().get(pk=athlete.pk)
    newest = AthleteLevel.objects.filter(athlete=athlete, family=family).first()
    exercise_id = exercise.pk if exercise else None
    if newest and (newest.exercise_id, newest.from_on, newest.reason) == (exercise_id, from_on, reason):
        return False
    row = AthleteLevel(
        athlete=athlete,
        family=family,
        exercise=exercise,
        from_on=from_on,
        reason=reason,
        set_by_id=author(actor),
        set_at=now(),
    )
    row.save()
    record(actor, "set", row)
    return exercise_id != (newest.exercise_id if newest else None)
