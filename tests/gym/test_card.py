"""What the card and the list of cards say, to whom, and at what cost."""

from __future__ import annotations

import gzip
from datetime import timedelta

import pytest
from django.conf import settings
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.cards.actions import renew_card
from coachhub.cards.models import Assignment, SetEntry
from coachhub.plans.models import CircuitGroup, Prescription
from tests.cast import Cast, Role
from tests.factories import VenueFactory, years_ago
from tests.gym.conftest import Evening

HOME = "/g/"


def test_first_load_is_light(evening: Evening) -> None:
    page = evening.open()
    files = ["css/tokens.css", "css/base.css", "css/gym.css", "js/gym/card.js", "icons/icon.svg"]
    texts = {name: (settings.BASE_DIR / "static" / name).read_bytes() for name in files}
    total = sum(len(gzip.compress(text)) for text in (page.html.encode(), *texts.values()))
    assert [page.html.count(f"/static/{name}") for name in files] == [1] * len(files)
    assert page.html.count("/static/") == len(files)
    assert (total <= 60_000, len(texts["js/gym/card.js"]) <= 25_000) == (True, True)


@pytest.mark.parametrize("role", [Role.ATHLETE, Role.COACH])
def test_page_takes_as_many_queries_for_one_line_as_for_thirty(evening: Evening, role: Role) -> None:
    browser = evening.browser(role)
    browser.client.get(evening.url())
    counts = []
    for lines in (1, 30):
        Prescription.objects.exclude(pk=evening.lines["Front squat"].pk).delete()
        CircuitGroup.objects.exclude(prescriptions=evening.lines["Front squat"]).delete()
        squat = evening.lines["Front squat"]
        Prescription.objects.bulk_create(
            Prescription(group=squat.group, exercise=squat.exercise, position=n, low=5) for n in range(1, lines)
        )
        evening.assignment = evening.assign(evening.cast.athlete, day=-lines)
        evening.do("Round 1 done as planned")
        url = evening.url()
        with CaptureQueriesContext(connection) as queries:
            browser.open(url)
        counts.append(len(queries))
    assert (counts[0], counts[0] <= 10) == (counts[1], True)


def test_changed_card_stays_within_ten_queries(evening: Evening) -> None:
    evening.lines["Front squat"].delete()
    renew_card(actor=evening.coach, card=evening.card())
    url = evening.url()
    for role in (Role.ATHLETE, Role.COACH):
        browser = evening.browser(role)
        with CaptureQueriesContext(connection) as queries:
            page = browser.open(url)
        assert ("Your coach changed this card" in page.words, len(queries) <= 10) == (True, True)


def test_tap_takes_few_queries(evening: Evening) -> None:
    page = evening.do("Round 1 done as planned")
    data = evening.browser().data_of(page, "A1 Front squat done as planned")
    client, url = evening.cast.client_of(Role.ATHLETE), evening.url("log")
    with CaptureQueriesContext(connection) as queries:
        client.post(url, data)
    asked = [query["sql"] for query in queries if "SAVEPOINT" not in query["sql"]]
    # The phone, the club, the lines with the card, the entries, what stands against them, the new entry.
    assert len(asked) == 6


def test_card_says_what_to_lift_and_how(evening: Evening) -> None:
    words = evening.open().words
    for said in (
        "Front squat Elbows up 60 kg × 5 total with the bar · barbell 20 kg · each end 20",
        "Lighter first: 30 kg × 5 (each end 5) · 45 kg × 5 (each end 12.5)",
        "Safety arms set just below the deepest point first",
        "Split squat 8 each side",
        "Rest 2:00–2:30 after A3.",
        "Goblet squat find it × 8 the one weight held",
        "Side plank 30 s hold each side",
    ):
        assert said.replace("12.5", "10 + 2.5") in words


def test_load_says_why(evening: Evening) -> None:
    words = evening.open().words
    assert "Why 60? A1 Front squat Written: 60 kg." in words


def test_round_done_is_a_line_and_what_differs_is_set_apart(evening: Evening) -> None:
    page = evening.do("Round 1 done as planned")
    chin_up = f"{evening.line('Chin-up').key}-both-amount"
    page = evening.press(evening.open("round", evening.block("A"), 2), "Write this round", **{chin_up: "3"})
    assert "60 kg × 5</span>" in page.html.replace(" · ", "</span>")
    assert "<b>3 of 4</b>" in page.html


