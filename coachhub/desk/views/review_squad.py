"""The checks of a squad's fortnight, and answers to them."""

from __future__ import annotations

from django.db.models import Q
from django.http import Http404, HttpResponse, QueryDict
from django.shortcuts import get_object_or_404, redirect
from django.views.decorators.http import require_POST, require_safe

from coachhub.base.actor import READERS, WRITERS, Actor, ActorRequest
from coachhub.base.clock import today
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages.review import posted_ids
from coachhub.desk.pages.review_squad import SquadChecks, squad_checks_url
from coachhub.desk.views.review import say_if_gone, took_back
from coachhub.people.models import Athlete, Squad
from coachhub.people.queries import live_squads
from coachhub.plans.actions_review import About, accept_finding
from coachhub.plans.forms_review import AcceptForm


@roles(READERS)
@require_safe
def squad_checks(request: ActorRequest, pk: int) -> HttpResponse:
    page = SquadChecks.of(request.actor, pk, from_on=request.GET.get("from", ""), at=request.GET.get("at", ""))
    return render_page(request, "desk/squad_review.html", page, partial="found")


@roles(WRITERS)
@require_POST
def squad_answer(request: ActorRequest, pk: int) -> HttpResponse:
    """About some of its athletes, or about the floor of one of its sessions."""
    squad, from_on = get_object_or_404(live_squads(request.actor), pk=pk), request.POST.get("from", "")
    back = squad_checks_url(pk, from_on, request.POST.get("at", ""))
    if took_back(request, Q(squad=squad) | Q(athlete__in=athletes_of(request.actor, squad))):
        return redirect(back)
    form = AcceptForm(request.POST)
    if form.is_valid():
        abouts = abouts_of(request.actor, squad, request.POST)
        accept_finding(actor=request.actor, abouts=abouts, **form.cleaned_data)
        return redirect(back)
    say_if_gone(request, form)
    page = SquadChecks.of(request.actor, pk, from_on=from_on, refused=form)
    return render_page(request, "desk/squad_review.html", page, partial="found", status=422)


def athletes_of(actor: Actor, squad: Squad) -> list[Athlete]:
    return list(Athlete.objects.visible_to(actor).members_of(squad.pk, today()))


def abouts_of(actor: Actor, squad: Squad, data: QueryDict) -> list[About]:
    """One that is not of the squad makes all of it not found."""
    asked = set(posted_ids(data, "athlete"))
    if not asked:
        return [About(squad=squad)]
    athletes = [athlete for athlete in athletes_of(actor, squad) if athlete.pk in asked]
    if len(athletes) < len(asked):
        raise Http404
    return [About(athlete=athlete) for athlete in athletes]
