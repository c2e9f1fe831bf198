"""The list of plans, a plan, its form and a session's particulars."""

from __future__ import annotations

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.base.clock import now
from coachhub.desk.pages.plans import PlanPage, PlansPage
from coachhub.plans.models import Plan, PrescriptionWeek, Session
from tests.cast import Cast
from tests.factories import PlanFactory, PrescriptionFactory, SegmentFactory, SessionFactory

pytestmark = pytest.mark.django_db

HTMX = {"HX-Request": "true"}


@pytest.fixture
def coach(cast: Cast) -> Client:
    return cast.client_of("coach")


def plans(coach: Client, query: str = "") -> PlansPage:
    page: PlansPage = coach.get(f"{reverse('desk:plans')}{query}").context["page"]
    return page


def plan_page(coach: Client, plan: Plan) -> PlanPage:
    page: PlanPage = coach.get(reverse("desk:plan", kwargs={"pk": plan.pk})).context["page"]
    return page


def test_list_without_a_plan_offers_the_first(coach: Client) -> None:
    html = coach.get(reverse("desk:plans")).content.decode()

    assert "No plan yet." in html
    assert f'<a class="go" href="{reverse("desk:plan_add")}">Add the first plan</a>' in html


def test_list_of_300_is_paged_and_filtered(cast: Cast, coach: Client) -> None:
    for number in range(300):
        PlanFactory.create(name=f"Plan {number:03}", squad=cast.squad if number % 100 else None)

    assert [plan.name for plan in plans(coach, "?page=6").pager][::49] == ["Plan 250", "Plan 299"]
    assert [plan.name for plan in plans(coach, "?q=plan 10").pager] == [f"Plan {number}" for number in range(100, 110)]
    assert plans(coach, f"?squad={cast.squad.pk}").pager.paginator.count == 297
    assert plans(coach, f"?squad={cast.other_squad.pk}").pager.paginator.count == 300


def test_list_costs_the_same_for_1_and_30_plans(cast: Cast, coach: Client) -> None:
    costs = []
    for number in (1, 29):
        PlanFactory.create_batch(number, squad=cast.squad)
        with CaptureQueriesContext(connection) as asked:
            coach.get(reverse("desk:plans"))
        costs.append(len(asked))

    assert costs[0] == costs[1] <= 10


def test_list_answers_htmx_with_the_found_plans_alone(cast: Cast, coach: Client) -> None:
    PlanFactory.create(name="Autumn", squad=cast.squad)
    url = reverse("desk:plans")

    part, whole = coach.get(url, headers=HTMX), coach.get(url)

    assert (b"<html" in part.content, b"Autumn" in part.content) == (False, True)
    assert part.content.strip() in whole.content


def test_plan_shows_sessions_by_weeks_and_the_weeks_without_one(cast: Cast, coach: Client) -> None:
    plan = PlanFactory.create(squad=cast.squad, weeks=12)
    for first, last, day, name in ((5, 8, 2, "C"), (1, 4, 2, "B"), (1, 4, 1, "A"), (10, 10, 1, "D")):
        SessionFactory.create(plan=plan, week_from=first, week_to=last, day=day, name=name)
    SessionFactory.create(plan=plan, week_from=9, week_to=9, name="Gone", archived_at=now())

    weeks = plan_page(coach, plan).weeks

    assert [(one.title, [session.name for session in one.sessions]) for one in weeks] == [
        ("Weeks 1–4", ["A", "B"]),
        ("Weeks 5–8", ["C"]),
        ("Week 9", []),
        ("Week 10", ["D"]),
        ("Weeks 11–12", []),
    ]


