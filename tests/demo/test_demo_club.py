from __future__ import annotations

from collections import Counter

import pytest
from django.test import Client

from coachhub.base.clock import today
from coachhub.cards.models import Assignment, KnownBest
from coachhub.coaching.coverage import PRIMARY, CoverageLine, coverage
from coachhub.demo.club import PASSWORD
from coachhub.people.models import Athlete, Consent, PainReport, Restriction, Staff
from coachhub.plans.models import Prescription, PrescriptionWeek, Session
from coachhub.plans.queries import load_session, movements
from coachhub.season.models import MatchDay


def test_squad_has_minors_and_adults(demo: list[str]) -> None:
    ages = Counter(athlete.age_on(today()) for athlete in Athlete.objects.all())

    assert ages == {15: 4, 16: 5, 17: 5, 18: 2}


def test_every_minor_has_a_guardian_and_everyone_consents_on_file(demo: list[str]) -> None:
    alone = Athlete.objects.filter(guardianships=None)

    assert [athlete.is_minor_on(today()) for athlete in alone] == [False, False]
    assert Consent.objects.count() == 3 * Athlete.objects.count()


def test_staff_has_one_login_a_role(demo: list[str]) -> None:
    rows = sorted(Staff.objects.values_list("role", "user__username"))

    assert rows == [
        ("assistant", "assistant"),
        ("clinician", "clinician"),
        ("coach", "coach"),
        ("head_coach", "headcoach"),
        ("owner", "owner"),
    ]


@pytest.mark.parametrize("username", ["owner", "coach", "assistant", "clinician", "headcoach"])
def test_printed_login_lets_in(demo: list[str], username: str) -> None:
    client = Client()

    client.post("/login/", {"login": username, "password": PASSWORD})

    assert f"user name {username}, passphrase {PASSWORD}" in "\n".join(demo)
    assert "_auth_user_id" in client.session


def test_printed_code_binds_a_phone_to_the_athlete(demo: list[str]) -> None:
    code = demo[5].split("code ")[1].split()[0]

    Client().post("/enrol/", {"code": code})

    assert Athlete.objects.get(given_name="Cerys").devices.count() == 1


def test_plan_has_two_sessions_a_week_that_change_over_six_weeks(demo: list[str]) -> None:
    sessions = [(s.name, s.day, s.week_from, s.week_to) for s in Session.objects.order_by("day")]

    assert sessions == [("Squat and pull", 1, 1, 6), ("Hinge and press", 2, 1, 6)]
    assert set(PrescriptionWeek.objects.values_list("week", flat=True)) == {1, 2, 4, 5, 6}


def test_each_session_covers_the_five_patterns(demo: list[str]) -> None:
    for session in Session.objects.all():
        tree = load_session(session.pk)
        known = movements()
        lines = [
            CoverageLine(line.label, part.row.kind, known[line.exercise.pk])
            for part in tree.parts
            for line in part.lines
            if line.exercise.pk in known
        ]
        assert [c.pattern for c in coverage(lines).primary if c.labels] == list(PRIMARY), session.name


def test_loaded_main_lifts_have_swaps(demo: list[str]) -> None:
    without = Prescription.objects.filter(ramp_up_sets__gt=0, swaps=None)

    assert list(without) == []


def test_history_is_eight_sessions_and_one_today(demo: list[str]) -> None:
    days = list(Assignment.objects.order_by("on_date").values_list("on_date", "week", "session__name"))

    assert [week for _, week, _ in days] == [1, 1, 2, 2, 3, 3, 4, 4, 5]
    assert [name for *_, name in days] == ["Squat and pull", "Hinge and press"] * 4 + ["Squat and pull"]
    assert days[-1][0] == today()


def test_matches_lie_before_and_after_today(demo: list[str]) -> None:
    assert MatchDay.objects.filter(on_date__lt=today()).count() == 5
    assert MatchDay.objects.filter(on_date__gt=today()).count() in (5, 6)


def test_bests_are_known_for_half_of_the_squad(demo: list[str]) -> None:
    known = KnownBest.objects.exclude(source="coach").order_by().values("athlete").distinct().count()

    assert known == Athlete.objects.count() // 2


def test_health_has_one_of_each_kind(demo: list[str]) -> None:
    restrictions = Restriction.objects.standing().values_list("athlete__given_name", "kind", "region", "is_clinical")
    pains = PainReport.objects.filter(cleared_at=None).values_list("athlete__given_name", "score")

    assert sorted(restrictions) == [
        ("Bora", "region", "foot", True),
        ("Oda", "region", "knee", False),
        ("Yaelle", "impact", "", True),
    ]
    assert list(pains) == [("Petrana", 4)]
    assert PainReport.objects.exclude(cleared_at=None).count() == 2
