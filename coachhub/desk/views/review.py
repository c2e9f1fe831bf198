"""The checks of a plan, and answers to what they remark: accept with a word, or take that back."""

from __future__ import annotations

from django.contrib import messages
from django.db.models import Q
from django.http import Http404, HttpResponse, QueryDict
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from coachhub.base.actor import READERS, WRITERS, ActorKind, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages.forms import FormPage
from coachhub.desk.pages.plans import editable_plan
from coachhub.desk.pages.review import PlanChecks, checks_url, posted_ids
from coachhub.desk.pages.writing import SessionPage, open_session, session_url
from coachhub.desk.plain import posted
from coachhub.plans.actions_review import About, accept_finding, set_rules, withdraw_acceptances
from coachhub.plans.forms_review import AcceptForm, RulesForm
from coachhub.plans.models import Plan
from coachhub.plans.queries_review import thresholds


@roles(WRITERS)
@require_POST
def session_answer(request: ActorRequest, pk: int) -> HttpResponse:
    tree = open_session(request.actor, to_edit=True, pk=pk)
    if took_back(request, Q(session=tree.session)):
        return redirect(session_url(tree.session, "checks"))
    form = AcceptForm(request.POST)
    if form.is_valid():
        accept_finding(actor=request.actor, abouts=[About(session=tree.session)], **form.cleaned_data)
        return redirect(session_url(tree.session, "checks"))
    say_if_gone(request, form)
    page = SessionPage.of(request.actor, tree, refused=form)
    return render_page(request, "desk/session.html", page, partial="work", status=422)


@roles(READERS)
@require_safe
def plan_checks(request: ActorRequest, pk: int) -> HttpResponse:
    """In brief for the plan's own page, which asks for it once it is shown."""
    page = PlanChecks.of(request.actor, pk, phase=request.GET.get("phase"), at=request.GET.get("at", ""))
    return render_page(request, "desk/plan_review.html", page, partial="brief" if "brief" in request.GET else "found")


@roles(WRITERS)
@require_POST
def plan_answer(request: ActorRequest, pk: int) -> HttpResponse:
    """About weeks of the plan, or about one of its sessions."""
    plan, phase = editable_plan(request.actor, pk), request.POST.get("phase", "")
    back = checks_url(pk, phase, request.POST.get("at", ""))
    if took_back(request, Q(plan=plan) | Q(session__plan=plan)):
        return redirect(back)
    form = AcceptForm(request.POST)
    if form.is_valid():
        accept_finding(actor=request.actor, abouts=abouts_of(plan, request.POST), **form.cleaned_data)
        return redirect(back)
    say_if_gone(request, form)
    page = PlanChecks.of(request.actor, pk, phase=phase, refused=form)
    return render_page(request, "desk/plan_review.html", page, partial="found", status=422)


@roles(ActorKind.OWNER)
@require_http_methods(["GET", "HEAD", "POST"])
def check_rules(request: ActorRequest) -> HttpResponse:
    form = RulesForm(posted(request), thresholds=thresholds())
    if form.is_valid():
        set_rules(actor=request.actor, chosen=form.chosen)
        messages.success(request, _("Saved."))
        return redirect("desk:check_rules")
    page = FormPage(_("The checks of a coach"), _("Save"), "")
    return render_page(request, "desk/review_rules.html", page, form=form, status=422 if form.errors else 200)


def took_back(request: ActorRequest, about: Q) -> bool:
    """Whether the post was to withdraw acceptances; only those of the page it came from are."""
    asked = posted_ids(request.POST, "acceptance")
    if asked:
        withdraw_acceptances(actor=request.actor, ids=asked, about=about)
    return bool(asked)


def say_if_gone(request: ActorRequest, form: AcceptForm) -> None:
    """What is wrong with the word stands beside it; a finding that is gone has no place on the page."""
    for error in form.errors.get("key", []):
        messages.warning(request, str(error))


def abouts_of(plan: Plan, data: QueryDict) -> list[About]:
    if sessions := posted_ids(data, "session"):
        return [About(session=get_object_or_404(plan.sessions.live(), pk=sessions[0]))]
    weeks = [week for week in posted_ids(data, "week") if 1 <= week <= plan.weeks]
    if not weeks:
        raise Http404
    return [About(plan=plan, week=week) for week in weeks]