def test_grid_shows_each_day_of_each_week_and_where_it_differs(cast: Cast, coach: Client) -> None:
    Plan.objects.filter(pk=cast.plan.pk).update(weeks=3)
    Session.objects.filter(pk=cast.session.pk).update(week_to=2)
    for day, week, name in ((3, 2, "B"), (3, 2, "C")):
        SessionFactory.create(plan=cast.plan, day=day, week_from=week, week_to=week, name=name)
    PrescriptionWeek.objects.create(prescription=cast.prescription, week=2, low=4)

    page = plan_page(coach, cast.plan)

    assert page.days == (1, 3)
    cells = [[[session.name for session in cell.sessions] for cell in row.cells] for row in page.grid]
    assert cells == [[["Monday lower"], []], [["Monday lower"], ["B", "C"]], [[], []]]
    assert [[set(cell.own) for cell in row.cells] for row in page.grid] == [
        [set(), set()],
        [{cast.session.pk}, set()],
        [set(), set()],
    ]


@pytest.mark.parametrize("name", ["plan", "plan_print"])
def test_plan_costs_the_same_for_1_and_30_sessions(cast: Cast, coach: Client, name: str) -> None:
    costs = []
    assert cast.prescription.pk
    for number in (0, 29):
        for _ in range(number):
            segment = SegmentFactory.create(session__plan=cast.plan)
            PrescriptionWeek.objects.create(
                prescription=PrescriptionFactory.create(group__segment=segment), week=1, low=4
            )
        with CaptureQueriesContext(connection) as asked:
            coach.get(reverse(f"desk:{name}", kwargs={"pk": cast.plan.pk}))
        costs.append(len(asked))

    assert costs[0] == costs[1] <= 10


def test_printed_plan_has_every_session_whole(cast: Cast, coach: Client) -> None:
    Plan.objects.filter(pk=cast.plan.pk).update(weeks=2)
    Session.objects.filter(pk=cast.session.pk).update(week_to=2)
    PrescriptionWeek.objects.create(prescription=cast.prescription, week=2, sets=2, low=4)
    SessionFactory.create(plan=cast.plan, name="Gone", archived_at=now())

    page = coach.get(reverse("desk:plan_print", kwargs={"pk": cast.plan.pk})).context["page"]

    (one,) = page.sessions
    assert [line.dose for line in one.parts[0].blocks[0].lines] == ["6"]
    assert (one.session.name, one.time.title, one.weeks) == ("Monday lower", "2 of 60 minutes", (1, 2))
    assert [(row.label, row.name, row.texts) for row in one.changes] == [("A1", "Romanian deadlift", ("–", "2 x 4"))]


def test_plan_is_only_read_by_those_who_do_not_write_it(cast: Cast, coach: Client) -> None:
    link = reverse("desk:plan_edit", kwargs={"pk": cast.plan.pk})
    url = reverse("desk:plan", kwargs={"pk": cast.plan.pk})

    assert link in coach.get(url).content.decode()
    assert link not in cast.client_of("assistant").get(url).content.decode()


def test_plan_is_added(cast: Cast, coach: Client) -> None:
    data = {"name": "Autumn strength", "squad": cast.squad.pk, "weeks": 8, "note": ""}

    response = coach.post(reverse("desk:plan_add"), data)

    plan = Plan.objects.get()
    assert (response.status_code, response.headers["Location"]) == (302, reverse("desk:plan", kwargs={"pk": plan.pk}))
    assert (plan.name, plan.squad, plan.weeks) == ("Autumn strength", cast.squad, 8)


@pytest.mark.parametrize(
    ("data", "errors"),
    [
        ({"name": "", "weeks": 4}, {"name": ["This field is required."]}),
        ({"name": "Autumn", "weeks": 53}, {"weeks": ["Write a whole number from 1 to 52."]}),
        ({"name": "Autumn", "weeks": "four"}, {"weeks": ["Write a whole number from 1 to 52."]}),
    ],
)
def test_plan_with_a_mistake_is_shown_again(
    coach: Client, data: dict[str, object], errors: dict[str, list[str]]
) -> None:
    response = coach.post(reverse("desk:plan_add"), {**data, "note": "kept as typed"})

    assert (response.status_code, response.context["form"].errors) == (422, errors)
    assert 'value="kept as typed"' in response.content.decode()


