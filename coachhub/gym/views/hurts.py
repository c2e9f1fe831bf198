"""Pain and red flags: said at once, and never lost silently."""

from __future__ import annotations

from django.db import DatabaseError
from django.http import Http404, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from coachhub.base.actor import FLOOR, ActorKind, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.cards.actions import report_pain, report_red_flag
from coachhub.gym.find import find_athlete, find_sheet
from coachhub.gym.forms import PainForm, RedFlagForm
from coachhub.gym.pages.hurts import HELD, NOTHING, OFF, SORE, STOP, HurtsPage, ToldPage, told_after
from coachhub.people.models import RedFlagKind


@roles(FLOOR, ActorKind.ATHLETE)
@require_http_methods(["GET", "HEAD", "POST"])
@never_cache
def hurts(request: ActorRequest, pk: int) -> HttpResponse:
    sheet = find_sheet(request.actor, pk)
    form = PainForm(request.POST if request.method == "POST" else None)
    if not form.is_valid():
        page = HurtsPage.of(sheet, request.actor, form)
        return render_page(request, "gym/hurts.html", page, form=form, status=422 if form.is_bound else 200)
    told = form.values()
    try:
        report_pain(actor=request.actor, athlete=find_athlete(request.actor, sheet), **told)
    except DatabaseError:
        page = HurtsPage.of(sheet, request.actor, form, is_unsent=True)
        return render_page(request, "gym/hurts.html", page, form=form, status=503)
    what = told_after(sheet, score=told["score"], is_sore_only=told["is_sore_only"])
    return redirect("gym:told", pk=pk, what=what)


@roles(FLOOR, ActorKind.ATHLETE)
@require_POST
@never_cache
def red_flag(request: ActorRequest, pk: int) -> HttpResponse:
    """One tap, and the card stops."""
    sheet = find_sheet(request.actor, pk)
    form = RedFlagForm(request.POST)
    try:
        if form.is_valid():
            kind, uuid = RedFlagKind(form.cleaned_data["kind"]), form.cleaned_data["uuid"]
            report_red_flag(actor=request.actor, athlete=find_athlete(request.actor, sheet), uuid=uuid, kind=kind)
            return redirect("gym:told", pk=pk, what=STOP)
    except DatabaseError:
        pass
    blank = PainForm()
    page = HurtsPage.of(sheet, request.actor, blank, is_unsent=True)
    return render_page(request, "gym/hurts.html", page, form=blank, status=422 if form.errors else 503)


@roles(FLOOR, ActorKind.ATHLETE)
@require_safe
@never_cache
def told(request: ActorRequest, pk: int, what: str) -> HttpResponse:
    """What happens now, in plain words."""
    if what not in (STOP, OFF, HELD, SORE, NOTHING):
        raise Http404
    return render_page(request, "gym/told.html", ToldPage.of(find_sheet(request.actor, pk), what))
