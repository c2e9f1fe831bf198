"""Adding and changing exercises on the desk, without JavaScript; the newer text of the starting library."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from pytest_django.asserts import assertRedirects

from coachhub.base.clock import now
from coachhub.library.models import Exercise
from coachhub.library.starting import import_starting_library
from tests.cast import Cast
from tests.factories import ExerciseFactory
from tests.library.rows import write_rows
from tests.library.sent import as_sent, new

pytestmark = pytest.mark.django_db

HTMX = {"HX-Request": "true"}


@pytest.fixture
def coach(cast: Cast) -> Client:
    return cast.client_of("coach")


def url(name: str, exercise: Exercise) -> str:
    return reverse(f"desk:{name}", kwargs={"pk": exercise.pk})


@pytest.fixture
def squat(tmp_path: Path) -> Exercise:
    """Changed by the club; the starting library has said it differently since."""
    import_starting_library(write_rows(tmp_path, {}))
    Exercise.objects.update(why="Our words.", edited_at=now())
    import_starting_library(write_rows(tmp_path, {"why": "Newer <b> words."}))
    return Exercise.objects.get()


def test_adding_an_exercise_leads_to_its_page(coach: Client) -> None:
    response = coach.post(reverse("desk:exercise_add"), new({"cues-0-text": "Long step"}, cues=1))

    added = Exercise.objects.get()
    assertRedirects(response, url("exercise", added))
    assert ([p.pattern for p in added.patterns.all()], added.cues.get().text) == (["lunge", "pull"], "Long step")
    html = coach.get(url("exercise", added)).content.decode()
    assert "it counts as loading every region" in html
    assert f'href="{url("exercise_edit", added)}#loaded"' in html


@pytest.mark.parametrize("headers", [{}, HTMX])
def test_adding_with_mistakes_saves_nothing_and_keeps_what_was_typed(coach: Client, headers: dict[str, str]) -> None:
    typed = {"name": "", "why": "Legs & back", "cues-0-text": "Long step", "swaps-0-to": "Nobody", "load-knee": "both"}

    response = coach.post(reverse("desk:exercise_add"), new(typed, cues=1, swaps=1), headers=headers)

    html = response.content.decode()
    assert (response.status_code, Exercise.objects.count()) == (422, 0)
    assert [f'value="{text}"' in html for text in ("Legs &amp; back", "Long step", "Nobody")] == [True] * 3
    assert '<option value="both" selected>' in html
    assert "Why this one? Pick a reason." in html


def test_more_rows_come_by_a_plain_button(coach: Client) -> None:
    response = coach.post(reverse("desk:exercise_add"), new({"name": "", "more": "swaps"}, swaps=1))

    html = response.content.decode()
    assert response.status_code == 200
    assert ('name="swaps-3-to"' in html, 'name="swaps-4-to"' in html, "This field is required." in html) == (
        True,
        False,
        False,
    )


def test_first_button_of_the_form_saves(coach: Client) -> None:
    html = coach.get(reverse("desk:exercise_add")).content.decode()
    form = html[html.index('<form method="post" novalidate') :]

    assert form[form.index("<button") :].startswith('<button class="go">Save</button>')


def test_changing_one_thing_keeps_the_rest(coach: Client, cast: Cast) -> None:
    pk = cast.exercise.pk
    data = as_sent(coach.get(url("exercise_edit", cast.exercise)).context["form"])

    chosen = {"laterality": "bilateral", "spotting": "clear_space", "directions_0": "vertical"}
    response = coach.post(url("exercise_edit", cast.exercise), data | chosen)

    assertRedirects(response, url("exercise", cast.exercise))
    row = Exercise.objects.get(pk=pk)
    assert (row.spotting, row.directions, row.edited_at is None) == ("clear_space", ["vertical"], False)
    assert [r.region for r in row.regions.order_by("pk")] == ["low_back", "thigh_back"]
    assert [n.kind for n in row.needs.all()] == ["barbell"]


def test_newer_text_is_shown_to_who_may_take_it(cast: Cast, squat: Exercise) -> None:
    writer = cast.client_of("coach").get(url("exercise", squat)).content.decode()
    reader = cast.client_of("assistant").get(url("exercise", squat)).content.decode()

    assert ("Newer text available" in writer, "Newer text available" in reader) == (True, False)
    assert ("Newer &lt;b&gt; words." in writer, "Our words." in writer) == (True, True)


@pytest.mark.parametrize(
    ("choice", "why"), [("take", "Newer <b> words."), ("keep", "Our words."), ("other", "Our words.")]
)
def test_newer_text_is_taken_or_not(coach: Client, squat: Exercise, choice: str, why: str) -> None:
    response = coach.post(url("exercise_newer", squat), {"choice": choice})

    assertRedirects(response, url("exercise", squat))
    squat.refresh_from_db()
    assert (squat.why, squat.newer_text is None) == (why, choice != "other")


def test_newer_text_whose_name_is_taken_says_so(coach: Client, squat: Exercise) -> None:
    Exercise.objects.update(name="Our squat", search_key="our squat")
    ExerciseFactory.create(name="Goblet squat")

    html = coach.post(url("exercise_newer", squat), {"choice": "take"}, follow=True).content.decode()

    assert "Another exercise is called “Goblet squat”: rename that one first." in html


def test_putting_away_and_bringing_back(coach: Client, cast: Cast) -> None:
    exercise = cast.exercise

    away = coach.post(url("exercise_archive", exercise), follow=True).content.decode()
    assert ("No longer in use" in away, "Bring back" in away) == (True, True)

    back = coach.post(url("exercise_restore", exercise), follow=True).content.decode()
    assert ("No longer in use" in back, "Put away" in back) == (False, True)


def test_list_shows_what_was_put_away_only_when_asked(coach: Client) -> None:
    ExerciseFactory.create(name="Back squat")
    ExerciseFactory.create(name="Old drill", archived_at=now())
    ExerciseFactory.create(name="New drill", is_regions_reviewed=False)

    def shown(show: str) -> list[str]:
        page: Any = coach.get(reverse("desk:library"), {"show": show}).context["page"]
        return [line.name for line in page.lines]

    assert (shown(""), shown("archived"), shown("unreviewed")) == (
        ["Back squat", "New drill"],
        ["Old drill"],
        ["New drill"],
    )


def test_readers_are_offered_no_changes(cast: Cast) -> None:
    page = cast.client_of("clinician").get(url("exercise", cast.exercise)).content
    found = cast.client_of("clinician").get(reverse("desk:library")).content

    assert (b"Put away" in page, b"/edit/" in page, b"library/add" in found) == (False, False, False)
