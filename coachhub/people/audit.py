"""Who changed what about people, in the log: ids only, never names."""

from __future__ import annotations

import logging

from django.core.exceptions import PermissionDenied
from django.db.models import Model

from coachhub.base.actor import Actor

log = logging.getLogger("coachhub.audit")


def record(actor: Actor, verb: str, row: Model) -> None:
    """One line: "coach user 3: edited athlete 17"."""
    log.info("%s user %s: %s %s %s", actor.kind, actor.user_id, verb, type(row).__name__.lower(), row.pk)


def author(actor: Actor) -> int:
    """The user whose name stands under what is written; only staff with a login have one."""
    if actor.user_id is None:
        raise PermissionDenied
    return actor.user_id
