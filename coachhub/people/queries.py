"""Reads on the club's people. What is asked for is already narrowed to what the actor may see."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

from django.db.models import (
    BooleanField,
    Count,
    Exists,
    ExpressionWrapper,
    F,
    OuterRef,
    Prefetch,
    Q,
    QuerySet,
    Subquery,
    Value,
)
from django.db.models.functions import Coalesce

from coachhub.base.actor import Actor
from coachhub.base.text import fold
from coachhub.coaching.limits import ADULT_AGE, pain_stop
from coachhub.people.access import token_hash
from coachhub.people.models import (
    Athlete,
    AthleteQuerySet,
    Availability,
    AvailabilityStatus,
    Device,
    EnrolmentCode,
    Membership,
    PainReport,
    RedFlag,
    Squad,
    SquadQuerySet,
    Staff,
)
from coachhub.people.queries_care import has_guardian, standing_consents


def live_squads(actor: Actor) -> SquadQuerySet:
    return Squad.objects.visible_to(actor).filter(archived_at=None)


def squads_with_size(actor: Actor, day: date) -> QuerySet[Squad]:
    """Each with `size`: how many live athletes are members on that day; and its staff."""
    member = Q(memberships__started_on__lte=day, memberships__athlete__archived_at=None) & (
        Q(memberships__ended_on=None) | Q(memberships__ended_on__gte=day)
    )
    staff = Prefetch("staff", Staff.objects.filter(archived_at=None), to_attr="live_staff")
    size = Count("memberships__athlete", filter=member, distinct=True)
    return live_squads(actor).annotate(size=size).prefetch_related(staff)


def in_force(athlete: str, day: date) -> QuerySet[Availability]:
    """For a subquery: the row that counts on that day; `athlete` is the path to the athlete's key."""
    return Availability.objects.filter(athlete=OuterRef(athlete), from_on__lte=day).order_by("-from_on", "-pk")


def status_on(athlete: str, day: date) -> Coalesce:
    """The availability on that day, full where nothing was ever set."""
    return Coalesce(Subquery(in_force(athlete, day).values("status")[:1]), Value(AvailabilityStatus.FULL.value))


def is_unsettled(athlete: str, day: date) -> ExpressionWrapper[Any]:
    """Whether a red flag, or pain that takes lines off cards, waits for a word: no availability is plain till then."""
    flags = RedFlag.objects.filter(athlete=OuterRef(athlete), cleared_at=None)
    stops = Q(score__gte=pain_stop(False)) | Q(score__gte=pain_stop(True), athlete__born_on__gt=adult_born_on(day))
    pains = PainReport.objects.filter(stops, athlete=OuterRef(athlete), cleared_at=None, is_sore_only=False)
    return ExpressionWrapper(Exists(flags) | Exists(pains), output_field=BooleanField())


def adult_born_on(day: date) -> date:
    """Whoever was born later is a minor on that day."""
    born = day.replace(day=28) if (day.month, day.day) == (2, 29) else day
    return born.replace(year=born.year - ADULT_AGE)


def can_do_on(athlete: str, day: date) -> Coalesce:
    """What they can do on that day, in words for all of the staff."""
    return Coalesce(Subquery(in_force(athlete, day).values("can_do")[:1]), Value(""))


def members_on(squad: Squad, day: date) -> QuerySet[Membership]:
    """Live athletes of the squad on that day, by name, with `status`, `has_guardian` and standing consents."""
    rows = squad.memberships.on(day).filter(athlete__archived_at=None).select_related("athlete")
    said = {"status": status_on("athlete", day), "is_unsettled": is_unsettled("athlete", day)}
    rows = rows.annotate(**said, has_guardian=has_guardian("athlete"))
    return rows.prefetch_related(standing_consents("athlete__consents")).order_by("athlete__search_key", "pk")


def other_members(squad: Squad, day: date) -> QuerySet[Membership]:
    """Who has left, or comes later."""
    past_or_coming = Q(ended_on__lt=day) | Q(started_on__gt=day)
    return squad.memberships.filter(past_or_coming).select_related("athlete").order_by("-started_on", "pk")


def could_join(actor: Actor, squad: Squad, day: date) -> AthleteQuerySet:
    """Live athletes that the actor sees and who are not in the squad on that day."""
    inside = squad.memberships.filter(Q(ended_on=None) | Q(ended_on__gte=day)).values("athlete")
    return Athlete.objects.visible_to(actor).live().exclude(pk__in=inside)


