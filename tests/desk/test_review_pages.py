"""The checks beside a session and on a plan's page: what they remark, accepting with a word, taking that back."""

from __future__ import annotations

import re
from decimal import Decimal

import pytest
from django.db import connection
from django.http import QueryDict
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.base.clock import today
from coachhub.coaching.review import RULES
from coachhub.desk.pages.review import FindingList
from coachhub.plans.models import CircuitGroup, FindingAcceptance, Prescription, ReviewSetting
from coachhub.season.models import PhaseTarget, SeasonPhase
from tests.cast import Cast, Role
from tests.factories import CircuitGroupFactory, ExerciseFactory, PrescriptionFactory, SessionFactory

pytestmark = pytest.mark.django_db

MISSING = "Missing of the five patterns: squat, lunge, push, pull."
KEY = "pattern_missing:squat+lunge+push+pull"
WEEK_KEY = "week_two_one_leg:two_legs"
HTMX = {"HX-Request": "true"}


@pytest.fixture
def coach(cast: Cast) -> Client:
    """A session of one hinge, in three rounds."""
    assert cast.prescription.pk
    return cast.client_of("coach")


def address(name: str, pk: int) -> str:
    return reverse(f"desk:{name}", kwargs={"pk": pk})


def checks_of(client: Client, cast: Cast) -> FindingList:
    found: FindingList = client.get(address("session", cast.session.pk)).context["page"].checks
    return found


def test_finding_stands_beside_the_session_with_what_would_help(cast: Cast, coach: Client) -> None:
    (row,) = checks_of(coach, cast).rows

    assert (row.text, row.is_warning) == (MISSING, True)
    assert row.suggestion == "Add one, or accept it for a day with another purpose."


def test_sound_session_says_what_was_looked_at(cast: Cast, coach: Client) -> None:
    for pattern in ("squat", "lunge", "push", "pull"):
        PrescriptionFactory.create(group=cast.prescription.group, exercise=ExerciseFactory.create(patterns=[pattern]))

    html = coach.get(address("session", cast.session.pk)).content.decode()

    assert "Nothing to remark" in html
    assert "Looked at: 5 exercises, for patterns, order, rest and time." in html


def test_session_without_a_line_has_no_checks(cast: Cast, coach: Client) -> None:
    Prescription.objects.all().delete()

    assert coach.get(address("session", cast.session.pk)).context["page"].checks is None


@pytest.mark.parametrize("headers", [{}, HTMX], ids=["page", "fragment"])
def test_accepted_finding_is_quiet_until_it_is_taken_back(cast: Cast, coach: Client, headers: dict[str, str]) -> None:
    url = address("session_answer", cast.session.pk)

    for _twice in range(2):
        given = coach.post(url, {"key": KEY, "word": "Upper body is on Thursday"}, headers=headers)
        assert (given.status_code, given["Location"]) == (302, address("session", cast.session.pk) + "?at=checks")
    found = checks_of(coach, cast)
    (quiet,) = found.accepted
    assert (found.rows, quiet.text, quiet.word) == ((), MISSING, "Upper body is on Thursday")
    assert (quiet.by, found.title) == (cast.staff[Role.COACH].name, "Nothing to remark")

    coach.post(url, {"acceptance": list(quiet.ids)}, headers=headers)
    assert [row.text for row in checks_of(coach, cast).rows] == [MISSING]


@pytest.mark.parametrize(("word", "error"), [("", "This field is required."), ("x" * 121, "at most 120 characters")])
@pytest.mark.parametrize("headers", [{}, HTMX], ids=["page", "fragment"])
def test_answer_without_a_proper_word_is_said_beside_it(
    cast: Cast, coach: Client, word: str, error: str, headers: dict[str, str]
) -> None:
    response = coach.post(address("session_answer", cast.session.pk), {"key": KEY, "word": word}, headers=headers)

    (row,) = response.context["page"].checks.rows
    assert response.status_code == 422
    assert row.form is not None
    assert error in str(row.form.errors["word"])
    assert row.form.data["word"] == word
    assert not FindingAcceptance.objects.exists()


def test_answer_to_what_is_no_rule_stores_nothing(cast: Cast, coach: Client) -> None:
    response = coach.post(address("session_answer", cast.session.pk), {"key": "nonsense:p1", "word": "Agreed"})

    assert (response.status_code, FindingAcceptance.objects.count()) == (422, 0)
    assert "This finding is not there any more." in response.content.decode()


