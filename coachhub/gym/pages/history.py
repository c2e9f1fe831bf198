"""What an athlete has done, on their own phone: nobody else is in it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import cast

from django.http import Http404

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.cards.queries import exercises_done
from coachhub.gym.find import find_self
from coachhub.insight.curves import CURVE_DAYS, Curve, curves_of
from coachhub.insight.plots import PHONE
from coachhub.insight.queries import sets_done
from coachhub.library.models import Exercise
from coachhub.science.units import Unit


@dataclass(frozen=True, slots=True)
class ExerciseRow:
    pk: int
    name: str
    sets: int
    last_on: date


@dataclass(frozen=True, slots=True)
class HistoryPage:
    name: str
    rows: tuple[ExerciseRow, ...]

    @classmethod
    def of(cls, actor: Actor) -> HistoryPage:
        rows = exercises_done(find_self(actor).pk)
        return cls(actor.name, tuple(ExerciseRow(row.pk, row.name, sets, on) for row, sets, on in rows))


@dataclass(frozen=True, slots=True)
class ExercisePage:
    name: str
    curves: tuple[Curve, ...]

    @classmethod
    def of(cls, actor: Actor, pk: int) -> ExercisePage:
        athlete, exercise = find_self(actor), Exercise.objects.filter(pk=pk).first()
        if exercise is None:
            raise Http404
        sets = sets_done(athlete.pk, pk, today() - timedelta(days=CURVE_DAYS))
        return cls(exercise.name, curves_of(sets, exercise.name, cast(Unit, str(athlete.unit)), PHONE))
