"""A link, a picture and a film beside an exercise: taken with care, shown to the staff, taken away for good."""

from __future__ import annotations

import pytest
from django.core.files.storage import default_storage
from django.test import Client
from django.urls import reverse
from pytest_django import DjangoCaptureOnCommitCallbacks
from pytest_django.asserts import assertRedirects

from coachhub.library.media_kinds import UPLOAD_BYTES
from coachhub.library.models import Exercise, ExerciseFile
from tests.cast import Cast
from tests.library.uploads import film, picture, put_picture, tagged, upload

pytestmark = pytest.mark.django_db


@pytest.fixture
def coach(cast: Cast) -> Client:
    return cast.client_of("coach")


def url(name: str, pk: int) -> str:
    return reverse(f"desk:{name}", kwargs={"pk": pk})


def send(coach: Client, exercise: Exercise, data: bytes, name: str = "x.jpg") -> int:
    shows = {"file": upload(data, name), "shows": "Deepest <point>"}
    return coach.post(url("exercise_media", exercise.pk), shows).status_code


def stored() -> list[str]:
    folder = "exercises"
    return default_storage.listdir(folder)[1] if default_storage.exists(folder) else []


def test_picture_is_kept_under_a_name_of_its_own_and_shown_to_the_staff(coach: Client, cast: Cast) -> None:
    assert send(coach, cast.exercise, tagged(), "../../Ingrid at home.html") == 302

    row = ExerciseFile.objects.get()
    name = (row.file.name or "").removeprefix("exercises/")
    assert (row.kind, row.media_type, len(name), name.endswith(".jpg")) == ("picture", "image/jpeg", 36, True)
    page = cast.client_of("clinician").get(url("exercise", cast.exercise.pk)).content.decode()
    assert f'<img src="{url("exercise_file", row.pk)}" alt="Deepest &lt;point&gt;"' in page
    response = cast.client_of("clinician").get(url("exercise_file", row.pk))
    body = response.getvalue()
    assert (response["Content-Type"], response["X-Content-Type-Options"]) == ("image/jpeg", "nosniff")
    assert (len(body), b"Camera of Ingrid" in body) == (row.size, False)


def test_film_is_shown_and_given_out_in_parts(coach: Client, cast: Cast) -> None:
    assert send(coach, cast.exercise, film(), "film.mp4") == 302

    row = ExerciseFile.objects.get()
    html = coach.get(url("exercise", cast.exercise.pk)).content.decode()
    assert f'<video src="{url("exercise_file", row.pk)}" controls' in html
    response = coach.get(url("exercise_file", row.pk), headers={"Range": "bytes=4-7"})
    assert (response.status_code, response.getvalue(), response["Content-Type"]) == (206, b"ftyp", "video/mp4")


@pytest.mark.parametrize("data", [b"<svg><script>alert(1)</script></svg>", b"", b"\xff\xd8\xff" + bytes(99)])
def test_hostile_file_is_refused_and_nothing_is_stored(coach: Client, cast: Cast, data: bytes) -> None:
    before = stored()

    response = coach.post(url("exercise_media", cast.exercise.pk), {"file": upload(data), "shows": "Knee & hip"})

    assert (response.status_code, ExerciseFile.objects.count(), stored()) == (422, 0, before)
    assert 'value="Knee &amp; hip"' in response.content.decode()


def test_upload_over_the_limit_is_cut_off_and_said_to_be_too_large(coach: Client, cast: Cast) -> None:
    before = stored()
    response = coach.post(
        url("exercise_media", cast.exercise.pk), {"file": upload(bytes(UPLOAD_BYTES + 1)), "shows": "x"}
    )

    assert (response.status_code, stored()) == (422, before)
    assert "Too large: 5 MB for a picture and 30 MB for a film at most." in response.content.decode()


def test_new_picture_takes_the_place_of_the_old_and_leaves_the_film(
    coach: Client, cast: Cast, django_capture_on_commit_callbacks: DjangoCaptureOnCommitCallbacks
) -> None:
    send(coach, cast.exercise, picture("PNG"))
    send(coach, cast.exercise, film())
    old = ExerciseFile.objects.get(kind="picture").file.name or ""

    with django_capture_on_commit_callbacks(execute=True):
        send(coach, cast.exercise, picture("WEBP"))

    assert [(row.kind, row.media_type) for row in ExerciseFile.objects.all()] == [
        ("film", "video/mp4"),
        ("picture", "image/webp"),
    ]
    assert default_storage.exists(old) is False


def test_picture_taken_away_is_gone_for_good(
    coach: Client, cast: Cast, django_capture_on_commit_callbacks: DjangoCaptureOnCommitCallbacks
) -> None:
    row = put_picture(cast.exercise)
    name = row.file.name or ""

    with django_capture_on_commit_callbacks(execute=True):
        response = coach.post(url("exercise_file_remove", row.pk))

    assertRedirects(response, url("exercise_media", cast.exercise.pk))
    assert (ExerciseFile.objects.count(), default_storage.exists(name)) == (0, False)
    assert coach.get(url("exercise_file", row.pk)).status_code == 404


def test_row_whose_bytes_are_lost_answers_404(coach: Client, cast: Cast) -> None:
    row = put_picture(cast.exercise)
    default_storage.delete(row.file.name or "")

    assert coach.get(url("exercise_file", row.pk)).status_code == 404


def test_link_is_plain_and_names_its_host(coach: Client, cast: Cast) -> None:
    link = "https://films.example/watch?v=1&t=2"

    response = coach.post(url("exercise_link", cast.exercise.pk), {"video_url": link})

    assertRedirects(response, url("exercise_media", cast.exercise.pk))
    html = coach.get(url("exercise", cast.exercise.pk)).content.decode()
    assert '<a href="https://films.example/watch?v=1&amp;t=2" rel="noopener noreferrer external">' in html
    assert ("Watch at films.example" in html, "<iframe" in html) == (True, False)


@pytest.mark.parametrize(
    "link",
    [
        "http://films.example/1",
        "javascript:alert(1)",
        "https://",
        "films.example",
        "https://club@films.example/",
        "https://films.example/" + "x" * 300,
    ],
)
def test_other_links_are_refused_and_kept_in_the_form(coach: Client, cast: Cast, link: str) -> None:
    response = coach.post(url("exercise_link", cast.exercise.pk), {"video_url": link})

    assert (response.status_code, Exercise.objects.get(pk=cast.exercise.pk).video_url) == (422, "")
    assert f'value="{link}"' in response.content.decode()


def test_nothing_beside_an_exercise_makes_it_an_edited_one(coach: Client, cast: Cast) -> None:
    coach.post(url("exercise_link", cast.exercise.pk), {"video_url": "https://films.example/1"})
    put_picture(cast.exercise)

    assert Exercise.objects.get(pk=cast.exercise.pk).edited_at is None
