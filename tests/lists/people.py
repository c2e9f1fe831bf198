"""Squads, athletes, guardians, staff, codes, tables of athletes."""

from __future__ import annotations

from collections.abc import Sequence

from django.db.models.functions import Now

from coachhub.people.models import Athlete, Device, Guardianship, ImportDraft, Membership, Squad
from tests.access.roster import coachs_draft
from tests.cast import Cast, Role
from tests.factories import (
    AthleteFactory,
    DeviceFactory,
    EnrolmentCodeFactory,
    GuardianFactory,
    GuardianshipFactory,
    MembershipFactory,
    SquadFactory,
    StaffFactory,
    UserFactory,
)
from tests.lists import PAGED, Listing, put


def athletes(cast: Cast, names: Sequence[str]) -> list[Athlete]:
    """In the squad of the cast."""
    made = put(AthleteFactory.build(family_name=name) for name in names)
    put(MembershipFactory.build(squad=cast.squad, athlete=athlete) for athlete in made)
    return made


def squads(_cast: Cast, names: Sequence[str]) -> None:
    put(SquadFactory.build(name=name) for name in names)


def guardians(cast: Cast, names: Sequence[str]) -> None:
    made = put(GuardianFactory.build(name=name, phone="01632 960 123") for name in names)
    put(GuardianshipFactory.build(guardian=guardian, athlete=cast.child) for guardian in made)


def children(cast: Cast, names: Sequence[str]) -> None:
    made = put(AthleteFactory.build(is_minor=True, family_name=name) for name in names)
    put(MembershipFactory.build(squad=cast.squad, athlete=athlete) for athlete in made)
    put(GuardianshipFactory.build(guardian=cast.guardian, athlete=athlete) for athlete in made)


def staff(_cast: Cast, names: Sequence[str]) -> None:
    users = put(UserFactory.build(username=name, password="!") for name in names)
    put(StaffFactory.build(user=user, name=name) for user, name in zip(users, names, strict=True))


def phones(cast: Cast, names: Sequence[str]) -> None:
    user = cast.staff[Role.COACH].user
    codes = put(EnrolmentCodeFactory.build(athlete=cast.athlete, created_by=user) for _name in names)
    put(
        DeviceFactory.build(athlete=cast.athlete, enrolment=code, label=name)
        for code, name in zip(codes, names, strict=True)
    )


def draft_rows(cast: Cast, names: Sequence[str]) -> None:
    (draft,) = ImportDraft.objects.all()
    for name in names:
        draft.table["rows"].append([len(draft.table["rows"]) + 2, ["Runa", name, "2012-04-30"], [], ""])
    draft.save()


def nobody_trains(cast: Cast) -> None:
    Membership.objects.all().delete()
    Athlete.objects.update(archived_at=Now())


def no_guardian(cast: Cast) -> None:
    Guardianship.objects.all().delete()


def nobody_in_the_squad(cast: Cast) -> None:
    Membership.objects.filter(squad=cast.squad).delete()


def no_phone(cast: Cast) -> None:
    Device.objects.filter(athlete=cast.athlete).delete()


def no_squad(cast: Cast) -> None:
    Squad.objects.update(archived_at=Now())


def of_squad(cast: Cast) -> dict[str, object]:
    return {"pk": cast.squad.pk}


def of_child(cast: Cast) -> dict[str, object]:
    return {"pk": cast.child.pk}


def of_athlete(cast: Cast) -> dict[str, object]:
    return {"pk": cast.athlete.pk}


def of_guardian(cast: Cast) -> dict[str, object]:
    return {"pk": cast.guardian.pk}


def draft(cast: Cast) -> dict[str, object]:
    return coachs_draft(cast)


TABLE = {
    "desk:squads": Listing(squads, "Add the first squad", clear=no_squad),
    "desk:squad": Listing(athletes, "Add an athlete", of_squad, clear=nobody_in_the_squad),
    "desk:athletes": Listing(athletes, "Add the first athlete", clear=nobody_trains, many=120, at_once=PAGED),
    "desk:athlete": Listing(guardians, "no guardian is noted", of_child, clear=no_guardian, most_queries=15),
    "desk:guardian": Listing(children, "Juno Reed", of_guardian),
    "desk:athlete_code": Listing(phones, "No phone is bound.", of_athlete, clear=no_phone, many=60),
    "desk:staff": Listing(staff, "Maren Holt", many=60),
    "desk:roster_preview": Listing(
        draft_rows, "Beck", draft, role=Role.COACH, many=120, at_once=PAGED, most_queries=11
    ),
    "desk:roster_csv": Listing(athletes, "given name", many=60),
}
