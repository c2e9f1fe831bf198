"""Copies of a block, a session, a plan."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from coachhub.base.actor import WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages.plans import FormPage, plan_url
from coachhub.desk.pages.writing import find_block, open_session, session_url
from coachhub.desk.views.writing import BLOCK
from coachhub.plans import actions_copy
from coachhub.plans.forms import CopyPlanForm, CopySessionForm
from coachhub.plans.models import Plan, Session


@roles(WRITERS)
@require_POST
def block_duplicate(request: ActorRequest, pk: int) -> HttpResponse:
    tree = open_session(request.actor, to_edit=True, **{BLOCK: pk})
    actions_copy.duplicate_group(actor=request.actor, group=find_block(tree, pk).row)
    return redirect(session_url(tree.session, is_arranging=True))


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def session_copy(request: ActorRequest, pk: int) -> HttpResponse:
    session = get_object_or_404(Session.objects.visible_to(request.actor).live().select_related("plan"), pk=pk)
    data = request.POST if request.method == "POST" else None
    form = CopySessionForm(data, actor=request.actor, session=session)
    if form.is_valid():
        added = actions_copy.copy_session(actor=request.actor, session=session, **form.cleaned_data)
        return redirect(session_url(added))
    page = FormPage(_("Copy %(name)s") % {"name": session.name}, session_url(session))
    return render_page(request, "desk/plan_copy.html", page, form=form, status=422 if form.errors else 200)


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def plan_copy(request: ActorRequest, pk: int) -> HttpResponse:
    plan = get_object_or_404(Plan.objects.visible_to(request.actor), pk=pk)
    form = CopyPlanForm(request.POST if request.method == "POST" else None, actor=request.actor, plan=plan)
    if form.is_valid():
        added = actions_copy.copy_plan(actor=request.actor, plan=plan, **form.cleaned_data)
        return redirect(plan_url(added))
    page = FormPage(_("Copy %(name)s") % {"name": plan.name}, plan_url(plan))
    return render_page(request, "desk/plan_copy.html", page, form=form, status=422 if form.errors else 200)
