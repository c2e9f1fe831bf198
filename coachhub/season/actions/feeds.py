"""Private addresses for calendar programs: made, shown once, taken back."""

from __future__ import annotations

from django.db import transaction

from coachhub.base.actor import Actor
from coachhub.base.clock import now
from coachhub.people.access import new_token, token_hash
from coachhub.people.audit import record
from coachhub.people.models import Athlete, Club, Squad
from coachhub.season.access import require_dates
from coachhub.season.models import FeedLink


@transaction.atomic
def make_feed(*, actor: Actor, squad: Squad | None = None, athlete: Athlete | None = None) -> str:
    """Return the token in clear, the only time that it is known; one that was made before stops working."""
    revoke_feed(actor=actor, squad=squad, athlete=athlete)
    token = new_token()
    link = FeedLink(squad=squad, athlete=athlete, token_hash=token_hash(token), made_at=now(), made_by_id=actor.user_id)
    link.save()
    record(actor, "made", link)
    return token


@transaction.atomic
def revoke_feed(*, actor: Actor, squad: Squad | None = None, athlete: Athlete | None = None) -> None:
    require_dates(actor, squad_id=squad.pk if squad else None, athlete_id=athlete.pk if athlete else None)
    # Two at once wait for each other here: there is one live address, never none.
    list(Club.objects.select_for_update())
    for link in FeedLink.objects.filter(squad=squad, athlete=athlete, revoked_at=None):
        link.revoked_at = now()
        link.save()
        record(actor, "revoked", link)
