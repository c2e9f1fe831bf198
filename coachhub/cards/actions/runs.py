"""Gives many sessions to many athletes in the background: all or nothing per session, stopped and gone on with."""

from __future__ import annotations

import logging
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final
from uuid import UUID

from django.core.exceptions import PermissionDenied
from django.db import transaction
from django.db.models import Q
from django_tasks import task

from coachhub.base.actor import Actor
from coachhub.base.clock import now
from coachhub.cards.actions.assigning import assign_session, require_reach
from coachhub.cards.models import AssignmentRun, RunStep, StepState
from coachhub.library.models import Venue
from coachhub.people.access import staff_actor
from coachhub.people.models import Athlete, Squad
from coachhub.plans.models import Session

# Whoever works on a run says so before each session; after this long without a word it may be taken over.
SILENCE: Final = timedelta(minutes=2)
_log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Step:
    session: Session
    week: int
    on_date: date
    venue: Venue


def start_run(
    *, actor: Actor, uuid: UUID, squad: Squad | None, athletes: Sequence[Athlete], steps: Sequence[Step]
) -> AssignmentRun:
    """Write down what is to be given, and leave it to the worker; the same uuid again starts nothing new."""
    for session in {step.session.pk: step.session for step in steps}.values():
        require_reach(actor, session, squad, athletes)
    with transaction.atomic():
        run, is_new = AssignmentRun.objects.get_or_create(
            uuid=uuid,
            defaults={
                "squad": squad,
                "athlete_ids": [athlete.pk for athlete in athletes],
                "started_by_id": actor.user_id or 0,
                "started_at": now(),
            },
        )
        if is_new:
            RunStep.objects.bulk_create(
                RunStep(
                    run=run, position=n, session=step.session, week=step.week, on_date=step.on_date, venue=step.venue
                )
                for n, step in enumerate(steps)
            )
            give_run.enqueue(run.pk)
    return run


def cancel_run(*, actor: Actor, run: AssignmentRun) -> None:
    """Stop before the next session. What is given stays given."""
    _require(actor, run)
    AssignmentRun.objects.filter(pk=run.pk, finished_at=None, cancelled_at=None).update(cancelled_at=now())


def resume_run(*, actor: Actor, run: AssignmentRun) -> None:
    """Go on with what was not given: after a stop, a failure, or a restart of the machine."""
    _require(actor, run)
    with transaction.atomic():
        RunStep.objects.filter(run=run, state=StepState.FAILED).update(state=StepState.OPEN)
        if RunStep.objects.filter(run=run, state=StepState.OPEN).exists():
            AssignmentRun.objects.filter(pk=run.pk).update(cancelled_at=None, finished_at=None)
            give_run.enqueue(run.pk)


@task()
def give_run(run_id: int) -> int:
    """What the background worker does; returns how many sessions were given."""
    return work_run(run_id)


def work_run(run_id: int) -> int:
    """Give the open sessions of a run, one after the other; returns how many. Two workers never share one."""
    if not _take(run_id):
        return 0
    given = 0
    while (step := _next(run_id)) is not None:
        given += _give(step)
    AssignmentRun.objects.filter(pk=run_id, cancelled_at=None).update(finished_at=now())
    AssignmentRun.objects.filter(pk=run_id).update(beat_at=None)
    return given


def _take(run_id: int) -> bool:
    free = Q(beat_at=None) | Q(beat_at__lt=now() - SILENCE)
    open_runs = AssignmentRun.objects.filter(free, pk=run_id, finished_at=None, cancelled_at=None)
    return open_runs.update(beat_at=now()) == 1


def _next(run_id: int) -> RunStep | None:
    """The next open session; none once somebody has stopped the run."""
    if not AssignmentRun.objects.filter(pk=run_id, cancelled_at=None).update(beat_at=now()):
        return None
    rows = RunStep.objects.filter(run=run_id, state=StepState.OPEN)
    return rows.select_related("run__squad", "run__started_by", "session", "venue").first()


def _give(step: RunStep) -> int:
    """Give one session. A crash after it leaves it open: given again, nobody gets a second card."""
    try:
        actor = staff_actor(step.run.started_by)
        if actor is None:
            raise PermissionDenied
        given = assign_session(
            actor=actor,
            session=step.session,
            squad=step.run.squad,
            athletes=list(Athlete.objects.live().filter(pk__in=step.run.athlete_ids)),
            venue=step.venue,
            on_date=step.on_date,
            week=step.week,
        )
    except Exception:  # noqa: BLE001
        # Whatever went wrong with this session, the others are given, and the page says which one was not.
        _log.exception("Session %s of run %s could not be given.", step.session_id, step.run_id)
        RunStep.objects.filter(pk=step.pk).update(state=StepState.FAILED)
        return 0
    RunStep.objects.filter(pk=step.pk).update(state=StepState.DONE, assignment=given)
    return 1


def _require(actor: Actor, run: AssignmentRun) -> None:
    if not AssignmentRun.objects.visible_to(actor).filter(pk=run.pk).exists():
        raise PermissionDenied
