"""Health verbs that reach cards: restrictions, pain, red flags, known bests."""

from __future__ import annotations

from datetime import date
from typing import Any, TypeVar
from uuid import UUID, uuid5

from django.core.exceptions import PermissionDenied
from django.db import IntegrityError, transaction
from django.db.models import Manager

from coachhub.base.actor import FLOOR, HEALTH, WRITERS, Actor, ActorKind
from coachhub.base.clock import now, today
from coachhub.cards.access import may_lift, require_athlete
from coachhub.cards.actions.rereading import reread_cards
from coachhub.cards.models import Card, KnownBest, RevisionReason
from coachhub.coaching.facts import Mass
from coachhub.library.models import Exercise
from coachhub.people.audit import record
from coachhub.people.models import (
    Athlete,
    PainReport,
    RedFlag,
    RedFlagKind,
    Restriction,
    RestrictionException,
)

Report = TypeVar("Report", PainReport, RedFlag)

# What makes two reports the same; when and by whom they were sent does not.
_TOLD = ("athlete", "region", "side", "score", "is_sore_only", "kind", "note")
# What a restriction says, without who set it and when.
_CONTENT = (
    "athlete_id", "kind", "region", "side", "pattern", "exercise_id", "cap_value", "cap_unit", "can_do", "diagnosis",
    "on_word_of", "is_clinical", "starts_on", "review_on",
)  # fmt: skip
REPORTERS = FLOOR | HEALTH | {ActorKind.ATHLETE}


def restrict_athlete(*, actor: Actor, athlete: Athlete, **fields: Any) -> tuple[Restriction, list[Card]]:
    """Set a restriction and revise the athlete's cards; returns it with the cards that changed, begun ones included.

    `fields` are the restriction's own columns (kind, region, side, pattern, exercise, cap_value, cap_unit, can_do,
    diagnosis, on_word_of, starts_on, review_on). A clinician's restriction is a clinician's hold.
    """
    require_athlete(actor, athlete)
    with transaction.atomic():
        restriction = Restriction.objects.create(
            athlete=athlete,
            is_clinical=actor.kind is ActorKind.CLINICIAN,
            set_by_id=actor.require_user_id(),
            set_at=now(),
            **fields,
        )
    return restriction, reread_cards(athlete=athlete, actor=actor, reason=RevisionReason.RESTRICTED)


def add_exception(
    *,
    actor: Actor,
    restriction: Restriction,
    exercise: Exercise,
    on_word_of: str,
    cap: Mass | None = None,
    until_on: date | None = None,
) -> list[Card]:
    """Allow one exercise by name, up to a mass or without one, to a last day or without, so that the rest can stay."""
    require_athlete(actor, restriction.athlete)
    if not may_lift(actor, restriction):
        raise PermissionDenied
    with transaction.atomic():
        RestrictionException.objects.update_or_create(
            restriction=restriction,
            exercise=exercise,
            defaults={
                "cap_value": cap.value if cap else None,
                "cap_unit": cap.unit if cap else "",
                "on_word_of": on_word_of,
                "until_on": until_on,
                "added_at": now(),
            },
        )
    return reread_cards(athlete=restriction.athlete, actor=actor, reason=RevisionReason.RESTRICTED)


@transaction.atomic
def keep_restriction(*, actor: Actor, restriction: Restriction, review_on: date) -> Restriction:
    """It was looked at and stays; the question is asked again on that day. On the word of whoever may lift it."""
    require_athlete(actor, restriction.athlete)
    if not may_lift(actor, restriction):
        raise PermissionDenied
    restriction.review_on = review_on
    restriction.save(update_fields=["review_on"])
    record(actor, "looked again at", restriction)
    return restriction


def lift_restriction(*, actor: Actor, restriction: Restriction, on_word_of: str) -> list[Card]:
    """End a restriction on somebody's word; a clinician's hold only by a clinician. It never ends by itself."""
    require_athlete(actor, restriction.athlete)
    if not may_lift(actor, restriction):
        raise PermissionDenied
    with transaction.atomic():
        restriction.lifted_at, restriction.lifted_by_id = now(), actor.user_id
        restriction.lifted_on_word_of = on_word_of
        restriction.save(update_fields=["lifted_at", "lifted_by", "lifted_on_word_of"])
    return reread_cards(athlete=restriction.athlete, actor=actor, reason=RevisionReason.RESTRICTED)


