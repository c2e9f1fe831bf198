"""Saved sets of own activation work: made from a list, given to several, put away."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from coachhub.base.actor import READERS, WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.cards.actions import own_work
from coachhub.desk.pages.forms import FormPage
from coachhub.desk.pages.own import Kind, find_whose, renew_words, url
from coachhub.desk.pages.own_sets import SetPage, SetsPage, find_set, give_form
from coachhub.desk.plain import posted, render_form
from coachhub.plans import actions_own
from coachhub.plans.forms_own import SaveSetForm
from coachhub.plans.queries_own import items_on_list

FORM = ["GET", "HEAD", "POST"]


@roles(READERS)
@require_safe
def own_sets(request: ActorRequest) -> HttpResponse:
    return render_page(request, "desk/own_sets.html", SetsPage.of(request.actor))


@roles(WRITERS)
@require_http_methods(FORM)
def own_set(request: ActorRequest, pk: int) -> HttpResponse:
    """Its items, and whom to give them to; `squad` in the address says of which squad."""
    row = find_set(pk)
    page = SetPage.of(request.actor, row, request.GET.get("squad", ""))
    form = give_form(posted(request), page.squad) if page.squad else None
    if form is not None and form.is_valid():
        days = {name: form.cleaned_data[name] for name in ("from_on", "review_on")}
        new, n = own_work.give_own_set(actor=request.actor, own_set=row, whose=form.whose, **days)
        told = ngettext("%(n)s exercise is new on the lists.", "%(n)s exercises are new on the lists.", new)
        messages.success(request, f"{told % {'n': new}} {renew_words(n)}".strip())
        return redirect("desk:own_sets")
    status = 422 if form is not None and form.errors else 200
    return render_page(request, "desk/own_set.html", page, form=form, status=status)


@roles(WRITERS)
@require_POST
def own_set_archive(request: ActorRequest, pk: int) -> HttpResponse:
    actions_own.archive_set(actor=request.actor, own_set=find_set(pk))
    messages.success(request, _("Put away. What was given from it stays."))
    return redirect("desk:own_sets")


@roles(WRITERS)
@require_http_methods(FORM)
def own_save(request: ActorRequest, pk: int, kind: Kind) -> HttpResponse:
    """The list of an athlete or squad as a set."""
    whose = find_whose(request.actor, kind, pk)
    items = list(items_on_list(whose.athlete, whose.squad))
    form = SaveSetForm(posted(request))
    intro = ngettext(
        "%(n)s exercise with its dose and goal.", "%(n)s exercises with their doses and goals.", len(items)
    )
    page = FormPage(_("Save as a set"), _("Save"), url(f"own_{kind}", pk), intro % {"n": len(items)})
    if form.is_valid():
        try:
            actions_own.save_as_set(actor=request.actor, items=items, **form.cleaned_data)
        except ValidationError as error:
            form.add_error("name", error)
        else:
            return redirect("desk:own_sets")
    return render_form(request, form, page)
