from __future__ import annotations

from collections import Counter
from datetime import timedelta

import pytest
from django.db.models import F
from django.test import Client

from coachhub.base.clock import today
from coachhub.cards.models import KnownBest
from coachhub.demo.club import PASSWORD
from coachhub.library.models import Venue
from coachhub.people.models import Athlete, Consent, Guardian, PainReport, RedFlag, Restriction, Squad, StaffSquad
from coachhub.season.models import GymSlot, Happening, MatchDay, SeasonPhase

USERS = ["owner", "coach", "assistant", "clinician", "headcoach", "juniorcoach"]


def ages(squad: str) -> Counter[int]:
    return Counter(athlete.age_on(today()) for athlete in Athlete.objects.filter(memberships__squad__name=squad))


def test_squads_have_their_athletes(demo: list[str]) -> None:
    sizes = {squad.name: squad.memberships.count() for squad in Squad.objects.all()}

    assert sizes == {"Seniors": 18, "Under-18": 16, "Under-15": 14}
    assert Athlete.objects.count() == 48


def test_ages_suit_the_squads(demo: list[str]) -> None:
    assert ages("Under-18") == {15: 4, 16: 5, 17: 5, 18: 2}
    assert ages("Under-15") == {13: 6, 14: 8}
    assert min(ages("Seniors")) == 18


def test_somebody_turned_eighteen_within_the_last_fortnight(demo: list[str]) -> None:
    fortnight = today() - timedelta(days=14)

    recent = [a.given_name for a in Athlete.objects.all() if a.age_on(today()) == 18 and a.age_on(fortnight) == 17]

    assert recent == ["Isolde"]


def test_one_minor_has_no_guardian_and_two_children_share_one(demo: list[str]) -> None:
    alone = [a.given_name for a in Athlete.objects.filter(guardianships=None) if a.is_minor_on(today())]
    children = Counter(guardian.guardianships.count() for guardian in Guardian.objects.all())

    assert alone == ["Nele"]
    assert children == {1: 25, 2: 1}
    assert Athlete.objects.filter(memberships__squad__name="Under-15", guardianships=None).count() == 0


def test_consents_are_on_file_but_for_one_and_everyone_can_be_helped_in_an_emergency(demo: list[str]) -> None:
    missing = Athlete.objects.exclude(consents__kind="phone")

    assert Consent.objects.count() == 3 * Athlete.objects.count() - 1
    assert list(missing.values_list("given_name", flat=True)) == ["Émile"]
    assert Athlete.objects.filter(emergency_contact="").count() == 0


def test_three_read_pounds(demo: list[str]) -> None:
    assert list(Athlete.objects.filter(unit="lb").values_list("given_name", flat=True)) == ["Nerys", "Ingrid", "Cerys"]


def test_staff_has_a_login_for_every_role_and_a_coach_for_the_juniors(demo: list[str]) -> None:
    rows = StaffSquad.objects.filter(staff__role="coach").values_list("staff__user__username", "squad__name")

    assert sorted(rows) == [("coach", "Seniors"), ("coach", "Under-18"), ("juniorcoach", "Under-15")]
    assert [line.split("user name ")[1].split(",")[0] for line in demo[:6]] == USERS


@pytest.mark.parametrize("username", USERS)
def test_printed_login_lets_in(demo: list[str], username: str) -> None:
    client = Client()

    client.post("/login/", {"login": username, "password": PASSWORD})

    assert f"user name {username}, passphrase {PASSWORD}" in "\n".join(demo)
    assert "_auth_user_id" in client.session


def test_printed_codes_bind_a_phone_of_each_squad(demo: list[str]) -> None:
    found = {line.split(": ")[1].split(" ")[0]: line.split("code ")[1].split()[0] for line in demo[6:]}

    for code in found.values():
        Client().post("/enrol/", {"code": code})

    assert list(found) == ["Jessamy", "Cerys", "Daria", "Imke"]
    assert Athlete.objects.filter(given_name__in=found, devices=None).count() == 0


def test_venues_have_what_the_plans_ask_for(demo: list[str]) -> None:
    gym, road, hall = Venue.objects.order_by("name")

    assert [venue.name for venue in (gym, road, hall)] == ["Mill Lane gym", "On the road", "School hall"]
    assert [venue.is_supervised for venue in (gym, road, hall)] == [True, False, True]
    assert [(scale.name, scale.unit, len(scale.settings)) for scale in gym.scales.all()] == [
        ("Cable tower by the window", "kg", 16),
        ("Pulldown", "pl", 15),
    ]
    assert max(weight.mass_value for weight in hall.weights.all()) == 12
    assert set(road.items.values_list("kind", flat=True)) == {"mat", "mini_band"}


def test_every_squad_has_its_hours_and_its_matches(demo: list[str]) -> None:
    slots = GymSlot.objects.values_list("squad__name", "weekday", "venue__name")

    assert sorted(slots) == [
        ("Seniors", 0, "Mill Lane gym"),
        ("Seniors", 2, "Mill Lane gym"),
        ("Under-15", 0, "School hall"),
        ("Under-15", 3, "School hall"),
        ("Under-18", 1, "Mill Lane gym"),
        ("Under-18", 3, "Mill Lane gym"),
    ]
    assert list(Happening.objects.order_by("weekdays").values_list("squad__name", "weekdays")) == [
        ("Seniors", 0b01010),
        ("Under-15", 0b10010),
        ("Under-18", 0b10101),
    ]
    assert SeasonPhase.objects.count() == 3 * 4
    assert MatchDay.objects.filter(on_date__lt=today()).count() == 3 * 12
    assert MatchDay.objects.filter(on_date__gt=today()).count() in (15, 18)


def test_bests_are_known_where_the_coach_has_tested(demo: list[str]) -> None:
    known = Athlete.objects.filter(pk__in=KnownBest.objects.exclude(source="coach").values("athlete"))
    by_squad = Counter(known.values_list("memberships__squad__name", flat=True))

    assert by_squad == {"Seniors": 12, "Under-18": 8}


def test_health_has_one_of_each_kind(demo: list[str]) -> None:
    restrictions = Restriction.objects.standing().values_list("athlete__given_name", "kind", "is_clinical")
    pains = PainReport.objects.filter(cleared_at=None).values_list("athlete__given_name", "score")

    assert sorted(restrictions) == [
        ("Bettany", "grip", False),
        ("Bora", "region", True),
        ("Hanneke", "load_cap", False),
        ("Oda", "region", False),
        ("Rune", "impact", True),
        ("Saoirse", "exercise", False),
        ("Teodora", "overhead", True),
        ("Yaelle", "impact", True),
    ]
    assert sorted(pains) == [("Nerys", 3), ("Petrana", 4)]
    assert PainReport.objects.exclude(cleared_at=None).count() == 10
    assert sum(one.needs_review_on(today()) for one in Restriction.objects.all()) == 2


def test_one_came_back_from_injury_and_one_red_flag_was_cleared(demo: list[str]) -> None:
    lifted = Restriction.objects.exclude(lifted_at=None).get()
    flag = RedFlag.objects.get()

    assert (lifted.athlete.given_name, lifted.lifted_on_word_of) == ("Rosalba", "Dr Ona Birk")
    assert (flag.athlete.given_name, flag.cleared_by_name) == ("Meriem", "Dr Ona Birk")
    assert Restriction.objects.filter(lifted_at__date__gt=F("starts_on"), lifted_at__date__lt=today()).count() == 1
    assert RedFlag.objects.filter(cleared_on__gt=F("on_date"), cleared_on__lt=today()).count() == 1