def test_rest_clock_starts_from_the_last_set_of_the_block(evening: Evening) -> None:
    assert 'data-wanted="120"' not in evening.open().html
    page = evening.do("Round 1 done as planned")
    assert ('data-wanted="120"' in page.html, "Rest 2:00–2:30" in page.words) == (True, True)


def test_rest_clock_has_ended_after_a_quarter_of_an_hour(evening: Evening) -> None:
    evening.do("Round 1 done as planned")
    row = SetEntry.objects.order_by("-pk")[:1].get()
    SetEntry.objects.update(received_at=row.received_at - timedelta(minutes=16))
    assert "data-wanted" not in evening.open().html


def test_coachs_change_is_said_line_by_line(evening: Evening) -> None:
    squat, chin_up = evening.lines["Front squat"], evening.lines["Chin-up"]
    squat.load = 65
    squat.save()
    chin_up.delete()
    renew_card(actor=evening.coach, card=evening.card())
    words = evening.open().words
    assert "Your coach changed this card at" in words
    assert "A1 Front squat: 4 × 65 kg × 5, was 4 × 60 kg × 5" in words
    assert "A3 Chin-up is off" in words


def test_minors_card_carries_the_caution(evening: Evening) -> None:
    caution = "Under 18: only with a coach in the room."
    adult = evening.open().words
    evening.describe(born_on=years_ago(15))
    assert (caution in adult, caution in evening.open().words) == (False, True)


def test_minor_without_a_coach_has_only_what_is_cleared_for_it(evening: Evening) -> None:
    evening.describe(born_on=years_ago(15))
    road = VenueFactory.create(name="On the road", is_supervised=False, stock=True)
    evening.assignment = evening.assign(evening.cast.athlete, venue=road)
    words = evening.open().words
    assert "Under 18, and no coach here: do only what is on this card" in words
    assert "Not without a coach present for under-18s." in words
    assert "Front squat" not in " ".join(evening.open().buttons)


def test_card_reads_in_the_athletes_own_unit_too(evening: Evening) -> None:
    evening.describe(unit="lb")
    words = evening.open().words
    assert "60 kg (132 lb) × 5" in words
    assert "Lighter first: 30 kg (66 lb) × 5 (each end 5)" in words


def test_optional_extra_round_is_offered_not_asked(evening: Evening) -> None:
    group = evening.lines["Romanian deadlift"].group
    group.rounds_max = 4
    group.save()
    renew_card(actor=evening.coach, card=evening.card())
    rounds = [f"Round {n} done as planned" for n in (1, 2, 3, 4, 1, 2, 3)]
    page = evening.do(*rounds)
    assert ("All that was planned is written." in page.words, "One more round" in page.words) == (True, True)
    page = evening.browser().open(f"{evening.url()}?at={evening.block('B')}")
    assert "Round 4 done as planned" in page.buttons


def test_home_says_what_to_do_before_there_is_a_card(cast: Cast) -> None:
    html = cast.client_of(Role.ATHLETE).get(HOME).content.decode()
    assert "No card yet. When your coach gives you a session, its card is here." in html


def test_home_shows_today_first_then_coming_then_ten_of_the_past(evening: Evening) -> None:
    for day in (3, *range(-12, 0)):
        evening.assign(evening.cast.athlete, day=day)
    browser = evening.browser()
    browser.open(HOME)
    with CaptureQueriesContext(connection) as queries:
        page = browser.open(HOME)
    before = page.words.split("Before")[1]
    assert (before.count("Squat and hinge"), page.words.count("Squat and hinge"), len(queries)) == (10, 12, 6)
    assert page.words.index("Today") < page.words.index("Coming") < page.words.index("Before")


def test_home_shows_nothing_of_a_team_mate(evening: Evening) -> None:
    page = evening.browser(Role.TEAM_MATE).open(HOME)
    own = reverse("gym:card", args=[evening.card(evening.cast.team_mate).pk])
    assert (evening.url() in page.html, own in page.html, "Ingrid" in page.words) == (False, True, False)


def test_cancelled_session_is_gone_from_the_phone(evening: Evening) -> None:
    Assignment.objects.update(cancelled_at=evening.assignment.created_at)
    assert (evening.open().status, "No card yet" in evening.browser().open(HOME).words) == (404, True)
