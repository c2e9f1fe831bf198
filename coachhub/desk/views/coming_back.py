"""A coach of the athlete or a clinician says how far the way back has come."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from coachhub.base.actor import HEALTH, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.cards.actions.coming_back import set_return_stage
from coachhub.cards.forms_return import ReturnForm
from coachhub.desk.pages.athletes import find_athlete
from coachhub.desk.pages.coming_back import ComingBackPage
from coachhub.desk.pages.own import renew_words
from coachhub.desk.plain import posted


@roles(HEALTH)
@require_http_methods(["GET", "HEAD", "POST"])
def return_stage(request: ActorRequest, pk: int) -> HttpResponse:
    page = ComingBackPage.of(request.actor, find_athlete(request.actor, pk))
    form = ReturnForm(posted(request), is_coming_back=page.now is not None)
    if form.is_valid():
        n = set_return_stage(actor=request.actor, athlete=page.athlete, **form.cleaned_data)
        messages.success(request, f"{_('Set.')} {renew_words(n)}" if n else _("Set."))
        return redirect("desk:return_stage", pk=pk)
    return render_page(request, "desk/return_stage.html", page, form=form, status=422 if form.errors else 200)
