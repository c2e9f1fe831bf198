"""Who may change the library and the venues; everyone on the staff reads them."""

from __future__ import annotations

from django.core.exceptions import PermissionDenied

from coachhub.base.actor import Actor


def check_may_edit(actor: Actor) -> None:
    """PermissionDenied for anyone who is neither owner nor coach."""
    if not actor.may_write:
        raise PermissionDenied
