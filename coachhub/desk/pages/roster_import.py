"""What the pages of an import show: the upload, its columns, and what it would change."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any, Final

from django.core.paginator import Page, Paginator
from django.forms import BoundField
from django.shortcuts import get_object_or_404
from django.utils.functional import Promise
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.base.changes import Change, Outcome, RowState, count_states, digest
from coachhub.base.clock import now
from coachhub.base.columns import Reading
from coachhub.desk.pages.roster_kinds import SORTS, ImportSort
from coachhub.people.forms_files import MatchForm, field_name, guess_reading
from coachhub.people.models import Club, ImportDraft, ImportDraftQuerySet, ImportKind
from coachhub.people.queries import live_squads

PAGED_AT: Final = 50
_SHOWN_ROWS: Final = 3
# More than these is a file read in the wrong unit.
_MOST_DOUBTED: Final = 100
_CSS: Final = {RowState.ERROR: "stop", RowState.NEW: "fine", RowState.UPDATED: "care", RowState.UNCHANGED: ""}
_ORDER: Final = {state: place for place, state in enumerate(RowState)}


@dataclass(frozen=True, slots=True)
class UploadPage:
    sort: ImportSort
    needed: list[str | Promise]
    others: list[str | Promise]

    @classmethod
    def of(cls, actor: Actor, kind: ImportKind) -> UploadPage:
        sort = SORTS[kind]
        needed = needed_of(actor, sort)
        return cls(sort, needed, [column.label for column in sort.columns if column.label not in needed])


def needs_squad(actor: Actor, sort: ImportSort) -> bool:
    """Without a squad only the owner would find somebody new again."""
    return sort.kind == ImportKind.ROSTER and not actor.sees_all


def needed_of(actor: Actor, sort: ImportSort) -> list[str | Promise]:
    wants_squad = needs_squad(actor, sort)
    return [c.label for c in sort.columns if c.is_required or (wants_squad and c.key == "squad")]


@dataclass(frozen=True, slots=True)
class FieldGroup:
    title: str
    fields: list[BoundField]


@dataclass(frozen=True, slots=True)
class MatchPage:
    """The columns under their headings, then how the cells are to be read; and the first rows of the file."""

    sort: ImportSort
    draft: ImportDraft
    groups: list[FieldGroup]
    headers: tuple[str, ...]
    rows: list[tuple[str, ...]]
    count: int
    remarks: tuple[str, ...]
    needed: list[str | Promise]

    @classmethod
    def of(cls, actor: Actor, draft: ImportDraft, form: MatchForm) -> MatchPage:
        sort, table = SORTS[ImportKind(draft.kind)], draft.as_table()
        rows = [row.cells for row in table.rows[:_SHOWN_ROWS]]
        return cls(
            sort=sort,
            draft=draft,
            groups=groups_of(sort, form),
            headers=table.headers,
            rows=rows,
            count=len(table.rows),
            remarks=table.remarks,
            needed=needed_of(actor, sort),
        )


def groups_of(sort: ImportSort, form: MatchForm) -> list[FieldGroup]:
    titles = dict.fromkeys(str(column.group) for column in sort.columns)
    groups = [
        FieldGroup(title, [form[field_name(c.key)] for c in sort.columns if str(c.group) == title]) for title in titles
    ]
    rest = [form[name] for name in ("day_order", "unit", "squad", "what") if name in form.fields]
    return [*groups, FieldGroup(_("How to read it"), rest)]


def match_form(actor: Actor, draft: ImportDraft, data: Any) -> MatchForm:
    sort, table = SORTS[ImportKind(draft.kind)], draft.as_table()
    club = Club.objects.first() or Club()
    squads, wants_squad = live_squads(actor), needs_squad(actor, sort)
    asks_squad = wants_squad or sort.kind == ImportKind.SEASON
    only = squads[0].pk if asks_squad and len(squads) == 1 else None
    first = replace(guess_reading(table, sort.columns, sort.day_key, club.unit), squad=only)
    guess = draft.as_reading() or first
    return MatchForm(
        data, kind=sort.kind, table=table, columns=sort.columns, squads=squads, guess=guess, whats=sort.whats
    )


@dataclass(frozen=True, slots=True)
class OutcomeLine:
    number: int
    name: str
    state: str
    css: str
    changes: tuple[Change, ...]
    errors: tuple[str, ...]
    doubt: str

    @classmethod
    def of(cls, outcome: Outcome[Any]) -> OutcomeLine:
        state = outcome.state
        name = outcome.name or _("nobody yet")
        return cls(
            number=outcome.number,
            name=name,
            state=str(state.label),
            css=_CSS[state],
            changes=outcome.changes,
            errors=outcome.errors,
            doubt=outcome.doubt,
        )


@dataclass(frozen=True, slots=True)
class PreviewPage:
    """`digest` stands for what is shown on all pages: only that is written. `to_write`: rows that need no tick."""

    sort: ImportSort
    draft: ImportDraft
    pager: Page[Outcome[Any]]
    lines: list[OutcomeLine]
    counts: dict[str, int]
    to_write: int
    doubted: list[OutcomeLine]
    more_doubted: int
    remarks: tuple[str, ...]
    digest: str

    @classmethod
    def of(cls, actor: Actor, draft: ImportDraft, reading: Reading, number: str) -> PreviewPage:
        sort, table = SORTS[ImportKind(draft.kind)], draft.as_table()
        outcomes = sort.review(actor, table, reading)
        counts, doubted = count_states(outcomes), [outcome for outcome in outcomes if outcome.doubt]
        pager = Paginator(sorted(outcomes, key=lambda o: _ORDER[o.state]), PAGED_AT).get_page(number)
        return cls(
            sort=sort,
            draft=draft,
            pager=pager,
            lines=[OutcomeLine.of(outcome) for outcome in pager.object_list],
            counts=counts,
            to_write=counts["new"] + counts["updated"] - len(doubted),
            doubted=[OutcomeLine.of(outcome) for outcome in doubted[:_MOST_DOUBTED]],
            more_doubted=max(0, len(doubted) - _MOST_DOUBTED),
            remarks=table.remarks,
            digest=digest(outcomes),
        )


def own_drafts(actor: Actor) -> ImportDraftQuerySet:
    return ImportDraft.objects.live_of(actor.user_id, now())


def find_draft(actor: Actor, pk: int) -> ImportDraft:
    """404 for anybody else's, or one that has expired."""
    return get_object_or_404(own_drafts(actor), pk=pk)
