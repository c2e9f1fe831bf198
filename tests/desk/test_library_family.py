"""A family of exercises: easiest first on the exercise's page and in the list."""

from __future__ import annotations

import pytest
from django.urls import reverse

from coachhub.base.clock import now
from coachhub.desk.pages.library import ExercisePage
from coachhub.library.queries import family_names, search
from tests.cast import Cast
from tests.factories import ExerciseFactory

pytestmark = pytest.mark.django_db


def make_lunges() -> None:
    for rank, name in ((3, "Walking lunge"), (1, "Reverse lunge"), (2, "Forward lunge")):
        ExerciseFactory.create(name=name, family="lunge", family_rank=rank)
    ExerciseFactory.create(name="Old lunge", family="lunge", family_rank=4, archived_at=now())
    ExerciseFactory.create(name="Goblet squat", family="squat", family_rank=1)
    ExerciseFactory.create(name="Carry")


def test_page_shows_the_family_in_its_order(cast: Cast) -> None:
    make_lunges()
    forward = search("forward").get()

    page = ExercisePage.of(forward.pk)

    assert [member.name for member in page.family] == ["Reverse lunge", "Forward lunge", "Walking lunge"]
    html = cast.client_of("assistant").get(reverse("desk:exercise", kwargs={"pk": forward.pk})).content.decode()
    assert '<b aria-current="true">Forward lunge</b>' in html
    assert f'<a href="{reverse("desk:library")}?family=lunge">lunge</a>' in html


def test_exercise_without_a_family_shows_none() -> None:
    make_lunges()

    assert ExercisePage.of(search("carry").get().pk).family == []


def test_list_of_a_family_is_in_its_order_and_says_so(cast: Cast) -> None:
    make_lunges()

    response = cast.client_of("coach").get(reverse("desk:library"), {"family": "lunge"})

    assert [line.name for line in response.context["page"].lines] == ["Reverse lunge", "Forward lunge", "Walking lunge"]
    html = response.content.decode()
    assert "Family: <b>lunge</b>, easiest first." in html
    assert '<input type="hidden" name="family" value="lunge"' in html


def test_family_is_found_by_its_name() -> None:
    make_lunges()
    ExerciseFactory.create(name="Step back", family="lunge", family_rank=5)

    assert [row.name for row in search("lunge")][-1] == "Step back"
    assert family_names() == ["lunge", "squat"]
