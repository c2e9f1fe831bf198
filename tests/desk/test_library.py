"""The library's pages: the list as people search it, and an exercise in full."""

from __future__ import annotations

from typing import Any

import pytest
from django.template.loader import render_to_string
from django.test import Client
from django.urls import reverse

from coachhub.base.clock import now
from coachhub.desk.pages.library import ExercisePage, LibraryPage
from coachhub.library.forms import LibraryFilter
from coachhub.library.models import Exercise, ExerciseAlias, ExerciseCue, Swap
from tests.cast import Cast
from tests.factories import ExerciseFactory, VenueFactory

pytestmark = pytest.mark.django_db

HTMX = {"HX-Request": "true"}


@pytest.fixture
def coach(cast: Cast) -> Client:
    return cast.client_of("coach")


def library(coach: Client, query: str = "", **headers: str) -> LibraryPage:
    response = coach.get(f"{reverse('desk:library')}{query}", headers=headers)
    page: LibraryPage = response.context["page"]
    return page


def names(page: LibraryPage) -> list[str]:
    return [line.name for line in page.lines]


def test_list_finds_by_words_and_filters(coach: Client) -> None:
    ExerciseFactory.create(name="Back squat", patterns=["squat"], needs=[["barbell"]])
    ExerciseFactory.create(name="Squat jump", patterns=["squat", "jump"])
    ExerciseFactory.create(name="Deadlift", patterns=["hinge"], needs=[["barbell"]])
    hall = VenueFactory.create(name="School hall")

    assert names(library(coach, "?q=squat")) == ["Back squat", "Squat jump"]
    assert names(library(coach, "?pattern=hinge")) == ["Deadlift"]
    assert names(library(coach, "?equipment=barbell&q=squat")) == ["Back squat"]
    assert names(library(coach, f"?venue={hall.pk}")) == ["Squat jump"]


def test_list_answers_htmx_with_the_lines_alone(coach: Client) -> None:
    ExerciseFactory.create(name="Back squat", patterns=["squat"])
    url = reverse("desk:library")

    part, whole = coach.get(url, headers=HTMX), coach.get(url)

    assert part.headers["Vary"] == "HX-Request, Cookie"
    assert (b"<html" in part.content, b"Back squat" in part.content) == (False, True)
    assert part.content.strip() in whole.content


@pytest.mark.parametrize(
    ("query", "field", "error"),
    [
        ("pattern=x", "pattern", "Select a valid choice. x is not one of the available choices."),
        ("venue=99", "venue", "Select a valid choice. That choice is not one of the available choices."),
    ],
)
def test_list_says_an_unknown_filter_beside_it_and_shows_the_rest(
    coach: Client, query: str, field: str, error: str
) -> None:
    ExerciseFactory.create(name="Back squat")

    response = coach.get(f"{reverse('desk:library')}?q=squat&{query}")

    assert response.context["form"].errors == {field: [error]}
    assert names(response.context["page"]) == ["Back squat"]


def test_list_without_a_match_says_what_to_do(coach: Client) -> None:
    ExerciseFactory.create(name="Back squat")

    response = coach.get(f"{reverse('desk:library')}?q=zzz")

    assert b"No exercise matches. Try fewer letters, or take a filter away." in response.content
    assert b"Back squat" not in response.content


def test_list_of_an_empty_library_says_where_it_comes_from(coach: Client) -> None:
    assert b"The library is empty." in coach.get(reverse("desk:library")).content


def test_list_is_paged_at_fifty_and_keeps_the_search(coach: Client) -> None:
    for n in range(51):
        ExerciseFactory.create(name=f"Row {n:02}")
    ExerciseFactory.create(name="Back squat")

    first, second = library(coach, "?q=row"), library(coach, "?q=row&page=2")

    assert (len(first.lines), names(second)) == (50, ["Row 50"])
    assert b'href="?q=row&amp;page=2"' in coach.get(f"{reverse('desk:library')}?q=row").content


@pytest.mark.parametrize("count", [1, 30])
def test_list_costs_five_queries_however_long(count: int, django_assert_num_queries: Any) -> None:
    for n in range(count):
        ExerciseFactory.create(name=f"Row {n}", patterns=["pull"], needs=[["cable"]])

    with django_assert_num_queries(5):
        page = LibraryPage.of(LibraryFilter({"q": "row"}), "")

    assert len(page.lines) == count


