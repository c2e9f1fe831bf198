"""The page on which a plan is fitted to the season, its rules, and what a moved match offers."""

from __future__ import annotations

from datetime import date, time, timedelta
from typing import Any
from uuid import uuid4

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.base.clock import today
from coachhub.cards.actions.runs import work_run
from coachhub.cards.models import Assignment, AssignmentRun
from coachhub.coaching.series import monday_of
from coachhub.desk.pages.plan_fit import FitPage
from coachhub.plans.models import FitRule, Plan, Session
from coachhub.season.models import GymSlot, MatchDay
from tests.cast import Cast
from tests.factories import SessionFactory

pytestmark = pytest.mark.django_db

HTMX = {"HX-Request": "true"}
MONDAY = monday_of(today()) + timedelta(weeks=1)


@pytest.fixture
def coach(cast: Cast) -> Client:
    return cast.client_of("coach")


@pytest.fixture
def season(cast: Cast) -> Cast:
    """One main session, an hour each evening, and a match on next week's Saturday."""
    Session.objects.filter(pk=cast.session.pk).update(role="main", name="Squat and pull")
    for weekday in range(7):
        GymSlot.objects.create(
            squad=cast.squad,
            venue=cast.venue,
            weekday=weekday,
            starts_at=time(18),
            minutes=75,
            from_on=today() - timedelta(days=60),
        )
    MatchDay.objects.create(squad=cast.squad, on_date=MONDAY + timedelta(days=5), opponent="Fen Gate")
    return cast


def address(cast: Cast) -> str:
    return reverse("desk:plan_fit", kwargs={"pk": cast.plan.pk})


def shown(coach: Client, cast: Cast, **more: Any) -> FitPage:
    page: FitPage = coach.get(address(cast), more, headers=HTMX).context["page"]
    return page


def days(page: FitPage) -> list[tuple[date, str, str, str]]:
    return [(line.on, line.md, line.state, line.why) for week in page.weeks for line in week.lines]


def confirm(coach: Client, cast: Cast, **more: Any) -> Any:
    page = shown(coach, cast)
    return coach.post(
        address(cast), {"starts_on": MONDAY.isoformat(), "seen": page.digest, "uuid": str(uuid4()), **more}
    )


def give(coach: Client, cast: Cast) -> None:
    confirm(coach, cast)
    work_run(AssignmentRun.objects.get().pk)


@pytest.mark.parametrize("headers", [{}, HTMX])
def test_every_session_is_shown_on_its_day_with_why(season: Cast, coach: Client, headers: dict[str, str]) -> None:
    answer = coach.get(address(season), headers=headers)
    tuesday = MONDAY + timedelta(days=1)
    assert days(answer.context["page"]) == [(tuesday, "MD-4", "new", "Main strength: MD-4, as the rules want it")]
    assert "1 session to give" in answer.content.decode()


def test_confirmed_days_are_left_to_the_worker(season: Cast, coach: Client) -> None:
    answer = confirm(coach, season)
    run = AssignmentRun.objects.get()
    assert answer.headers["Location"] == reverse("desk:run", kwargs={"pk": run.pk})
    work_run(run.pk)
    assert days(shown(coach, season))[0][2] == "stays"
    assert shown(coach, season).summary == ""


def test_same_confirmation_twice_gives_once(season: Cast, coach: Client) -> None:
    uuid = str(uuid4())
    assert [confirm(coach, season, uuid=uuid).status_code for _ in range(2)] == [302, 302]
    assert AssignmentRun.objects.count() == 1


def test_preview_that_is_out_of_date_is_shown_anew(season: Cast, coach: Client) -> None:
    answer = confirm(coach, season, seen="0" * 64)
    assert answer.status_code == 422
    assert "Please look at the days again." in answer.content.decode()
    assert not AssignmentRun.objects.exists()


def test_session_without_a_place_stands_on_top_with_why(season: Cast, coach: Client) -> None:
    GymSlot.objects.exclude(weekday=5).delete()
    page = shown(coach, season)
    day = MONDAY + timedelta(days=5)
    assert [line.why for line in page.left] == [(f"{day:%a} {day.day} {day:%b}: match day",)]
    GymSlot.objects.all().delete()
    assert [line.why for line in shown(coach, season).left] == [("no gym slot is left in this week",)]


def test_week_without_a_match_takes_any_slot(season: Cast, coach: Client) -> None:
    MatchDay.objects.all().delete()
    assert days(shown(coach, season)) == [(MONDAY, "", "new", "a free slot; no rule names a day")]


