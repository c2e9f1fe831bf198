"""Restrictions, pain, red flags: set, lifted and cleared on somebody's word."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from coachhub.base.actor import HEALTH, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.cards import actions, queries
from coachhub.cards.access import may_lift
from coachhub.cards.forms_health import (
    ClearFlagForm,
    ClearPainForm,
    ExceptionForm,
    KeepForm,
    LiftForm,
    RestrictionForm,
)
from coachhub.desk.pages import cards_health as pages
from coachhub.desk.pages.athletes import find_athlete
from coachhub.desk.pages.forms import FormPage

FORM = ["GET", "HEAD", "POST"]


@roles(HEALTH)
@require_safe
def athlete_health(request: ActorRequest, pk: int) -> HttpResponse:
    page = pages.Health.of(request.actor, find_athlete(request.actor, pk), is_whole=True)
    return render_page(request, "desk/cards_health.html", page)


@roles(HEALTH)
@require_http_methods(FORM)
def restriction_add(request: ActorRequest, pk: int) -> HttpResponse:
    athlete = find_athlete(request.actor, pk)
    page = pages.restrict_form_page(athlete)
    data = request.POST if request.method == "POST" else None
    form = RestrictionForm(data, actor=request.actor, athlete=athlete)
    if form.is_valid():
        _row, cards = actions.restrict_athlete(actor=request.actor, athlete=athlete, **form.cleaned_data)
        messages.warning(request, f"{_('In force now.')} {pages.reached(request.actor, athlete, cards)}")
        return redirect(page.back_url)
    return render_page(request, "desk/cards_restrict.html", page, form=form, status=422 if form.errors else 200)


@roles(HEALTH)
@require_http_methods(FORM)
def restriction_except(request: ActorRequest, pk: int) -> HttpResponse:
    standing = queries.restrictions_to_read(request.actor).filter(lifted_at=None)
    row = get_object_or_404(standing, pk=pk)
    if not may_lift(request.actor, row):
        return refused(request, pages.exception_form_page(row))
    page = pages.exception_form_page(row)
    form = ExceptionForm(request.POST if request.method == "POST" else None, athlete=row.athlete)
    if form.is_valid():
        cards = actions.add_exception(actor=request.actor, restriction=row, cap=form.cap, **form.columns)
        messages.warning(request, f"{_('Allowed now.')} {pages.reached(request.actor, row.athlete, cards)}")
        return redirect(page.back_url)
    return render_page(request, "desk/plain_form.html", page, form=form, status=422 if form.errors else 200)


@roles(HEALTH)
@require_http_methods(FORM)
def restriction_keep(request: ActorRequest, pk: int) -> HttpResponse:
    """The question was asked, and the answer is that it stays."""
    row = get_object_or_404(queries.restrictions_to_read(request.actor).filter(lifted_at=None), pk=pk)
    page = pages.keep_form_page(row)
    if not may_lift(request.actor, row):
        return refused(request, page)
    form = KeepForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        actions.keep_restriction(actor=request.actor, restriction=row, **form.cleaned_data)
        messages.success(request, _("It stays in force."))
        return redirect(page.back_url)
    return render_page(request, "desk/plain_form.html", page, form=form, status=422 if form.errors else 200)


def refused(request: ActorRequest, page: FormPage) -> HttpResponse:
    """A clinician's hold, asked for by somebody else: said on the page, and nothing can be sent."""
    if request.method == "POST":
        raise PermissionDenied
    return render_page(request, "desk/cards_refused.html", page)


@roles(HEALTH)
@require_http_methods(FORM)
def restriction_lift(request: ActorRequest, pk: int) -> HttpResponse:
    row = get_object_or_404(queries.restrictions_to_read(request.actor), pk=pk)
    page = pages.lift_form_page(row)
    if row.lifted_at:
        messages.info(request, pages.nothing_new())
        return redirect(page.back_url)
    if not may_lift(request.actor, row):
        return refused(request, page)
    form = LiftForm(request.POST if request.method == "POST" else None, restriction=row)
    if form.is_valid():
        cards = actions.lift_restriction(actor=request.actor, restriction=row, **form.cleaned_data)
        messages.warning(request, f"{_('Lifted.')} {pages.reached(request.actor, row.athlete, cards)}")
        return redirect(page.back_url)
    return render_page(request, "desk/plain_form.html", page, form=form, status=422 if form.errors else 200)


@roles(HEALTH)
@require_POST
def restriction_again(request: ActorRequest, pk: int) -> HttpResponse:
    """Lifted by mistake."""
    row = get_object_or_404(queries.restrictions_to_read(request.actor), pk=pk)
    if row.lifted_at:
        cards = actions.restrict_again(actor=request.actor, restriction=row)
        messages.warning(request, f"{_('In force again.')} {pages.reached(request.actor, row.athlete, cards)}")
    else:
        messages.info(request, pages.nothing_new())
    return redirect(pages.health_url(row.athlete_id))


@roles(HEALTH)
@require_http_methods(FORM)
def pain_clear(request: ActorRequest, pk: int) -> HttpResponse:
    row = get_object_or_404(queries.pains_to_read(request.actor), pk=pk)
    page = pages.pain_form_page(row)
    form = ClearPainForm(request.POST if request.method == "POST" else None)
    if row.cleared_at:
        messages.info(request, pages.nothing_new())
        return redirect(page.back_url)
    if form.is_valid():
        cards = actions.clear_pain(actor=request.actor, report=row, **form.cleaned_data)
        messages.success(request, f"{_('Cleared.')} {pages.reached(request.actor, row.athlete, cards)}")
        return redirect(page.back_url)
    return render_page(request, "desk/plain_form.html", page, form=form, status=422 if form.errors else 200)


@roles(HEALTH)
@require_http_methods(FORM)
def red_flag_clear(request: ActorRequest, pk: int) -> HttpResponse:
    row = get_object_or_404(queries.flags_to_read(request.actor), pk=pk)
    page = pages.flag_form_page(row)
    form = ClearFlagForm(request.POST if request.method == "POST" else None, flag=row)
    if row.cleared_at:
        messages.info(request, pages.nothing_new())
        return redirect(page.back_url)
    if form.is_valid():
        actions.clear_red_flag(actor=request.actor, flag=row, **form.cleaned_data)
        messages.success(request, _("The clearance is recorded: the cards go on."))
        return redirect(page.back_url)
    return render_page(request, "desk/plain_form.html", page, form=form, status=422 if form.errors else 200)
