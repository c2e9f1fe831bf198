from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from coachhub.base.actor import WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.desk.pages import guardians as pages
from coachhub.desk.pages.athletes import find_athlete
from coachhub.desk.plain import posted, render_form
from coachhub.people import actions
from coachhub.people.forms_guardians import ConsentForm, WithdrawForm
from coachhub.people.queries_care import signer_of

FORM = ["GET", "HEAD", "POST"]


@roles(WRITERS)
@require_http_methods(FORM)
def consent_give(request: ActorRequest, pk: int) -> HttpResponse:
    athlete = find_athlete(request.actor, pk)
    page = pages.give_page(athlete)
    first = {"kind": request.GET.get("kind", ""), "given_by": signer_of(athlete)}
    form = ConsentForm(posted(request), athlete=athlete, initial=first)
    if form.is_valid():
        try:
            actions.give_consent(actor=request.actor, athlete=athlete, **form.cleaned_data)
        except ValidationError as error:
            form.add_error(None, error)
        else:
            messages.success(request, _("On file."))
            return redirect(page.back_url)
    return render_form(request, form, page)


@roles(WRITERS)
@require_http_methods(FORM)
def consent_withdraw(request: ActorRequest, pk: int, consent_pk: int) -> HttpResponse:
    athlete = find_athlete(request.actor, pk)
    row = get_object_or_404(athlete.consents.select_related("athlete"), pk=consent_pk)
    page = pages.withdraw_page(row)
    if row.withdrawn_on:
        messages.info(request, _("This was done already."))
        return redirect(page.back_url)
    form = WithdrawForm(posted(request), consent=row)
    if form.is_valid():
        actions.withdraw_consent(actor=request.actor, consent=row, **form.cleaned_data)
        messages.success(request, _("Withdrawn."))
        return redirect(page.back_url)
    return render_form(request, form, page)
