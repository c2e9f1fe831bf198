"""What differs from week to week in a session."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from coachhub.base.actor import WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages.weeks import WeeksPage
from coachhub.desk.pages.writing import open_session, session_url
from coachhub.plans import actions_weeks
from coachhub.plans.forms_weeks import WeeksForm
from coachhub.plans.queries import weeks_of


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def session_weeks(request: ActorRequest, pk: int) -> HttpResponse:
    tree = open_session(request.actor, to_edit=True, pk=pk)
    form = WeeksForm(request.POST if request.method == "POST" else None, tree=tree, values=weeks_of(tree.session))
    if form.is_valid():
        if actions_weeks.set_weeks(actor=request.actor, session=tree.session, cells=form.cells):
            messages.success(request, _("Saved."))
        return redirect(session_url(tree.session))
    status = 422 if form.errors else 200
    return render_page(request, "desk/session_weeks.html", WeeksPage.of(form), form=form, status=status)