def restrict_again(*, actor: Actor, restriction: Restriction) -> list[Card]:
    """It was lifted by mistake: the same stands again, as a row of its own with its exceptions. Twice is once."""
    require_athlete(actor, restriction.athlete)
    same = {name: getattr(restriction, name) for name in _CONTENT}
    with transaction.atomic():
        Athlete.objects.select_for_update().get(pk=restriction.athlete_id)
        if Restriction.objects.standing().filter(**same).exists():
            return []
        again = Restriction.objects.create(**same, set_by_id=actor.require_user_id(), set_at=now())
        record(actor, "brought back as", again)
        for one in restriction.exceptions.all():
            one.pk, one.restriction = None, again
            one.save()
    return reread_cards(athlete=restriction.athlete, actor=actor, reason=RevisionReason.RESTRICTED)


def report_pain(
    *,
    actor: Actor,
    athlete: Athlete,
    uuid: UUID,
    region: str,
    side: str,
    score: int,
    is_sore_only: bool = False,
    note: str = "",
) -> PainReport:
    """Store what hurts; sent twice, it is stored once.

    Lines that load it rise no further on any card; from the stop score on they leave the cards.
    """
    require_athlete(actor, athlete, REPORTERS)
    report, is_new = _once(
        PainReport.objects,
        uuid,
        athlete=athlete,
        region=region,
        side=side,
        score=score,
        is_sore_only=is_sore_only,
        note=note,
        **_reporter(actor),
    )
    if is_new and score > 0 and not is_sore_only:
        reread_cards(athlete=athlete, actor=actor, reason=RevisionReason.PAIN)
    return report


def clear_pain(*, actor: Actor, report: PainReport, note: str = "") -> list[Card]:
    """The coach (or clinician) has dealt with it: loads may rise again, lines that were off come back."""
    require_athlete(actor, report.athlete)
    with transaction.atomic():
        report.cleared_at, report.cleared_by_id, report.cleared_note = now(), actor.user_id, note
        report.save(update_fields=["cleared_at", "cleared_by", "cleared_note"])
    return reread_cards(athlete=report.athlete, actor=actor, reason=RevisionReason.PAIN)


def report_red_flag(*, actor: Actor, athlete: Athlete, uuid: UUID, kind: RedFlagKind, note: str = "") -> RedFlag:
    """Stop the athlete's cards at once; sent twice, it is stored once."""
    require_athlete(actor, athlete, REPORTERS)
    flag, _ = _once(RedFlag.objects, uuid, athlete=athlete, kind=kind, note=note, **_reporter(actor))
    return flag


@transaction.atomic
def clear_red_flag(*, actor: Actor, flag: RedFlag, cleared_by_name: str, cleared_on: date) -> RedFlag:
    """Record who cleared the athlete, and when; cards go on from then."""
    require_athlete(actor, flag.athlete)
    flag.cleared_by_name, flag.cleared_on = cleared_by_name, cleared_on
    flag.cleared_by_id, flag.cleared_at = actor.user_id, now()
    flag.save(update_fields=["cleared_by_name", "cleared_on", "cleared_by", "cleared_at"])
    return flag


@transaction.atomic
def set_known_best(*, actor: Actor, athlete: Athlete, exercise: Exercise, **fields: Any) -> KnownBest:
    """Type in a best set (load_value, load_unit, reps, rir_half, on_date, source): a squad can start on day one."""
    require_athlete(actor, athlete, WRITERS)
    return KnownBest.objects.create(athlete=athlete, exercise=exercise, noted_by_id=actor.user_id, **fields)


def _reporter(actor: Actor) -> dict[str, Any]:
    return {
        "on_date": today(),
        "reported_at": now(),
        "reported_by_id": actor.user_id,
        "device_id": actor.device_id,
    }


def _once(rows: Manager[Report], uuid: UUID, **fields: Any) -> tuple[Report, bool]:
    """Insert, or return what is stored under this uuid; the flag says whether it is new.

    Something else under a used uuid is a report of its own: a page that was sent twice must not hide the worse pain.
    """
    try:
        with transaction.atomic():
            return rows.create(uuid=uuid, **fields), True
    except IntegrityError:
        stored = rows.get(uuid=uuid)
        told = {name: fields[name] for name in _TOLD if name in fields}
        if all(getattr(stored, name) == value for name, value in told.items()):
            return stored, False
        return _once(rows, uuid5(uuid, repr([getattr(v, "pk", v) for v in told.values()])), **fields)
