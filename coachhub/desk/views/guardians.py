from __future__ import annotations

from django import forms
from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from coachhub.base.actor import WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages import guardians as pages
from coachhub.desk.pages.athletes import find_athlete
from coachhub.desk.plain import posted, render_form
from coachhub.people import actions
from coachhub.people.access import EMERGENCY
from coachhub.people.forms_guardians import GuardianForm, NewGuardianForm

FORM = ["GET", "HEAD", "POST"]


@roles(EMERGENCY)
@require_safe
def guardian(request: ActorRequest, pk: int) -> HttpResponse:
    return render_page(request, "desk/guardian.html", pages.GuardianPage.of(request.actor, pk))


@roles(WRITERS)
@require_http_methods(FORM)
def guardian_add(request: ActorRequest, pk: int) -> HttpResponse:
    athlete = find_athlete(request.actor, pk)
    page = pages.add_page(athlete)
    form = NewGuardianForm(posted(request), actor=request.actor, athlete=athlete)
    if form.is_valid():
        data = dict(form.cleaned_data)
        known = data.pop("known")
        try:
            if known:
                relation = data["relation"]
                actions.share_guardian(actor=request.actor, athlete=athlete, guardian=known, relation=relation)
            else:
                actions.add_guardian(actor=request.actor, athlete=athlete, **data)
        except ValidationError as error:
            form.add_error(None, error)
        else:
            messages.success(request, _("Saved."))
            return redirect(page.back_url)
    return render_form(request, form, page)


@roles(WRITERS)
@require_http_methods(FORM)
def guardian_edit(request: ActorRequest, pk: int, guardian_pk: int) -> HttpResponse:
    link = pages.find_link(find_athlete(request.actor, pk), guardian_pk)
    page = pages.edit_page(link)
    form = GuardianForm(posted(request), instance=link.guardian, link=link)
    if form.is_valid():
        actions.edit_guardian(actor=request.actor, link=link, **form.cleaned_data)
        messages.success(request, _("Saved."))
        return redirect(page.back_url)
    return render_form(request, form, page)


@roles(WRITERS)
@require_http_methods(FORM)
def guardian_remove(request: ActorRequest, pk: int, guardian_pk: int) -> HttpResponse:
    """Asked once more before it is done."""
    link = pages.find_link(find_athlete(request.actor, pk), guardian_pk)
    page = pages.remove_page(link)
    if request.method == "POST":
        actions.remove_guardian(actor=request.actor, link=link)
        messages.success(request, _("Removed."))
        return redirect(page.back_url)
    return render_form(request, forms.Form(), page)
