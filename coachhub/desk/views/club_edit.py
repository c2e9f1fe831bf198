from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from coachhub.base.actor import ActorKind, ActorRequest
from coachhub.base.gates import roles
from coachhub.desk.pages.forms import FormPage
from coachhub.desk.plain import posted, render_form
from coachhub.people import actions
from coachhub.people.forms import ClubForm
from coachhub.people.models import Club


@roles(ActorKind.OWNER)
@require_http_methods(["GET", "HEAD", "POST"])
def club(request: ActorRequest) -> HttpResponse:
    row = get_object_or_404(Club)
    form = ClubForm(posted(request), instance=row)
    if form.is_valid():
        actions.edit_club(actor=request.actor, club=row, **form.cleaned_data)
        messages.success(request, _("Saved."))
        return redirect("desk:club")
    return render_form(request, form, FormPage(_("The club"), _("Save"), reverse("desk:squads")))