def test_reader_sees_the_checks_without_a_way_to_answer(cast: Cast, coach: Client) -> None:
    found = checks_of(cast.client_of("assistant"), cast)

    assert [(row.text, row.form) for row in found.rows] == [(MISSING, None)]
    assert not found.may_answer


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("4 x 5 @ 85%", ("A1 Romanian deadlift is heavy, and hinge comes round again after 1:00.",)),
        ("4 x 8 @ 65%", ()),
        ("1 x 5 @ 85%", ()),
    ],
)
def test_typed_dose_is_remarked_on_at_once(cast: Cast, coach: Client, typed: str, said: tuple[str, ...]) -> None:
    CircuitGroup.objects.update(rest_min_s=60)
    query = {"notation": typed, "line": str(cast.prescription.pk)}

    assert coach.get(address("dose_check", cast.prescription.group_id), query).context["remarks"] == said


def test_accepted_remark_is_not_said_while_typing(cast: Cast, coach: Client) -> None:
    CircuitGroup.objects.update(rest_min_s=60)
    key = f"rest_heavy:{cast.prescription.line_key}"
    coach.post(address("session_answer", cast.session.pk), {"key": key, "word": "Singles follow"})

    asked = {"notation": "4 x 5 @ 85%", "line": str(cast.prescription.pk)}
    assert coach.get(address("dose_check", cast.prescription.group_id), asked).context["remarks"] == ()


def test_plan_shows_weeks_and_sessions_once(cast: Cast, coach: Client) -> None:
    cast.plan.weeks = cast.session.week_to = 3
    cast.plan.save()
    cast.session.save()

    page = coach.get(address("plan_checks", cast.plan.pk)).context["page"]

    assert [(row.text, row.names) for row in page.weeks.rows] == [
        ("Hard sets of the legs in the week: hip-dominant 3, knee-dominant 0.", ("Weeks 1–3",)),
        ("Hard sets of the legs in the week: on two legs 3, on one leg 0.", ("Weeks 1–3",)),
    ]
    assert [(session.pk, [(row.text, row.names) for row in found.rows]) for session, found in page.sessions] == [
        (cast.session.pk, [(MISSING, ("Weeks 1–3",))])
    ]


def test_plans_own_page_asks_for_the_checks_in_brief(cast: Cast, coach: Client) -> None:
    url = address("plan_checks", cast.plan.pk)
    assert f'data-hx-get="{url}?brief=1"' in coach.get(address("plan", cast.plan.pk)).content.decode()

    brief = coach.get(url, {"brief": "1"}, headers=HTMX).content.decode()

    told = " ".join(re.sub(r"<[^>]+>", " ", brief).split())
    assert told == "Weeks as a whole 2 remarks Monday lower 1 remark"


def test_phase_holds_hard_sets_to_its_range(cast: Cast, coach: Client) -> None:
    page = coach.get(address("plan_checks", cast.plan.pk), {"phase": "strength"}).context["page"]

    texts = [row.text for row in page.weeks.rows]
    assert "Hard sets of hinge in the week: 3. For strength it is 4 to 10." in texts
    assert coach.get(address("plan_checks", cast.plan.pk), {"phase": "nonsense"}).context["page"].phase == ""


def test_phase_that_the_squad_is_in_is_weighed_with_its_own_targets(cast: Cast, coach: Client) -> None:
    phase = SeasonPhase.objects.create(squad=cast.squad, code="strength", from_on=today(), to_on=today())
    PhaseTarget.objects.create(phase=phase, pattern="hinge", low=5, high=6)

    page = coach.get(address("plan_checks", cast.plan.pk)).context["page"]

    assert (page.phase, [row.text for row in page.weeks.rows if "hinge" in row.text]) == (
        "strength",
        ["Hard sets of hinge in the week: 3. For strength it is 5 to 6."],
    )
    assert coach.get(address("plan_checks", cast.plan.pk), {"phase": ""}).context["page"].phase == ""


