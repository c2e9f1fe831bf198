from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from coachhub.base.actor import READERS, WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages.plan_print import PlanPrint
from coachhub.desk.pages.plans import FormPage, PlanPage, PlansPage, RemovePage, editable_plan, plan_url
from coachhub.plans import actions
from coachhub.plans.forms import PlanFilter, PlanForm


@roles(READERS)
@require_safe
def plans(request: ActorRequest) -> HttpResponse:
    form = PlanFilter(request.GET, actor=request.actor)
    page = PlansPage.of(request.actor, form, request.GET.get("page", ""))
    return render_page(request, "desk/plans.html", page, partial="found", form=form)


@roles(READERS)
@require_safe
def plan(request: ActorRequest, pk: int) -> HttpResponse:
    return render_page(request, "desk/plan.html", PlanPage.of(request.actor, pk, undo=request.GET.get("undo", "")))


@roles(READERS)
@require_safe
def plan_print(request: ActorRequest, pk: int) -> HttpResponse:
    return render_page(request, "desk/plan_print.html", PlanPrint.of(request.actor, pk))


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def plan_add(request: ActorRequest) -> HttpResponse:
    form = PlanForm(request.POST if request.method == "POST" else None, actor=request.actor)
    if form.is_valid():
        added = actions.add_plan(actor=request.actor, **form.cleaned_data)
        return redirect(plan_url(added))
    page = FormPage(_("New plan"), reverse("desk:plans"))
    return render_page(request, "desk/plan_edit.html", page, form=form, status=422 if form.errors else 200)


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def plan_edit(request: ActorRequest, pk: int) -> HttpResponse:
    row = editable_plan(request.actor, pk)
    page = FormPage(_("Change %(name)s") % {"name": row.name}, plan_url(row))
    form = PlanForm(request.POST if request.method == "POST" else None, actor=request.actor, plan=row)
    if form.is_valid():
        actions.edit_plan(actor=request.actor, plan=row, **form.cleaned_data)
        messages.success(request, _("Saved."))
        return redirect(page.back_url)
    return render_page(request, "desk/plan_edit.html", page, form=form, status=422 if form.errors else 200)


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def plan_archive(request: ActorRequest, pk: int) -> HttpResponse:
    row = editable_plan(request.actor, pk)
    if request.method == "POST":
        actions.archive_plan(actor=request.actor, plan=row)
        messages.success(request, _("“%(name)s” is put away.") % {"name": row.name})
        return redirect("desk:plans")
    question = _("It leaves the list with its sessions. Cards that were made from them stay as they are.")
    title = _("Put “%(name)s” away?") % {"name": row.name}
    return render_page(request, "desk/plan_remove.html", RemovePage(title, question, _("Put it away"), plan_url(row)))
