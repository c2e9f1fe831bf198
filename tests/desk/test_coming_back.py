"""The way back on the desk: set, read, asked about; breaks told before a session is given."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.test import Client

from coachhub.base.clock import today
from coachhub.desk.pages.waiting import WaitingPage
from coachhub.people.models import Club, ReturnStage
from tests.cards.conftest import Evening
from tests.cards.test_individual import trained
from tests.cast import Cast, Role
from tests.desk.evening import asked
from tests.factories import ReturnStageFactory, days_ago

STAGE_1 = "Stage 1: half of the sets, 70 % of the load"


def send(client: Client, cast: Cast, **sent: object) -> Any:
    return client.post(f"/athletes/{cast.athlete.pk}/coming-back/", sent, follow=True)


def shown(cast: Cast, path: str, role: Role = Role.COACH) -> str:
    return cast.client_of(role).get(f"/athletes/{cast.athlete.pk}/{path}").content.decode()


def test_clinician_sets_a_stage_which_stands_where_health_is_read(cast: Cast) -> None:
    answer = send(cast.client_of(Role.CLINICIAN), cast, stage=1, on_word_of="Dr Hale")
    assert (answer.status_code, answer.redirect_chain) == (200, [(f"/athletes/{cast.athlete.pk}/coming-back/", 302)])
    assert [STAGE_1 in shown(cast, path) for path in ("", "health/", "coming-back/")] == [True, True, True]
    assert [STAGE_1 in shown(cast, "", role) for role in (Role.ASSISTANT, Role.HEAD_COACH)] == [False, False]


def test_coming_cards_to_renew_are_counted_and_listed(evening: Evening) -> None:
    answer = send(evening.cast.client_of(Role.COACH), evening.cast, stage=2, on_word_of="Dr Hale")
    assert [str(one) for one in answer.context["messages"]] == ["Set. 1 coming card can be renewed."]
    assert f'href="/assignments/{evening.assignment.pk}/differences/"' in answer.content.decode()


@pytest.mark.parametrize(
    ("sent", "wrong"),
    [
        ({"stage": "1", "on_word_of": " "}, ["on_word_of"]),
        ({"on_word_of": "Dr Hale"}, ["stage"]),
        ({"stage": "4", "on_word_of": "Dr Hale"}, ["stage"]),
        ({"stage": "x", "on_word_of": "d" * 121}, ["stage", "on_word_of"]),
    ],
)
@pytest.mark.parametrize("headers", [{}, {"HX-Request": "true"}])
def test_what_is_missing_is_said_beside_the_field(
    cast: Cast, sent: dict[str, str], wrong: list[str], headers: dict[str, str]
) -> None:
    client = cast.client_of(Role.COACH)
    answer: Any = client.post(f"/athletes/{cast.athlete.pk}/coming-back/", sent, headers=headers)
    assert (answer.status_code, list(answer.context["form"].errors)) == (422, wrong)
    assert ReturnStage.objects.count() == 0


def test_back_in_full_is_offered_on_the_way_back_only_and_may_be_sent_twice(cast: Cast) -> None:
    full = "Back in full: nothing is eased"
    before = shown(cast, "coming-back/")
    ReturnStageFactory.create(athlete=cast.athlete, stage=3, from_on=days_ago(8))
    assert [full in before, full in shown(cast, "coming-back/")] == [False, True]
    client = cast.client_of(Role.COACH)
    statuses = [send(client, cast, stage=0, on_word_of="Dr Hale").status_code for _ in range(2)]
    assert (statuses, ReturnStage.objects.count()) == ([200, 200], 2)
    text = shown(cast, "coming-back/")
    assert ["Trains in full: no stage is set." in text, "Stage 3: all sets" in text, full in text] == [True] * 3


def test_stage_waits_for_who_gave_the_word(cast: Cast) -> None:
    by_clinician, by_coach = cast.staff[Role.CLINICIAN].user, cast.staff[Role.COACH].user
    ReturnStageFactory.create(athlete=cast.athlete, stage=1, set_by=by_clinician, on_word_of="Dr Hale")
    ReturnStageFactory.create(athlete=cast.team_mate, stage=3, set_by=by_coach, on_word_of="Nils Reef")
    ReturnStageFactory.create(athlete=cast.child, stage=0, set_by=by_coach)
    page = WaitingPage.of(cast.actor_of(Role.CLINICIAN))
    assert [(group.whose, [(one.who[0], one.what) for one in group.questions]) for group in page.groups] == [
        ("a clinician or doctor", [(cast.athlete.name, "coming back, stage 1: half of the sets, 70 % of the load")]),
        ("Nils Reef", [(cast.team_mate.name, "coming back, stage 3: all sets, 90 % of the load")]),
    ]


def test_break_is_told_before_a_session_is_given(evening: Evening) -> None:
    trained(evening.athlete, evening.squat.exercise, 21, load=60)
    trained(evening.cast.team_mate, evening.squat.exercise, 2, load=60)
    text = evening.cast.client_of(Role.COACH).get("/assign/", asked(evening)).content.decode()
    all_of_them = len(evening.cast.client_of(Role.COACH).get("/assign/", asked(evening)).context["page"].preview.lines)
    said = (
        f"1 of {all_of_them} comes back from a break of up to 21 days: their first cards are eased, fewer sets first."
    )
    assert said in text


@pytest.mark.parametrize(("days", "is_saved"), [("6", False), ("7", True), ("90", True), ("91", False), ("", False)])
def test_owner_says_what_a_break_is(cast: Cast, days: str, is_saved: bool) -> None:
    data = {"name": "Tarn Valley HC", "unit": "kg", "time_zone": "Europe/London", "accent": "#1d3f7a", "gap_days": days}
    answer: Any = cast.client_of(Role.OWNER).post("/club/", data)
    if is_saved:
        assert (answer.status_code, Club.objects.get().gap_days) == (302, int(days))
    else:
        assert answer.context["form"].errors == {"gap_days": ["Write a whole number from 7 to 90."]}
        assert Club.objects.get().gap_days == 14


def test_stage_of_a_day_to_come_does_not_count_yet(cast: Cast) -> None:
    ReturnStageFactory.create(athlete=cast.athlete, stage=1, from_on=today() + timedelta(days=3))
    assert STAGE_1 not in shown(cast, "health/")
