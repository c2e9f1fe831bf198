"""Verbs on the lines of a block: A1, A2 and so on."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from copy import copy
from typing import Any

from django.db import transaction
from django.db.models import Max

from coachhub.base.actor import Actor
from coachhub.coaching.notation import Dose
from coachhub.coaching.rounds import Rounds, place_sets
from coachhub.library.models import Exercise
from coachhub.plans.actions import count_change, differs
from coachhub.plans.actions_weeks import drop_unfit_weeks
from coachhub.plans.dose import columns_of
from coachhub.plans.models import CircuitGroup, Prescription, PrescriptionSwap


@transaction.atomic
def add_prescription(
    *,
    actor: Actor,
    group: CircuitGroup,
    exercise: Exercise,
    dose: Dose,
    ramp_up_sets: int = 0,
    rest_after_s: int = 0,
    cue: str = "",
    directions: Sequence[str] = (),
    swaps: Sequence[Exercise] = (),
    pair: Prescription | None = None,
    by_level: bool = False,
) -> Prescription:
    """A line at the end of the block.

    Sets in the dose: alone, they become the block's rounds, else they must fit them (SetsMisfitError).
    """
    count_change(actor=actor, session_id=group.segment.session_id)
    group.refresh_from_db(fields=["rounds_min", "rounds_max"])
    last = group.prescriptions.aggregate(last=Max("position"))["last"]
    row = Prescription(
        group=group,
        exercise=exercise,
        position=0 if last is None else last + 1,
        sets=_place(group, dose, is_only_line=last is None),
        ramp_up_sets=ramp_up_sets,
        rest_after_s=rest_after_s,
        cue=cue,
        directions=list(directions),
        pair_with=pair,
        is_by_level=by_level,
        **columns_of(dose),
    )
    row.save()
    _replace_swaps(row, swaps)
    return row


@transaction.atomic
def edit_prescription(
    *,
    actor: Actor,
    prescription: Prescription,
    exercise: Exercise,
    dose: Dose,
    ramp_up_sets: int,
    rest_after_s: int,
    cue: str,
    directions: Sequence[str],
    swaps: Sequence[Exercise],
    pair: Prescription | None,
    by_level: bool = False,
) -> None:
    """Write the line anew. A dose without sets leaves one in each round. Saving what stood there changes nothing."""
    group, written = prescription.group, copy(prescription)
    is_only_line = not group.prescriptions.exclude(pk=prescription.pk).exists()
    before = Rounds(group.rounds_min, group.rounds_max)
    values: dict[str, Any] = {
        **columns_of(dose),
        "exercise_id": exercise.pk,
        "sets": _place(group, dose, is_only_line=is_only_line),
        "ramp_up_sets": ramp_up_sets,
        "rest_after_s": rest_after_s,
        "cue": cue,
        "directions": list(directions),
        "pair_with_id": pair.pk if pair else None,
        "is_by_level": by_level,
    }
    is_changed = differs(row=prescription, values=values)
    has_new_swaps = _swap_ids(prescription) != [one.pk for one in swaps]
    has_new_rounds = before != Rounds(group.rounds_min, group.rounds_max)
    if is_changed or has_new_swaps or has_new_rounds:
        count_change(actor=actor, session_id=group.segment.session_id)
        prescription.save()
        _replace_swaps(prescription, swaps)
        drop_unfit_weeks(prescription=prescription, before=written)


@transaction.atomic
def set_swaps(*, actor: Actor, prescription: Prescription, exercises: Sequence[Exercise]) -> None:
    """The swaps that are allowed here, in the order to try."""
    if _swap_ids(prescription) != [one.pk for one in exercises]:
        count_change(actor=actor, session_id=prescription.group.segment.session_id)
        _replace_swaps(prescription, exercises)


@transaction.atomic
def pair_with(*, actor: Actor, prescription: Prescription, other: Prescription | None) -> None:
    """Mark the other line of the block that belongs to this one, as a jump to its heavy lift; None to undo."""
    if other is not None and (other.group_id != prescription.group_id or other == prescription):
        raise ValueError("a pair is two lines of one block")
    if differs(row=prescription, values={"pair_with_id": other.pk if other else None}):
        count_change(actor=actor, session_id=prescription.group.segment.session_id)
        prescription.save(update_fields=["pair_with"])


def _place(group: CircuitGroup, dose: Dose, *, is_only_line: bool) -> int | None:
    """The sets to store on the line; the block takes over its rounds."""
    placed = place_sets(dose, Rounds(group.rounds_min, group.rounds_max), is_only_line=is_only_line)
    if differs(row=group, values={"rounds_min": placed.rounds.low, "rounds_max": placed.rounds.high}):
        group.save(update_fields=["rounds_min", "rounds_max"])
    return placed.sets


def _swap_ids(prescription: Prescription) -> list[int]:
    return list(prescription.swaps.values_list("exercise_id", flat=True))


def _replace_swaps(prescription: Prescription, exercises: Iterable[Exercise]) -> None:
    prescription.swaps.all().delete()
    PrescriptionSwap.objects.bulk_create(
        PrescriptionSwap(prescription=prescription, exercise=exercise, position=position)
        for position, exercise in enumerate(exercises)
    )
