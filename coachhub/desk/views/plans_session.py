"""A session's particulars: name, day, weeks, slot."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from coachhub.base.actor import WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages.plans import FormPage, editable_plan, editable_session, plan_url
from coachhub.desk.pages.writing import session_url
from coachhub.plans import actions
from coachhub.plans.forms import SessionForm
from coachhub.plans.models import Plan, Session


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def session_add(request: ActorRequest, pk: int) -> HttpResponse:
    plan = editable_plan(request.actor, pk)
    form = SessionForm(request.POST if request.method == "POST" else None, plan=plan)
    if form.is_valid():
        added = actions.add_session(actor=request.actor, plan=plan, parts=actions.USUAL_PARTS, **form.cleaned_data)
        return redirect(session_url(added))
    page = FormPage(_("New session in %(plan)s") % {"plan": plan.name}, plan_url(plan))
    return render_page(request, "desk/session_edit.html", page, form=form, status=422 if form.errors else 200)


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def session_edit(request: ActorRequest, pk: int) -> HttpResponse:
    session = editable_session(request.actor, pk)
    remove_url = reverse("desk:session_archive", kwargs={"pk": pk})
    page = FormPage(_("Change %(name)s") % {"name": session.name}, session_url(session), remove_url)
    form = SessionForm(request.POST if request.method == "POST" else None, plan=session.plan, session=session)
    if form.is_valid():
        actions.edit_session(actor=request.actor, session=session, **form.cleaned_data)
        return redirect(page.back_url)
    return render_page(request, "desk/session_edit.html", page, form=form, status=422 if form.errors else 200)


@roles(WRITERS)
@require_POST
def session_archive(request: ActorRequest, pk: int) -> HttpResponse:
    """At once; the plan's page has the way back."""
    session = editable_session(request.actor, pk)
    actions.archive_session(actor=request.actor, session=session)
    return redirect(plan_url(session.plan, undo=pk))


@roles(WRITERS)
@require_POST
def session_restore(request: ActorRequest, pk: int) -> HttpResponse:
    session = get_object_or_404(Session.objects.filter(plan__in=Plan.objects.editable_by(request.actor)), pk=pk)
    actions.restore_session(actor=request.actor, session=session)
    return redirect(session_url(session))
