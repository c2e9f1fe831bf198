"""Giving a session, and the assignment that comes of it."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from coachhub.base.actor import READERS, WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.cards import actions
from coachhub.cards.forms import RenewForm
from coachhub.desk.pages.cards_assign import AssignPage, asked_form, sent_form
from coachhub.desk.pages.cards_assignment import (
    AssignmentPage,
    CancelPage,
    assignment_url,
    changeable_assignment,
    given_values,
    renewed,
)


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def assign(request: ActorRequest) -> HttpResponse:
    """First who would get what; then, for those who are ticked, the cards."""
    if request.method == "POST":
        form = sent_form(request.actor, request.GET, request.POST)
        if form.is_valid() and form.cleaned_data["athlete"]:
            given = actions.assign_session(actor=request.actor, **given_values(form))
            messages.success(request, _("Given. Everyone's card is ready."))
            return redirect(assignment_url(given.pk))
        ticked = [athlete.pk for athlete in form.cleaned_data.get("athlete") or ()]
        page = AssignPage.of(request.actor, form, request.GET, ticked=ticked)
        return render_page(request, "desk/cards_assign.html", page, form=form, nobody=form.is_valid(), status=422)
    form = asked_form(request.actor, request.GET)
    page = AssignPage.of(request.actor, form, request.GET)
    return render_page(request, "desk/cards_assign.html", page, form=form, status=422 if form.errors else 200)


@roles(READERS)
@require_safe
def assignment(request: ActorRequest, pk: int) -> HttpResponse:
    return render_page(request, "desk/cards_assignment.html", AssignmentPage.of(request.actor, pk))


@roles(WRITERS)
@require_POST
def assignment_renew(request: ActorRequest, pk: int) -> HttpResponse:
    row = changeable_assignment(request.actor, pk)
    form = RenewForm(request.POST)
    n = renewed(request.actor, row, form.cleaned_data["card"]) if form.is_valid() else 0
    text = ngettext("%(n)s card renewed.", "%(n)s cards renewed.", n) % {"n": n}
    messages.success(request, text if n else _("Nothing to renew: these cards are up to date or begun."))
    return redirect(assignment_url(pk))


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def assignment_cancel(request: ActorRequest, pk: int) -> HttpResponse:
    row = changeable_assignment(request.actor, pk)
    if request.method == "POST":
        actions.cancel_assignment(actor=request.actor, assignment=row)
        messages.success(request, _("Cancelled. What was logged stays in history."))
        return redirect("desk:today")
    return render_page(request, "desk/cards_cancel.html", CancelPage.of(row))
