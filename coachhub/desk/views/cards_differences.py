from __future__ import annotations

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from coachhub.base.actor import READERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages.cards_differences import DifferencesPage


@roles(READERS)
@require_safe
def assignment_differences(request: ActorRequest, pk: int) -> HttpResponse:
    """What renewing would change, athlete by athlete."""
    return render_page(request, "desk/cards_differences.html", DifferencesPage.of(request.actor, pk))