def test_plan_is_not_given_to_another_coachs_squad(cast: Cast, coach: Client) -> None:
    response = coach.post(reverse("desk:plan_add"), {"name": "Autumn", "squad": cast.other_squad.pk, "weeks": 4})

    assert list(response.context["form"].errors) == ["squad"]


def test_plan_is_not_made_shorter_than_its_sessions(cast: Cast, coach: Client) -> None:
    SessionFactory.create(plan=cast.plan, name="Late", week_to=6)
    Plan.objects.update(weeks=8)
    url = reverse("desk:plan_edit", kwargs={"pk": cast.plan.pk})

    response = coach.post(url, {"name": "Autumn", "squad": cast.squad.pk, "weeks": 5})

    assert response.context["form"].errors == {"weeks": ["“Late” runs to week 6: shorten or remove it first."]}


def test_plan_is_put_away_after_being_asked(cast: Cast, coach: Client) -> None:
    url = reverse("desk:plan_archive", kwargs={"pk": cast.plan.pk})

    assert "Put “Autumn strength” away?" in coach.get(url).content.decode()
    assert not Plan.objects.get().is_archived

    coach.post(url)

    assert (Plan.objects.get().is_archived, list(plans(coach).pager)) == (True, [])


def test_session_is_added_with_the_usual_parts(cast: Cast, coach: Client) -> None:
    Plan.objects.filter(pk=cast.plan.pk).update(weeks=4)
    data = {"name": "Squat and pull", "day": 2, "week_from": 1, "week_to": 4, "slot_minutes": 60, "note": ""}

    response = coach.post(reverse("desk:session_add", kwargs={"pk": cast.plan.pk}), data)

    session = Session.objects.get()
    assert response.headers["Location"] == reverse("desk:session", kwargs={"pk": session.pk})
    assert [part.kind for part in session.segments.all()] == ["warm_up", "activation", "athleticism", "strength"]
    assert (session.day, session.week_from, session.week_to) == (2, 1, 4)


@pytest.mark.parametrize(
    ("weeks", "error"),
    [((2, 1), "The last week comes before the first."), ((1, 9), "The plan has weeks 1 to 1.")],
)
def test_session_outside_the_plans_weeks_is_refused(
    cast: Cast, coach: Client, weeks: tuple[int, int], error: str
) -> None:
    data = {"name": "Late", "day": 1, "week_from": weeks[0], "week_to": weeks[1], "slot_minutes": 60}

    response = coach.post(reverse("desk:session_add", kwargs={"pk": cast.plan.pk}), data)

    assert (response.status_code, response.context["form"].errors) == (422, {"week_to": [error]})


def test_session_is_edited_and_put_away(cast: Cast, coach: Client) -> None:
    where = {"pk": cast.session.pk}
    data = {"name": "Renamed", "day": 1, "week_from": 1, "week_to": 1, "slot_minutes": 45, "note": ""}

    coach.post(reverse("desk:session_edit", kwargs=where), data)
    response = coach.post(reverse("desk:session_archive", kwargs=where), follow=True)

    session = Session.objects.get()
    assert response.context["page"].undo == session
    assert (session.name, session.slot_minutes, session.revision, session.is_archived) == ("Renamed", 45, 3, True)
    assert coach.get(reverse("desk:session_edit", kwargs=where)).status_code == 404


def test_session_that_was_put_away_comes_back(cast: Cast, coach: Client) -> None:
    Session.objects.filter(pk=cast.session.pk).update(archived_at=now())
    where = {"pk": cast.session.pk}
    page = plan_page(coach, cast.plan)
    assert (page.undo, page.put_away) == (None, (cast.session,))

    response = coach.post(reverse("desk:session_restore", kwargs=where))

    assert response.headers["Location"] == reverse("desk:session", kwargs=where)
    assert plan_page(coach, cast.plan).put_away == ()
