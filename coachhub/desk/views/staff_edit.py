from __future__ import annotations

from django import forms
from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_safe

from coachhub.base.actor import ActorKind, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages.forms import FormPage
from coachhub.desk.pages.staff import StaffPage, find_staff, squadless_words
from coachhub.desk.plain import posted, render_form
from coachhub.people import actions
from coachhub.people.forms import NewStaffForm, PasswordForm, StaffForm
from coachhub.people.models import Staff


@roles(ActorKind.OWNER)
@require_safe
def staff(request: ActorRequest) -> HttpResponse:
    return render_page(request, "desk/staff.html", StaffPage.now())


@roles(ActorKind.OWNER)
@sensitive_post_parameters("password")
@require_http_methods(["GET", "HEAD", "POST"])
def staff_add(request: ActorRequest) -> HttpResponse:
    form = NewStaffForm(posted(request))
    if form.is_valid():
        try:
            person = actions.add_staff(actor=request.actor, **form.cleaned_data)
        except ValidationError as error:
            form.add_error(None, error)
        else:
            messages.success(request, _("%(name)s can log in now.") % {"name": person})
            return to_staff(request, person)
    return render_form(request, form, FormPage(_("New on the staff"), _("Add"), reverse("desk:staff")))


def to_staff(request: ActorRequest, person: Staff) -> HttpResponse:
    if words := squadless_words(person):
        messages.warning(request, words)
    return redirect("desk:staff")


@roles(ActorKind.OWNER)
@require_http_methods(["GET", "HEAD", "POST"])
def staff_edit(request: ActorRequest, pk: int) -> HttpResponse:
    person = find_staff(pk)
    form = StaffForm(posted(request), staff=person)
    if form.is_valid():
        try:
            actions.edit_staff(actor=request.actor, staff=person, **form.cleaned_data)
        except ValidationError as error:
            form.add_error(None, error)
        else:
            messages.success(request, _("Saved."))
            return to_staff(request, person)
    title = _("Change %(name)s") % {"name": person}
    return render_form(request, form, FormPage(title, _("Save"), reverse("desk:staff")))


@roles(ActorKind.OWNER)
@sensitive_post_parameters("password")
@require_http_methods(["GET", "HEAD", "POST"])
def staff_password(request: ActorRequest, pk: int) -> HttpResponse:
    person = find_staff(pk)
    form = PasswordForm(posted(request))
    if form.is_valid():
        try:
            actions.set_password(actor=request.actor, staff=person, password=form.cleaned_data["password"])
        except ValidationError as error:
            form.add_error(None, error)
        else:
            messages.success(request, _("Saved. Wherever they were logged in, they are no longer."))
            return redirect("desk:staff")
    title = _("New password for %(name)s") % {"name": person}
    return render_form(request, form, FormPage(title, _("Set password"), reverse("desk:staff")))


@roles(ActorKind.OWNER)
@require_http_methods(["GET", "HEAD", "POST"])
def staff_archive(request: ActorRequest, pk: int) -> HttpResponse:
    """Asked once more before it is done."""
    person = find_staff(pk)
    form = forms.Form(posted(request))
    if form.is_valid():
        try:
            actions.archive_staff(actor=request.actor, staff=person)
        except ValidationError as error:
            form.add_error(None, error)
        else:
            messages.success(request, _("%(name)s can no longer log in.") % {"name": person})
            return redirect("desk:staff")
    intro = _("They can no longer log in. What they wrote keeps their name.")
    title = _("%(name)s leaves the staff?") % {"name": person}
    return render_form(request, form, FormPage(title, _("Leave the staff"), reverse("desk:staff"), intro, is_stop=True))
