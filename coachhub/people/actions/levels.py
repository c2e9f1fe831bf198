"""Verbs on an athlete's level in a family of exercises, and on the stage of the way back.

Rows are only added: the older ones stay to be read.
"""

from __future__ import annotations

from datetime import date

from django.core.exceptions import PermissionDenied
from django.db import transaction

from coachhub.base.actor import HEALTH, Actor
from coachhub.base.clock import now, today
from coachhub.library.models import Exercise
from coachhub.people.audit import author, record
from coachhub.people.models import Athlete, AthleteLevel, ReturnStage
from coachhub.people.models_levels import LAST_STAGE


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


@transaction.atomic
def set_return_stage(*, actor: Actor, athlete: Athlete, stage: int, on_word_of: str) -> bool:
    """From today on; 0: back in full. Whether the stage is another one than before.

    Never for a day to come: nobody knows yet how the way back goes. Sent twice, the second adds nothing.
    PermissionDenied for who may not, ValueError for a stage that does not exist.
    """
    if actor.kind not in HEALTH or not Athlete.objects.visible_to(actor).filter(pk=athlete.pk).exists():
        raise PermissionDenied
    if not 0 <= stage <= LAST_STAGE:
        raise ValueError("no such stage")
    Athlete.objects.select_for_update().get(pk=athlete.pk)
    newest = ReturnStage.objects.filter(athlete=athlete, from_on__lte=today()).first()
    before = newest.stage if newest else 0
    told_today = newest is not None and newest.from_on == today() and newest.on_word_of == on_word_of
    if stage == before and (stage == 0 or told_today):
        return False
    row = ReturnStage(
        athlete=athlete,
        stage=stage,
        from_on=today(),
        on_word_of=on_word_of,
        set_by_id=author(actor),
        set_at=now(),
    )
    row.save()
    record(actor, "set", row)
    return stage != before