def full_exercise() -> Exercise:
    lunge = ExerciseFactory.create(
        name="Lunge <b>",
        patterns=["lunge", "hip"],
        regions=[("knee", "working"), "hip"],
        needs=[["dumbbell", "kettlebell"], ["mat"]],
        directions=["forward", "lateral"],
        laterality="unilateral",
        load_meaning="per_hand",
        spotting="clear_space",
        is_deep_range=True,
        faults="Short step; Knee in",
        why="One leg at a time.",
    )
    ExerciseAlias(exercise=lunge, name="Long step").save()
    for n, (direction, text) in enumerate([("lateral", "Sit to the side"), ("", "Tall"), ("forward", "Step on")]):
        ExerciseCue.objects.create(exercise=lunge, direction=direction, text=text, position=n)
    easier, away = ExerciseFactory.create(name="Split squat"), ExerciseFactory.create(name="Gone", archived_at=now())
    for to, reason, region in [(easier, "spares", "knee"), (away, "easier", ""), (easier, "equipment", "")]:
        Swap.objects.create(exercise=lunge, to=to, reason=reason, region=region)
    return lunge


def test_exercise_page_holds_all_that_is_known() -> None:
    page = ExercisePage.of(full_exercise().pk)

    assert page.line.patterns == "lunge, hip control"
    assert page.line.equipment == "(dumbbell or kettlebell) and mat"
    assert page.line.also == "Long step"
    assert page.directions == "forward, to the side"
    assert page.demands == "near the end of range"
    assert [(str(region), str(side)) for region, side in page.regions] == [
        ("knee", "the working side"),
        ("hip", "both sides"),
    ]
    assert page.faults == ["Short step", "Knee in"]
    assert [(str(one.heading), one.cues) for one in page.cues] == [
        ("", ["Tall"]),
        ("forward", ["Step on"]),
        ("to the side", ["Sit to the side"]),
    ]


def test_exercise_page_groups_swaps_by_reason_and_leaves_out_what_is_put_away() -> None:
    page = ExercisePage.of(full_exercise().pk)

    assert [(str(one.heading), [swap.to.name for swap in one.swaps]) for one in page.swaps] == [
        ("no equipment", ["Split squat"]),
        ("spares a body region", ["Split squat"]),
    ]


def test_exercise_page_escapes_and_links(coach: Client) -> None:
    lunge = full_exercise()
    other = Exercise.objects.get(name="Split squat")

    html = coach.get(reverse("desk:exercise", kwargs={"pk": lunge.pk})).content.decode()

    assert "<h1>Lunge &lt;b&gt;</h1>" in html
    assert f'<a href="{reverse("desk:exercise", kwargs={"pk": other.pk})}">Split squat</a>' in html
    assert "Nobody spots. Clear space all round; learn to let go of the bar." in html


@pytest.mark.parametrize(("reviewed", "supervised"), [(True, False), (False, True)])
def test_exercise_page_warns_of_unreviewed_regions_and_of_supervision(reviewed: bool, supervised: bool) -> None:
    row = ExerciseFactory.create(is_regions_reviewed=reviewed, needs_supervision=supervised)

    html = render_to_string("desk/exercise.html", {"page": ExercisePage.of(row.pk)})

    assert ("it counts as loading every region" in html) is not reviewed
    assert ("Not unsupervised" in html) is supervised


def test_exercise_page_costs_the_same_for_one_swap_and_thirty(django_assert_num_queries: Any) -> None:
    one, many = ExerciseFactory.create(), ExerciseFactory.create()
    for n in range(30):
        Swap.objects.create(exercise=many, to=ExerciseFactory.create(), reason="easier", position=n)
    Swap.objects.create(exercise=one, to=many, reason="easier")

    for pk in (one.pk, many.pk):
        with django_assert_num_queries(8):
            ExercisePage.of(pk)


def test_exercise_that_is_not_there_answers_404(coach: Client) -> None:
    assert coach.get(reverse("desk:exercise", kwargs={"pk": 0})).status_code == 404
