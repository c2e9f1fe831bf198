from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_POST, require_safe

from coachhub.base.actor import HEALTH, READERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.cards import actions
from coachhub.cards.forms_health import CopiesForm
from coachhub.desk.pages.waiting import WaitingPage


@roles(HEALTH)
@require_safe
def waiting(request: ActorRequest) -> HttpResponse:
    """A clinician's first page."""
    return render_page(request, "desk/waiting.html", WaitingPage.of(request.actor))


@roles(READERS)
@require_POST
def copies_answer(request: ActorRequest) -> HttpResponse:
    form = CopiesForm(request.POST)
    if form.is_valid():
        told = form.cleaned_data
        n = actions.answer_copies(actor=request.actor, copy_ids=told["copy"], kind=told["kind"])
        messages.success(request, ngettext("%(n)s copy is ticked off.", "%(n)s copies are ticked off.", n) % {"n": n})
    else:
        messages.error(request, _("Nothing was ticked off: choose the copies first."))
    if request.POST.get("back") == "today" or not request.actor.sees_health:
        return redirect("desk:today")
    return redirect("desk:waiting")
