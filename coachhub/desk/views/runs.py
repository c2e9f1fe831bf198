"""Giving a whole plan to a squad in the background."""

from __future__ import annotations

from uuid import uuid4

from django.http import HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from coachhub.base.actor import WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.cards.actions.runs import cancel_run, resume_run, start_run
from coachhub.cards.forms_run import GivePlanForm
from coachhub.desk.pages.plans import editable_plan
from coachhub.desk.pages.runs import GivePlanPage, RunPage, athletes_for, find_run


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def plan_give(request: ActorRequest, pk: int) -> HttpResponse:
    """First every session with its day; then, once confirmed, the worker gives them."""
    plan = editable_plan(request.actor, pk)
    sent = request.POST if request.method == "POST" else request.GET if "show" in request.GET else None
    form = GivePlanForm(sent, actor=request.actor, plan=plan, initial={"uuid": uuid4()})
    if request.method == "POST" and form.is_valid():
        squad, steps, athletes = form.cleaned_data["squad"], form.steps, athletes_for(form)
        uuid = form.cleaned_data["uuid"]
        run = start_run(actor=request.actor, uuid=uuid, squad=squad, athletes=athletes, steps=steps)
        return redirect("desk:run", pk=run.pk)
    page = GivePlanPage.of(plan, form)
    return render_page(request, "desk/plan_give.html", page, form=form, status=422 if form.errors else 200)


@roles(WRITERS)
@require_safe
def run(request: ActorRequest, pk: int) -> HttpResponse:
    return render_page(request, "desk/run.html", RunPage.of(find_run(request.actor, pk)), partial="progress")


@roles(WRITERS)
@require_POST
def run_cancel(request: ActorRequest, pk: int) -> HttpResponse:
    cancel_run(actor=request.actor, run=find_run(request.actor, pk))
    return redirect("desk:run", pk=pk)


@roles(WRITERS)
@require_POST
def run_resume(request: ActorRequest, pk: int) -> HttpResponse:
    resume_run(actor=request.actor, run=find_run(request.actor, pk))
    return redirect("desk:run", pk=pk)
