"""The page shells and shared parts, rendered with as little round them as there can be."""

from types import SimpleNamespace

import pytest
from django import forms
from django.contrib.messages import ERROR, SUCCESS, WARNING
from django.contrib.messages.storage.base import Message
from django.core.paginator import Paginator
from django.template.loader import render_to_string
from django.test import RequestFactory
from pytest_django.asserts import assertHTMLEqual, assertInHTML


class SlotForm(forms.Form):
    minutes = forms.IntegerField(label="Slot", help_text="minutes")
    side = forms.ChoiceField(label="Side", choices=[("l", "left"), ("r", "right")], widget=forms.RadioSelect)
    note = forms.CharField(label="Note", required=False)
    is_cleared = forms.BooleanField(label="Cleared", required=False)


def part(name: str, **context: object) -> str:
    return render_to_string(f"parts/{name}.html", context)


def test_field_with_error_names_help_and_error() -> None:
    assertHTMLEqual(
        part("field", field=SlotForm({})["minutes"]),
        '<div class="field bad"><label for="id_minutes">Slot</label>'
        '<input type="number" name="minutes" required aria-invalid="true"'
        ' aria-describedby="id_minutes_helptext id_minutes_error" id="id_minutes">'
        '<p class="help" id="id_minutes_helptext">minutes</p>'
        '<div class="err" id="id_minutes_error"><p>This field is required.</p></div></div>',
    )


def test_field_with_choices_is_a_group_with_a_legend() -> None:
    shown = part("field", field=SlotForm({})["side"])
    assert shown.strip().startswith('<fieldset class="field choices bad" aria-describedby="id_side_error">')
    assertInHTML("<legend>Side</legend>", shown)


def test_field_that_may_stay_empty_says_so() -> None:
    assertInHTML(
        '<label for="id_note">Note <span class="soft">(optional)</span></label>',
        part("field", field=SlotForm()["note"]),
    )


def test_field_in_a_filter_does_not_say_optional() -> None:
    assertInHTML('<label for="id_note">Note</label>', part("field", field=SlotForm()["note"], plain=True))


def test_field_with_one_box_has_it_inside_its_label() -> None:
    assertHTMLEqual(
        part("field", field=SlotForm()["is_cleared"]),
        '<div class="field"><label class="choice" for="id_is_cleared">'
        '<input type="checkbox" name="is_cleared" id="id_is_cleared"> <span>Cleared</span></label></div>',
    )


def test_form_errors_link_to_each_field() -> None:
    shown = part("form_errors", form=SlotForm({}))
    assertInHTML('<a href="#id_minutes">Slot</a>', shown)
    assertInHTML('<a href="#id_side_0">Side</a>', shown)


def test_form_errors_of_a_good_form_is_empty() -> None:
    assert part("form_errors", form=SlotForm({"minutes": "60", "side": "l"})).strip() == ""


def test_messages_take_the_class_of_their_level() -> None:
    notes = [Message(SUCCESS, "Saved."), Message(WARNING, "Print again."), Message(ERROR, "Not sent.")]
    assertHTMLEqual(
        part("messages", messages=notes),
        '<div id="messages" role="status"><ul class="notes"><li class="ok">Saved.</li>'
        '<li class="note">Print again.</li><li class="alert">Not sent.</li></ul></div>',
    )


def test_pager_keeps_the_rest_of_the_query() -> None:
    request = RequestFactory().get("/", {"squad": "3", "page": "2"})
    shown = render_to_string("parts/pager.html", {"page": Paginator(range(30), 10).page(2)}, request=request)
    assertInHTML('<a class="quiet" rel="prev" href="?squad=3&amp;page=1">Previous</a>', shown)
    assertInHTML('<a class="quiet" rel="next" href="?squad=3&amp;page=3">Next</a>', shown)
    assertInHTML("<span>Page 2 of 3</span>", shown)


def test_pager_of_one_page_is_empty() -> None:
    assert part("pager", page=Paginator(range(3), 10).page(1)).strip() == ""


def test_nav_marks_the_current_page() -> None:
    shown = part("nav", nav=[SimpleNamespace(label="Plans", url="/plans/", is_current=True)])
    assertInHTML('<a href="/plans/" aria-current="page">Plans</a>', shown)


@pytest.mark.parametrize("name", ["400", "403", "403_csrf", "404", "500"])
def test_error_page_without_a_request_has_a_way_on(name: str) -> None:
    assertInHTML('<a class="go" href="/">To the first page</a>', render_to_string(f"{name}.html"))


def test_base_without_club_or_nav_names_the_program() -> None:
    shown = render_to_string("base.html", request=RequestFactory().get("/"))
    assertInHTML('<a class="club" href="/">coachhub</a>', shown)
    assertInHTML("<title>coachhub</title>", shown)


@pytest.mark.parametrize("shell", ["base.html", "bare.html"])
def test_shell_takes_the_accent_of_the_club(shell: str) -> None:
    club = SimpleNamespace(name="Tarn Valley Handball Club", accent="#1d3f7a")
    shown = render_to_string(shell, {"club": club}, request=RequestFactory().get("/"))
    assert shown.count('data-accent="#1d3f7a"') == 1
