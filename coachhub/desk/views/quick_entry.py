"""Paper cards typed in."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods

from coachhub.base.actor import FLOOR, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.cards import actions
from coachhub.cards.forms_quick import QuickForm
from coachhub.desk.pages.quick_entry import cards_of, find_desk, quick_page


@roles(FLOOR)
@require_http_methods(["GET", "HEAD", "POST"])
@never_cache
def quick_entry(request: ActorRequest, pk: int) -> HttpResponse:
    """All or nothing: where one box cannot be read, all that was typed is shown again and nothing is written."""
    is_sent = request.method == "POST"
    desk = find_desk(request.actor, pk, request.GET, request.POST)
    form = QuickForm(request.POST if is_sent else None, desk.sheets, desk.keys)
    if not is_sent or not form.is_valid():
        page = quick_page(desk, form, is_sent=is_sent)
        return render_page(request, "desk/quick_entry.html", page, status=422 if is_sent else 200)
    drafts = form.drafts()
    count = actions.log_cards(actor=request.actor, cards=cards_of(request.actor, desk, drafts), drafts=drafts)
    if count:
        messages.success(request, ngettext("%(n)s set written.", "%(n)s sets written.", count) % {"n": count})
    else:
        messages.info(request, _("Nothing new: all of this is written already."))
    return redirect(request.get_full_path())
