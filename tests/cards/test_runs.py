"""A whole plan given in the background: all or nothing per session, stopped, gone on with, never twice."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from uuid import UUID, uuid4

import pytest
from django.core.exceptions import PermissionDenied
from django_tasks_db.models import DBTaskResult

from coachhub.base.clock import now, today
from coachhub.cards.actions.runs import SILENCE, Step, cancel_run, resume_run, start_run, work_run
from coachhub.cards.models import Assignment, AssignmentRun, Card, RunStep
from coachhub.people.models import Athlete
from tests.cards.conftest import Evening
from tests.cast import Role
from tests.factories import SessionFactory

pytestmark = pytest.mark.django_db


def steps(evening: Evening, days: int = 3) -> list[Step]:
    return [Step(evening.session, 1, today() + timedelta(days=n), evening.cast.venue) for n in range(1, days + 1)]


def start(evening: Evening, *, uuid: UUID | None = None, days: int = 3) -> AssignmentRun:
    athletes: Sequence[Athlete] = (evening.athlete, evening.cast.team_mate)
    return start_run(
        actor=evening.coach,
        uuid=uuid or uuid4(),
        squad=evening.cast.squad,
        athletes=athletes,
        steps=steps(evening, days),
    )


def states(run: AssignmentRun) -> list[str]:
    return list(RunStep.objects.filter(run=run).values_list("state", flat=True))


def coming() -> int:
    return Card.objects.filter(assignment__on_date__gt=today()).count()


def test_run_is_left_to_the_worker_and_writes_no_card_itself(evening: Evening) -> None:
    run = start(evening)
    (waiting,) = DBTaskResult.objects.all()
    assert (waiting.task_path, waiting.args_kwargs["args"]) == ("coachhub.cards.actions.runs.give_run", [run.pk])
    assert (states(run), coming()) == (["open"] * 3, 0)


def test_worker_gives_every_session_to_everybody(evening: Evening) -> None:
    run = start(evening)
    assert work_run(run.pk) == 3
    run.refresh_from_db()
    assert (states(run), coming()) == (["done"] * 3, 6)
    assert run.finished_at is not None


def test_same_sending_again_starts_nothing_new(evening: Evening) -> None:
    uuid = uuid4()
    assert start(evening, uuid=uuid) == start(evening, uuid=uuid)
    assert (RunStep.objects.count(), DBTaskResult.objects.count()) == (3, 1)


def test_run_worked_on_twice_gives_nobody_a_second_card(evening: Evening) -> None:
    run = start(evening)
    work_run(run.pk)
    AssignmentRun.objects.update(finished_at=None)
    RunStep.objects.update(state="open", assignment=None)  # as after a crash between giving and writing it down
    assert (work_run(run.pk), coming()) == (3, 6)


def test_run_that_somebody_works_on_is_left_alone_until_silent(evening: Evening) -> None:
    run = start(evening)
    AssignmentRun.objects.update(beat_at=now())
    assert work_run(run.pk) == 0
    AssignmentRun.objects.update(beat_at=now() - SILENCE - timedelta(seconds=1))
    assert work_run(run.pk) == 3


def test_stopped_run_gives_no_more_and_goes_on_when_asked(evening: Evening) -> None:
    run = start(evening)
    cancel_run(actor=evening.coach, run=run)
    assert (work_run(run.pk), coming()) == (0, 0)
    resume_run(actor=evening.coach, run=run)
    assert DBTaskResult.objects.count() == 2
    assert (work_run(run.pk), coming()) == (3, 6)


def test_session_that_cannot_be_given_leaves_nothing_and_the_others_are(evening: Evening) -> None:
    other = SessionFactory.create(plan=evening.cast.plan)
    run = start(evening, days=2)
    RunStep.objects.filter(run=run, position=0).update(session=other)
    other.plan.squad = evening.cast.other_squad
    other.plan.save()
    evening.session.plan = SessionFactory.create(plan__squad=evening.cast.squad).plan
    evening.session.save()
    assert work_run(run.pk) == 1
    assert states(run) == ["failed", "done"]
    assert not Assignment.objects.filter(session=other).exists()


def test_coach_who_has_left_gives_nothing_any_more(evening: Evening) -> None:
    run = start(evening)
    evening.cast.staff[Role.COACH].archived_at = now()
    evening.cast.staff[Role.COACH].save()
    assert (work_run(run.pk), states(run), coming()) == (0, ["failed"] * 3, 0)


@pytest.mark.parametrize("role", [Role.ASSISTANT, Role.OTHER_COACH, Role.CLINICIAN])
def test_run_is_not_for_everybody_to_start_or_stop(evening: Evening, role: Role) -> None:
    run, actor = start(evening), evening.cast.actor_of(role)
    with pytest.raises(PermissionDenied):
        cancel_run(actor=actor, run=run)
    with pytest.raises(PermissionDenied):
        start_run(actor=actor, uuid=uuid4(), squad=evening.cast.squad, athletes=[evening.athlete], steps=steps(evening))
