"""Who changes plans; which rows anyone reads, the querysets of the models decide."""

from __future__ import annotations

from coachhub.base.actor import Actor
from coachhub.plans.models import Plan


def may_edit(actor: Actor, plan: Plan) -> bool:
    """For what a page offers; a change itself is held to `editable_by`."""
    if not actor.may_write or plan.is_archived:
        return False
    return actor.sees_all or plan.squad_id is None or plan.squad_id in actor.squad_ids
