"""Plain forms: what was posted, and the page around the fields."""

from __future__ import annotations

from django import forms
from django.http import HttpRequest, HttpResponse, QueryDict

from coachhub.base.render import render_page
from coachhub.desk.pages.forms import FormPage


def posted(request: HttpRequest) -> QueryDict | None:
    """The data of a POST, empty or not; None for a first look at the form."""
    return request.POST if request.method == "POST" else None


def render_form(request: HttpRequest, form: forms.BaseForm, page: FormPage) -> HttpResponse:
    """422 where something has to be put right; what was typed is kept."""
    return render_page(request, "desk/plain_form.html", page, form=form, status=422 if form.errors else 200)