def find_athletes(actor: Actor, text: str, squad: Squad | None, day: date) -> AthleteQuerySet:
    """Live athletes whose name holds every word of `text`.

    Each with `status`, `has_guardian`, `standing_consents` and `current` (memberships today).
    """
    rows = Athlete.objects.visible_to(actor).live()
    if squad is not None:
        rows = rows.in_squads(frozenset([squad.pk]), day)
    for word in fold(text).split():
        rows = rows.filter(search_key__contains=word)
    current = Membership.objects.on(day).filter(squad__in=live_squads(actor)).select_related("squad")
    said = {"status": status_on("pk", day), "is_unsettled": is_unsettled("pk", day)}
    return rows.annotate(**said, has_guardian=has_guardian("pk")).prefetch_related(
        Prefetch("memberships", current.order_by("squad__search_key"), to_attr="current"),
        standing_consents("consents"),
    )


def memberships_of(actor: Actor, athlete: Athlete) -> QuerySet[Membership]:
    """Newest first; only of squads that the actor sees."""
    rows = athlete.memberships.filter(squad__in=live_squads(actor))
    return rows.select_related("squad").order_by("-started_on", "pk")


def same_person(given_name: str, family_name: str, born_on: date) -> Athlete | None:
    """Whoever the club knows by that name and date of birth, of any squad; one who has left only if nobody else."""
    key = fold(f"{family_name} {given_name}")
    rows = Athlete.objects.filter(search_key=key, born_on=born_on)
    return rows.order_by(F("archived_at").desc(nulls_first=True), "pk").first()


def athlete_in_full(actor: Actor, day: date) -> AthleteQuerySet:
    """Live athletes, each with `status`, `is_unsettled` and `can_do` of that day."""
    rows = Athlete.objects.visible_to(actor).live()
    said = {"status": status_on("pk", day), "is_unsettled": is_unsettled("pk", day)}
    return rows.annotate(**said, can_do=can_do_on("pk", day))


def availability_on(athlete: Athlete, day: date) -> Availability | None:
    """The row in force; None means full."""
    return athlete.availabilities.filter(from_on__lte=day).first()


def availability_before(athlete: Athlete, day: date) -> dict[str, str]:
    """What a form begins with: the row in force; but full is never chosen for anybody whom something holds."""
    row = availability_on(athlete, day)
    status, can_do = (row.status, row.can_do) if row else (AvailabilityStatus.FULL.value, "")
    return {"status": "" if status == AvailabilityStatus.FULL and is_held(athlete) else status, "can_do": can_do}


def is_held(athlete: Athlete) -> bool:
    """Whether a restriction, pain or a red flag stands."""
    hurts = athlete.pain_reports.filter(cleared_at=None, score__gt=0, is_sore_only=False)
    flags = athlete.red_flags.filter(cleared_at=None)
    return athlete.restrictions.filter(lifted_at=None).exists() or hurts.exists() or flags.exists()


def phones_of(athlete: Athlete) -> QuerySet[Device]:
    return athlete.devices.filter(revoked_at=None)


def waiting_code_until(athlete: Athlete, moment: datetime) -> datetime | None:
    """When the code that waits for a phone expires; None where none waits."""
    return athlete.enrolment_codes.live_at(moment).values_list("expires_at", flat=True).first()


def athlete_of_link(token: str, moment: datetime) -> Athlete | None:
    """Whose phone this link would bind, while it is still good."""
    row = EnrolmentCode.objects.live_at(moment).filter(token_hash=token_hash(token)).select_related("athlete").first()
    return row.athlete if row else None


def athletes_without_phone(squad: Squad, day: date) -> list[Athlete]:
    """Members on that day who have no bound phone; nobody in a squad on paper only."""
    if squad.is_paper_only:
        return []
    rows = Athlete.objects.members_of(squad.pk, day)
    return list(rows.exclude(devices__in=Device.objects.filter(revoked_at=None)))


def all_staff() -> QuerySet[Staff]:
    """Those who work here now, then those who have left; with login and squads."""
    squads = Prefetch("squads", Squad.objects.filter(archived_at=None), to_attr="live_squads")
    return Staff.objects.select_related("user").prefetch_related(squads).order_by("archived_at", "name", "pk")
