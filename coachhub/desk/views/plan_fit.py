"""Fitting a plan to the season, and the rules that it follows."""

from __future__ import annotations

from uuid import uuid4

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from coachhub.base.actor import WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.cards.actions.fitting import place_plan
from coachhub.cards.queries.fitting import start_of
from coachhub.coaching.fitting import DEFAULT_RULES
from coachhub.desk.pages.plan_fit import FitPage, fit_url, moved_words
from coachhub.desk.pages.plans import editable_plan
from coachhub.desk.pages.squads import find_squad
from coachhub.desk.plain import posted
from coachhub.plans.actions_fit import set_fit_rules
from coachhub.plans.forms_fit import FitForm, FitRulesForm
from coachhub.plans.queries_fit import rules_of


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def plan_fit(request: ActorRequest, pk: int) -> HttpResponse:
    """Every session with its day and why; confirmed, those are given and moved."""
    plan = editable_plan(request.actor, pk)
    sent = posted(request) or (request.GET if "starts_on" in request.GET else None)
    form = FitForm({"starts_on": start_of(plan)} if sent is None and request.method != "POST" else sent or {})
    starts_on = form.cleaned_data["starts_on"] if form.is_valid() else None
    if request.method == "POST" and starts_on and form.cleaned_data["uuid"]:
        told = form.cleaned_data
        try:
            done = place_plan(actor=request.actor, plan=plan, starts_on=starts_on, seen=told["seen"], uuid=told["uuid"])
        except ValidationError as error:
            form.add_error(None, error)
        else:
            if done.moved:
                messages.success(request, moved_words(done.moved))
            return redirect("desk:run", pk=done.run.pk) if done.run else redirect(fit_url(plan, starts_on))
    page = FitPage.of(plan, starts_on)
    return render_page(request, "desk/plan_fit.html", page, form=form, uuid=uuid4(), status=422 if form.errors else 200)


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def fit_rules(request: ActorRequest, pk: int) -> HttpResponse:
    """On which days around a match each kind of session goes; `usual` puts back what is usual."""
    squad = find_squad(request.actor, pk)
    if "usual" in request.POST:
        set_fit_rules(actor=request.actor, squad=squad, rules=DEFAULT_RULES)
        messages.success(request, _("The usual rules hold again."))
        return redirect("desk:fit_rules", pk=pk)
    form = FitRulesForm(posted(request), rules=rules_of(squad))
    if form.is_valid():
        set_fit_rules(actor=request.actor, squad=squad, rules=form.rules)
        messages.success(request, _("Saved."))
        return redirect("desk:fit_rules", pk=pk)
    return render_page(request, "desk/fit_rules.html", squad, form=form, status=422 if form.errors else 200)