def test_remark_on_weeks_is_answered_for_all_of_them(cast: Cast, coach: Client) -> None:
    cast.plan.weeks = cast.session.week_to = 3
    cast.plan.save()
    cast.session.save()
    url = address("plan_answer", cast.plan.pk)

    response = coach.post(
        url, {"key": WEEK_KEY, "word": "Running does it", "week": [1, 2, 3], "phase": "power", "at": "weeks"}
    )

    assert response["Location"] == address("plan_checks", cast.plan.pk) + "?phase=power&at=weeks"
    page = coach.get(address("plan_checks", cast.plan.pk)).context["page"]
    (quiet,) = page.weeks.accepted
    assert (quiet.word, quiet.names, len(quiet.ids)) == ("Running does it", ("Weeks 1–3",), 3)
    assert quiet.hidden == (("phase", ""),)
    coach.post(url, {"acceptance": list(quiet.ids)})
    assert not FindingAcceptance.objects.standing().exists()


def test_remark_on_a_session_is_answered_from_the_plan(cast: Cast, coach: Client) -> None:
    url = address("plan_answer", cast.plan.pk)

    coach.post(url, {"key": KEY, "word": "Upper body is on Thursday", "session": cast.session.pk})

    assert FindingAcceptance.objects.get().session == cast.session
    assert checks_of(coach, cast).rows == ()


@pytest.mark.parametrize("data", ["week=9", "week=x", "session=999999", ""])
def test_answer_about_nothing_of_the_plan_is_not_found(cast: Cast, coach: Client, data: str) -> None:
    posted = {**QueryDict(data).dict(), "key": WEEK_KEY, "word": "Agreed"}

    response = coach.post(address("plan_answer", cast.plan.pk), posted)

    assert (response.status_code, FindingAcceptance.objects.count()) == (404, 0)


def test_plan_answer_without_a_word_keeps_the_page(cast: Cast, coach: Client) -> None:
    response = coach.post(address("plan_answer", cast.plan.pk), {"key": WEEK_KEY, "week": 1}, headers=HTMX)

    (errors,) = [row.form.errors for row in response.context["page"].weeks.rows if row.form.is_bound]
    assert (response.status_code, errors) == (422, {"word": ["This field is required."]})


def test_plan_costs_the_same_for_1_and_30_sessions(cast: Cast, coach: Client) -> None:
    costs = []
    for number in (0, 29):
        for _each in range(number):
            group = CircuitGroupFactory.create(segment__session=SessionFactory.create(plan=cast.plan))
            PrescriptionFactory.create(group=group, exercise__patterns=["squat"])
        with CaptureQueriesContext(connection) as asked:
            coach.get(address("plan_checks", cast.plan.pk))
        costs.append(len(asked))

    assert costs[0] == costs[1] <= 15


def test_week_that_differs_is_reviewed_as_it_stands(cast: Cast, coach: Client) -> None:
    """Heavy in week 2 alone, with a minute of rest."""
    cast.plan.weeks = cast.session.week_to = 2
    cast.plan.save()
    cast.session.save()
    CircuitGroup.objects.update(rest_min_s=60)
    Prescription.objects.update(load_rule="percent", percent=60)
    cast.prescription.week_values.create(week=2, low=4, percent=85)

    page = coach.get(address("plan_checks", cast.plan.pk)).context["page"]

    ((_session, found),) = page.sessions
    text = "A1 Romanian deadlift is heavy, and hinge comes round again after 1:00."
    assert [(row.text, row.names) for row in found.rows if row.text != MISSING] == [(text, ("Week 2",))]


def test_owner_edits_the_rules(cast: Cast, coach: Client) -> None:
    owner = cast.client_of("owner")
    form = owner.get(reverse("desk:check_rules")).context["form"]
    data = {name: form[name].initial for name in form.fields if form[name].initial}
    assert len([name for name in data if name.startswith("on-")]) == len(RULES)

    response = owner.post(reverse("desk:check_rules"), {**data, "value-pattern_missing": "1", "value-rest_heavy": ""})

    assert response.status_code == 302
    assert list(ReviewSetting.objects.values_list("rule", "is_on", "value")) == [("pattern_missing", True, Decimal(1))]
    assert checks_of(coach, cast).rows == ()


def test_figure_outside_its_range_is_said_beside_it(cast: Cast) -> None:
    response = cast.client_of("owner").post(reverse("desk:check_rules"), {"value-rest_heavy": "5"})

    assert response.status_code == 422
    expected = {"value-rest_heavy": ["Ensure this value is greater than or equal to 30."]}
    assert response.context["form"].errors == expected
    assert not ReviewSetting.objects.exists()
