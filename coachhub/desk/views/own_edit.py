"""Own activation work is added, changed, put in order, kept and ended."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from coachhub.base.actor import WRITERS, ActorRequest
from coachhub.base.clock import today
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.cards.actions import own_work
from coachhub.desk.pages.forms import FormPage
from coachhub.desk.pages.own import Kind, find_item, find_whose, item_form_page, list_url, list_words, renew_words, url
from coachhub.desk.plain import posted, render_form
from coachhub.desk.views.writing_order import step_of
from coachhub.plans.actions_own import OnListError
from coachhub.plans.forms_own import KeepOwnForm, OwnItemForm
from coachhub.plans.queries_own import positions_in

FORM = ["GET", "HEAD", "POST"]


@roles(WRITERS)
@require_http_methods(FORM)
def own_add(request: ActorRequest, pk: int, kind: Kind) -> HttpResponse:
    whose = find_whose(request.actor, kind, pk)
    positions = positions_in(whose.squad, today()) if whose.squad else []
    form = OwnItemForm(posted(request), positions=positions)
    page = item_form_page(_("Own activation: add an exercise"), url(f"own_{kind}", pk))
    if form.is_valid():
        whose = whose.playing(form.cleaned_data.get("player_position", ""))
        try:
            n = own_work.add_own_item(actor=request.actor, whose=whose, **form.values)
        except OnListError:
            form.tell_twin()
        else:
            return done(request, _("Added."), n, page.back_url)
    return render_item(request, page, form)


@roles(WRITERS)
@require_http_methods(FORM)
def own_item(request: ActorRequest, pk: int) -> HttpResponse:
    item = find_item(request.actor, pk)
    form = OwnItemForm(posted(request), item=item)
    page = item_form_page(_("Own activation of %(whose)s") % {"whose": list_words(item)}, list_url(item))
    if form.is_valid():
        try:
            n = own_work.edit_own_item(actor=request.actor, item=item, **form.values)
        except OnListError:
            form.tell_twin()
        else:
            return done(request, _("Saved."), n, page.back_url)
    return render_item(request, page, form)


@roles(WRITERS)
@require_POST
def own_item_move(request: ActorRequest, pk: int, way: str) -> HttpResponse:
    item = find_item(request.actor, pk)
    own_work.move_own_item(actor=request.actor, item=item, step=step_of(way))
    return redirect(list_url(item))


@roles(WRITERS)
@require_POST
def own_item_end(request: ActorRequest, pk: int) -> HttpResponse:
    item = find_item(request.actor, pk)
    n = own_work.end_own_item(actor=request.actor, item=item)
    return done(request, _("%(name)s has ended.") % {"name": item.exercise.name}, n, list_url(item))


@roles(WRITERS)
@require_http_methods(FORM)
def own_item_keep(request: ActorRequest, pk: int) -> HttpResponse:
    """The question was asked, and the answer is that it stays."""
    item = find_item(request.actor, pk)
    title = _("%(name)s stays, for %(whose)s") % {"name": item.exercise.name, "whose": list_words(item)}
    page = FormPage(title, _("It stays"), list_url(item))
    form = KeepOwnForm(posted(request))
    if form.is_valid():
        own_work.keep_own_item(actor=request.actor, item=item, **form.cleaned_data)
        return done(request, _("It stays."), 0, page.back_url)
    return render_form(request, form, page)


def render_item(request: ActorRequest, page: FormPage, form: OwnItemForm) -> HttpResponse:
    return render_page(request, "desk/own_item.html", page, form=form, status=422 if form.errors else 200)


def done(request: ActorRequest, told: str, n: int, back_url: str) -> HttpResponse:
    """Back to the list, with how many coming cards are now behind."""
    messages.success(request, f"{told} {renew_words(n)}".strip())
    return redirect(back_url)
