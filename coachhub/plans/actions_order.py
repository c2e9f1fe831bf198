"""Verbs that put a line elsewhere: one step, or to any place in any block of its session."""

from __future__ import annotations

from django.core.exceptions import PermissionDenied
from django.db import transaction

from coachhub.base.actor import Actor
from coachhub.coaching.rounds import Rounds, kept_sets
from coachhub.plans.actions import Step, count_change, renumber
from coachhub.plans.models import CircuitGroup, Prescription


@transaction.atomic
def place_line(*, actor: Actor, prescription: Prescription, group: CircuitGroup, place: int) -> bool:
    """At that place of the block, counted from 0; False where it stands there already.

    In another block it stands alone, without its pair, and does as many sets as go with the rounds there.
    """
    session_id = prescription.group.segment.session_id
    if group.segment.session_id != session_id:
        raise PermissionDenied
    others = list(group.prescriptions.exclude(pk=prescription.pk))
    rows = [*others[:place], prescription, *others[place:]]
    if rows == list(group.prescriptions.all()):
        return False
    count_change(actor=actor, session_id=session_id)
    if prescription.group_id != group.pk:
        Prescription.objects.filter(pair_with=prescription).update(pair_with=None)
        prescription.group, prescription.pair_with = group, None
        prescription.sets = kept_sets(prescription.sets, Rounds(group.rounds_min, group.rounds_max))
        prescription.save(update_fields=["group", "pair_with", "sets"])
    renumber(rows=rows)
    return True


@transaction.atomic
def step_line(*, actor: Actor, prescription: Prescription, step: Step) -> bool:
    """One place up (-1) or down (1), at the edge of its block into the next one; False at the session's edge."""
    group = prescription.group
    rows = list(group.prescriptions.all())
    place = rows.index(prescription) + step
    if 0 <= place < len(rows):
        return place_line(actor=actor, prescription=prescription, group=group, place=place)
    blocks = list(
        CircuitGroup.objects.filter(segment__session=group.segment.session_id)
        .select_related("segment")
        .order_by("segment__position", "segment", "position", "pk")
    )
    beyond = blocks.index(group) + step
    if not 0 <= beyond < len(blocks):
        return False
    end = 0 if step > 0 else blocks[beyond].prescriptions.count()
    return place_line(actor=actor, prescription=prescription, group=blocks[beyond], place=end)
