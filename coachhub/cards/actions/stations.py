"""Who shares a station, at which hole of the rack, and who is kept together or apart."""

from __future__ import annotations

from collections.abc import Mapping

from django.core.exceptions import PermissionDenied
from django.db import transaction

from coachhub.base.actor import WRITERS, Actor
from coachhub.base.clock import now, today
from coachhub.cards.access import require_athlete
from coachhub.cards.models import Assignment, BarHeight, PairWish, StationPlace, WishKind
from coachhub.cards.queries.stations import station_rows
from coachhub.people.models import Athlete


@transaction.atomic
def place_at_stations(
    *, actor: Actor, assignment: Assignment, stations: Mapping[int, int | None], holes: Mapping[int, int | None]
) -> int:
    """Write what differs of the stations and rack holes, by card; returns how many cards moved.

    Sent twice, the second time nothing differs. A hole is never forgotten, only noted anew.
    """
    Assignment.objects.select_for_update().get(pk=assignment.pk)
    rows = station_rows(actor, assignment)
    if not rows:
        raise PermissionDenied
    at, by = now(), actor.user_id
    moved = [row for row in rows if row.card_id in stations and stations[row.card_id] != row.station]
    StationPlace.objects.bulk_create(
        StationPlace(card_id=row.card_id, number=stations[row.card_id], placed_at=at, placed_by_id=by) for row in moved
    )
    BarHeight.objects.bulk_create(
        BarHeight(
            athlete_id=row.athlete_id,
            exercise_id=row.exercise_id,
            venue_id=assignment.venue_id,
            hole=hole,
            noted_at=at,
            noted_by_id=by,
        )
        for row in rows
        if row.exercise_id and (hole := holes.get(row.card_id)) and hole != row.hole
    )
    return len(moved)


@transaction.atomic
def add_wish(*, actor: Actor, athlete: Athlete, other: Athlete, kind: WishKind, word: str = "") -> PairWish:
    """Keep two together or apart from today on; a wish of theirs that says otherwise ends."""
    for one in (athlete, other):
        require_athlete(actor, one, WRITERS)
    first, second = sorted((athlete, other), key=lambda one: one.pk)
    Athlete.objects.select_for_update().get(pk=first.pk)
    standing = PairWish.objects.standing().filter(athlete=first, other=second).first()
    if standing is not None and (standing.kind, standing.word) == (kind, word):
        return standing
    if standing is not None:
        end_wish(actor=actor, wish=standing)
    return PairWish.objects.create(
        athlete=first, other=second, kind=kind, word=word, from_on=today(), set_by_id=actor.user_id
    )


@transaction.atomic
def end_wish(*, actor: Actor, wish: PairWish) -> None:
    for one in (wish.athlete, wish.other):
        require_athlete(actor, one, WRITERS)
    if wish.ended_on is None:
        wish.ended_on = today()
        wish.save(update_fields=["ended_on"])
