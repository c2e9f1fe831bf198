from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods

from coachhub.base.actor import WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.cards.actions.fitting import give_extra
from coachhub.cards.forms_extra import ExtraForm
from coachhub.cards.queries.extra import extra_for
from coachhub.coaching.fitting import HARDLY_PLAYED_MINUTES
from coachhub.desk.pages.calendar_dates import find_match, played_in
from coachhub.desk.pages.calendar_edit import find_for_writing
from coachhub.desk.pages.forms import FormPage
from coachhub.desk.plain import posted, render_form


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def match_extra(request: ActorRequest, pk: int) -> HttpResponse:
    """An extra session for those who hardly played, on an hour of the squad after the match."""
    match = find_for_writing(request.actor, find_match(request.actor, pk))
    form = ExtraForm(posted(request), extra=extra_for(request.actor, match, played_in(match)))
    if form.is_valid():
        given = give_extra(actor=request.actor, match=match, **form.cleaned_data)
        n = len(form.cleaned_data["athletes"])
        messages.success(request, ngettext("Given to %(n)d athlete.", "Given to %(n)d athletes.", n) % {"n": n})
        return redirect("desk:assignment", pk=given.pk)
    intro = _("Who played under %(most)d minutes, where minutes are noted.") % {"most": HARDLY_PLAYED_MINUTES}
    back_url = reverse("desk:match", kwargs={"pk": pk})
    return render_form(request, form, FormPage(_("Extra after the match"), _("Give the session"), back_url, intro))
