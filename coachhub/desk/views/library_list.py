from __future__ import annotations

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from coachhub.base.actor import STAFF, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages.library import LibraryPage
from coachhub.library.forms import LibraryFilter


@roles(STAFF)
@require_safe
def library(request: ActorRequest) -> HttpResponse:
    """The exercises, found as people type."""
    form = LibraryFilter(request.GET)
    page = LibraryPage.of(form, request.GET.get("page", ""))
    return render_page(request, "desk/library.html", page, partial="found", form=form)
