"""Finds what an address of the gym names, among what the actor may see; else 404."""

from __future__ import annotations

from django.http import Http404, QueryDict

from coachhub.base.actor import Actor
from coachhub.cards.models import Card
from coachhub.cards.queries import as_seen, load_sheet
from coachhub.cards.queries.taps import Part, load_part
from coachhub.cards.sheet import Sheet, SheetGroup
from coachhub.people.models import Athlete


def find_sheet(actor: Actor, pk: int) -> Sheet:
    sheet = load_sheet(Card.objects.visible_to(actor), pk)
    if sheet is None:
        raise Http404
    return sheet


def find_card(actor: Actor, pk: int) -> Card:
    card = Card.objects.visible_to(actor).filter(pk=pk).select_related("assignment").first()
    if card is None:
        raise Http404
    return card


def find_athlete(actor: Actor, sheet: Sheet) -> Athlete:
    athlete = Athlete.objects.visible_to(actor).filter(pk=sheet.athlete_id).first()
    if athlete is None:
        raise Http404
    return athlete


def find_self(actor: Actor) -> Athlete:
    """The athlete whose phone this is."""
    athlete = Athlete.objects.filter(pk__in=actor.athlete_ids).first()
    if athlete is None:
        raise Http404
    return athlete


def find_part(actor: Actor, pk: int, data: QueryDict) -> Part | None:
    """The blocks that a tap names, as they stood on the page that sent it; None where there are none."""
    revision, number = figure_of(data, "revision"), figure_of(data, "round")
    if revision is None:
        return None
    return load_part(actor, pk, keys=data.getlist("group"), revision=revision, number=number)


def figure_of(data: QueryDict, name: str) -> int | None:
    text = data.get(name, "")
    return int(text) if text.isdecimal() and len(text) < 10 else None


def sheet_as_sent(sheet: Sheet, data: QueryDict) -> Sheet:
    """The card as it stood on the page that sent this: what was done is what was read there."""
    number = figure_of(data, "revision")
    return sheet if number is None else as_seen(sheet, number)


def find_round(sheet: Sheet, key: str, number: int) -> SheetGroup:
    group = sheet.group(key)
    if group is None or not group.written_or_planned(number):
        raise Http404
    return group
