"""What is uploaded waits for its confirmation, for an hour at most."""

from __future__ import annotations

from datetime import timedelta
from typing import Final

from django.core.exceptions import PermissionDenied, ValidationError
from django.db import transaction
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.base.clock import now
from coachhub.base.columns import Reading
from coachhub.base.tables import Table
from coachhub.people.models import Club, ImportDraft, ImportKind

KEPT_FOR: Final = timedelta(hours=1)


@transaction.atomic
def keep_draft(*, actor: Actor, kind: ImportKind, file_name: str, table: Table) -> ImportDraft:
    """Takes the place of an earlier one of the same kind by the same person."""
    if not actor.may_write:
        raise PermissionDenied
    drop_expired_drafts()
    owner = actor.require_user_id()
    ImportDraft.objects.filter(owner=owner, kind=kind).delete()
    return ImportDraft.objects.create(
        owner_id=owner,
        kind=kind,
        file_name=file_name[-120:],
        table=table.as_data(),
        created_at=now(),
        expires_at=now() + KEPT_FOR,
    )


@transaction.atomic
def set_reading(*, actor: Actor, draft: ImportDraft, reading: Reading) -> None:
    drop_expired_drafts()
    ImportDraft.objects.live_of(actor.require_user_id(), now()).filter(pk=draft.pk).update(reading=reading.as_data())


@transaction.atomic
def drop_draft(*, actor: Actor, draft: ImportDraft) -> None:
    drop_expired_drafts()
    ImportDraft.objects.filter(owner=actor.require_user_id(), pk=draft.pk).delete()


def drop_expired_drafts() -> None:
    """At every step of an import, by anybody, and when the program starts."""
    ImportDraft.objects.filter(expires_at__lte=now()).delete()


def take_draft(actor: Actor, kind: ImportKind, pk: int) -> tuple[Table, Reading]:
    """Inside a transaction: take the draft out, once. One import at a time: two at once would both add the same person.

    ValidationError "gone" where it has been confirmed, cancelled, replaced or has expired.
    """
    if not actor.may_write:
        raise PermissionDenied
    list(Club.objects.select_for_update())
    drop_expired_drafts()
    draft = ImportDraft.objects.filter(owner=actor.require_user_id(), kind=kind, pk=pk).first()
    reading = draft.as_reading() if draft else None
    if draft is None or reading is None:
        raise ValidationError(_("This upload is no longer here. Please upload the file again."), code="gone")
    table = draft.as_table()
    draft.delete()
    return table, reading


def check_unchanged(seen: str, found: str) -> None:
    """ValidationError "changed" takes everything back, the draft's deletion as well."""
    if seen != found:
        raise ValidationError(
            _("Something has changed in the club meanwhile. Please look at the rows again."), code="changed"
        )
