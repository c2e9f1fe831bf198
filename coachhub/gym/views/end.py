"""A session's end."""

from __future__ import annotations

from django.db import DatabaseError
from django.http import HttpResponse
from django.shortcuts import redirect
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods

from coachhub.base.actor import FLOOR, ActorKind, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.gym.find import find_card, find_sheet
from coachhub.gym.pages.end import EndPage, Said, end_form
from coachhub.insight.actions import end_session


@roles(FLOOR, ActorKind.ATHLETE)
@require_http_methods(["GET", "HEAD", "POST"])
@never_cache
def end(request: ActorRequest, pk: int) -> HttpResponse:
    sheet = find_sheet(request.actor, pk)
    said = Said.of(request.actor, sheet)
    form = end_form(sheet, request.actor, said, request.POST if request.method == "POST" else None)
    if not form.is_valid():
        page = EndPage.of(sheet, request.actor, form, said)
        return render_page(request, "gym/end.html", page, form=form, status=422 if form.is_bound else 200)
    try:
        end_session(actor=request.actor, card=find_card(request.actor, pk), **form.values())
    except DatabaseError:
        page = EndPage.of(sheet, request.actor, form, said, is_unsent=True)
        return render_page(request, "gym/end.html", page, form=form, status=503)
    return redirect("gym:end", pk=pk)