def test_day_that_is_none_is_said_beside_the_field(season: Cast, coach: Client) -> None:
    answer = coach.get(address(season), {"starts_on": "soon"})
    assert (answer.status_code, list(answer.context["form"].errors)) == (422, ["starts_on"])


def test_plan_of_no_squad_leads_to_a_copy(season: Cast, coach: Client) -> None:
    Plan.objects.filter(pk=season.plan.pk).update(squad=None)
    html = coach.get(address(season)).content.decode()
    assert reverse("desk:plan_copy", kwargs={"pk": season.plan.pk}) in html


def test_moved_match_leads_to_what_would_move(season: Cast, coach: Client) -> None:
    give(coach, season)
    match = MatchDay.objects.get()
    sent = {"on_date": (match.on_date + timedelta(days=1)).isoformat(), "opponent": "Fen Gate", "is_home": "on"}
    answer = coach.post(reverse("desk:match_edit", kwargs={"pk": match.pk}), sent, follow=True)
    page = answer.context["page"]
    assert answer.request["PATH_INFO"] == address(season)
    assert [line[2] for line in days(page)] == ["moves"]
    assert "1 session of “" in answer.content.decode()
    coach.post(
        address(season), {"starts_on": page.found.starts_on.isoformat(), "seen": page.digest, "uuid": str(uuid4())}
    )
    assert [row.on_date for row in Assignment.objects.live()] == [MONDAY + timedelta(days=2)]


def test_match_that_moves_nothing_leads_back_to_itself(season: Cast, coach: Client) -> None:
    match = MatchDay.objects.get()
    url = reverse("desk:match", kwargs={"pk": match.pk})
    sent = {"on_date": match.on_date.isoformat(), "opponent": "Low Mill", "is_home": "on"}
    assert coach.post(reverse("desk:match_edit", kwargs={"pk": match.pk}), sent).headers["Location"] == url


def test_fit_page_costs_the_same_for_1_and_30_sessions(season: Cast, coach: Client) -> None:
    costs = []
    for more in (0, 29):
        SessionFactory.create_batch(more, plan=season.plan)
        with CaptureQueriesContext(connection) as asked:
            coach.get(address(season))
        costs.append(len(asked))
    assert costs[0] == costs[1]


def rules(cast: Cast) -> str:
    return reverse("desk:fit_rules", kwargs={"pk": cast.squad.pk})


def usual(**more: str) -> dict[str, str]:
    """The form as it is sent while all is usual."""
    told = {
        "main": "-4, -3",
        "second": "-3, -2",
        "power": "-2, -3",
        "primer": "-1",
        "recovery": "+1",
        "extra": "+1, +2",
    }
    only = {f"only_{role}": "on" for role in ("primer", "recovery", "extra")}
    return {f"days_{role}": text for role, text in told.items()} | only | more


def test_rule_of_the_squad_is_kept_and_followed(season: Cast, coach: Client) -> None:
    assert coach.post(rules(season), usual(days_main="MD-5, −3")).status_code == 302
    assert list(FitRule.objects.values_list("role", "days", "is_only")) == [("main", "-5,-3", False)]
    assert days(shown(coach, season))[0][:2] == (MONDAY, "MD-5")
    assert [line.words for line in shown(coach, season).rules][:2] == ["MD-5, else MD-3", "MD-3, else MD-2"]


def test_usual_rules_are_no_row_and_come_back(season: Cast, coach: Client) -> None:
    coach.post(rules(season), usual(days_main="-5"))
    coach.post(rules(season), {"usual": "1"})
    assert not FitRule.objects.exists()
    coach.post(rules(season), usual())
    assert not FitRule.objects.exists()


@pytest.mark.parametrize(
    ("field", "text", "error"),
    [
        ("days_main", "Tuesday", "Write days such as -4, -3 or +1, with commas between them."),
        ("days_main", "-9", "From -6 to +6 days around the match."),
        ("days_main", "-4, -4", "Up to 5 days, each once."),
        ("days_primer", "", "Name the days, or take “only then” away."),
    ],
)
def test_days_that_make_no_sense_are_said_beside_the_field(
    season: Cast, coach: Client, field: str, text: str, error: str
) -> None:
    answer = coach.post(rules(season), usual(**{field: text}))
    assert (answer.status_code, answer.context["form"].errors) == (422, {field: [error]})
    assert not FitRule.objects.exists()


@pytest.mark.parametrize("headers", [{}, HTMX])
def test_rules_are_shown_as_they_stand(season: Cast, coach: Client, headers: dict[str, str]) -> None:
    form = coach.get(rules(season), headers=headers).context["form"]
    assert [form[f"days_{role}"].value() for role in ("main", "recovery")] == ["-4, -3", "+1"]
