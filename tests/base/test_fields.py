"""Fields that more than one app uses."""

from __future__ import annotations

import pytest
from django import forms
from django.core.exceptions import ValidationError
from django.template.loader import render_to_string

from coachhub.base.fields import WholeNumberField


@pytest.mark.parametrize("typed", ["0", "53", "four", "1.5", ""])
def test_whole_number_that_cannot_be_is_told_its_limits(typed: str) -> None:
    with pytest.raises(ValidationError) as error:
        WholeNumberField(least=1, most=52).clean(typed)
    assert error.value.messages == ["Write a whole number from 1 to 52."]


@pytest.mark.parametrize(("typed", "value"), [("1", 1), (" 52 ", 52)])
def test_whole_number_within_its_limits_is_taken(typed: str, value: int) -> None:
    assert WholeNumberField(least=1, most=52).clean(typed) == value


class _Form(forms.Form):
    week = WholeNumberField(least=1, most=52)


@pytest.mark.parametrize(
    ("stores_nothing", "heading"), [(True, "Please look at this:"), (False, "Not saved yet. Please put this right:")]
)
def test_heading_says_not_saved_only_where_something_would_be(stores_nothing: bool, heading: str) -> None:
    html = render_to_string("parts/form_errors.html", {"form": _Form({}), "stores_nothing": stores_nothing})
    assert html.split("<b>")[1].split("</b>")[0] == heading
