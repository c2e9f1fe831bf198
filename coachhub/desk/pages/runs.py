"""A whole plan given in the background: before, while and after."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from django.shortcuts import get_object_or_404

from coachhub.base.actor import Actor
from coachhub.base.clock import now, today
from coachhub.cards.actions.runs import SILENCE, Step
from coachhub.cards.forms_run import GivePlanForm
from coachhub.cards.models import AssignmentRun, RunStep, StepState
from coachhub.people.models import Athlete
from coachhub.plans.models import Plan

# How often a page that waits asks again, in seconds.
ASK_AGAIN_S: Final = 2


def find_run(actor: Actor, pk: int) -> AssignmentRun:
    rows = AssignmentRun.objects.visible_to(actor).select_related("squad", "started_by")
    return get_object_or_404(rows, pk=pk)


def athletes_for(form: GivePlanForm) -> list[Athlete]:
    squad = form.cleaned_data["squad"]
    return list(Athlete.objects.members_of(squad.pk, today()))


@dataclass(frozen=True, slots=True)
class GivePlanPage:
    """`steps`: what would be given to whom, once the form says when and where."""

    plan: Plan
    steps: Sequence[Step]
    athletes: int
    is_shown: bool

    @classmethod
    def of(cls, plan: Plan, form: GivePlanForm) -> GivePlanPage:
        if not form.is_bound or not form.is_valid():
            return cls(plan, (), 0, is_shown=False)
        return cls(plan, form.steps, len(athletes_for(form)), is_shown=True)

    @property
    def cards(self) -> int:
        return len(self.steps) * self.athletes


@dataclass(frozen=True, slots=True)
class RunPage:
    run: AssignmentRun
    steps: tuple[RunStep, ...]
    is_silent: bool

    @classmethod
    def of(cls, run: AssignmentRun) -> RunPage:
        steps = tuple(run.steps.select_related("session", "venue", "assignment"))
        return cls(run, steps, run.beat_at is None or run.beat_at < now() - SILENCE)

    @property
    def done(self) -> int:
        return sum(1 for step in self.steps if step.state == StepState.DONE)

    @property
    def failed(self) -> int:
        return sum(1 for step in self.steps if step.state == StepState.FAILED)

    @property
    def is_going(self) -> bool:
        return self.run.finished_at is None and self.run.cancelled_at is None

    @property
    def is_open(self) -> bool:
        """Something was not given, and nobody is at it."""
        return not self.is_going and self.done < len(self.steps)

    @property
    def is_waiting(self) -> bool:
        """No worker has taken it, or the one that had it has gone silent."""
        return self.is_going and self.is_silent

    @property
    def ask_again_s(self) -> int:
        return ASK_AGAIN_S
