"""Sheets of the whole squad, and those for guardians, as PDF."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Final

from django.template.loader import render_to_string
from django.utils.translation import get_language

from coachhub.base.actor import Actor
from coachhub.cards.models import Assignment
from coachhub.cards.queries.patterns import patterns_on
from coachhub.cards.sheet import Sheet
from coachhub.paper.facts import coaches_of, guardians_of, known_of
from coachhub.paper.guardian_page import GuardianSheet, guardian_sheet
from coachhub.paper.kinds import Kind
from coachhub.paper.pdf import Setup
from coachhub.paper.press import print_documents
from coachhub.paper.roll_page import roll
from coachhub.paper.sizes import Size
from coachhub.paper.squad_page import staff_sheet, wall_sheet
from coachhub.people.models import Athlete, Club

SETUP: Final = Setup(stylesheet="print-sheets.css")


def sheet_pdf(
    kind: Kind, sheets: Sequence[Sheet], *, actor: Actor, assignment: Assignment, as_of: datetime, size: Size
) -> bytes:
    """Return one of the sheets as a tagged PDF. PrintingUnavailableError if this machine lacks the libraries."""
    template, context = _content(kind, sheets, actor, assignment, as_of)
    context |= {"lang": get_language(), "page_class": size.sheet_class, "kind": kind.value}
    return print_documents([render_to_string(f"paper/{template}.html", context)], SETUP)


def _content(
    kind: Kind, sheets: Sequence[Sheet], actor: Actor, assignment: Assignment, as_of: datetime
) -> tuple[str, dict[str, object]]:
    ids = [sheet.athlete_id for sheet in sheets]
    if kind is Kind.STAFF:
        squads = [assignment.squad] if assignment.squad else []
        return "squad", {"page": staff_sheet(sheets, known_of(actor, ids), squads, actor, as_of)}
    if kind is Kind.WALL:
        return "squad", {"page": wall_sheet(sheets, as_of)}
    if kind is Kind.GUARDIANS:
        return "guardians", {"pages": _for_guardians(sheets, assignment, as_of)}
    return "roll", {"page": roll(sheets, guardians_of(ids) if kind is Kind.ROLL_STAFF else None, as_of)}


def _for_guardians(sheets: Sequence[Sheet], assignment: Assignment, as_of: datetime) -> list[GuardianSheet]:
    children = minors(sheets)
    names = dict(Athlete.objects.filter(pk__in=[s.athlete_id for s in children]).values_list("pk", "given_name"))
    patterns = patterns_on([sheet.card_id for sheet in children])
    coaches, club = coaches_of(assignment.squad_id), Club.objects.get()
    return [
        guardian_sheet(
            sheet,
            given_name=names[sheet.athlete_id],
            patterns=patterns.get(sheet.card_id, frozenset()),
            coaches=coaches,
            club=club.name,
            as_of=as_of,
        )
        for sheet in children
    ]


def minors(sheets: Sequence[Sheet]) -> list[Sheet]:
    return [sheet for sheet in sheets if sheet.is_minor]
