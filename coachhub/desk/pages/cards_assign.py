"""Giving a session: who would get what, shown before anything is written."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, Final, cast

from django.http import QueryDict

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.base.text import fold
from coachhub.cards import queries
from coachhub.cards.forms import AssignForm
from coachhub.cards.models import Assignment
from coachhub.cards.sheet import SheetLine
from coachhub.cards.words import amount_text, load_text, note_text
from coachhub.coaching.facts import Note
from coachhub.coaching.resolve import ResolvedCard, ResolvedLine
from coachhub.library.models import Venue
from coachhub.people.models import Athlete, AvailabilityStatus, Squad
from coachhub.plans.models import Session

FOUND_AT_MOST: Final = 20
# Steps that only derive the load; whoever asks why reads them on the card. Every other one is said here.
QUIET: Final = frozenset(
    {
        "fixed",
        "no_known_best",
        "known_best",
        "percent",
        "rir_percent",
        "rir_not_taught",
        "last_time",
        "start_load",
        "no_history",
        "rounded_down",
        "swap_no_load",
    }
)


@dataclass(frozen=True, slots=True)
class Column:
    """One line of the session as it was written; `dose` is the same for everyone, the load is not."""

    label: str
    name: str
    dose: str


@dataclass(frozen=True, slots=True)
class PreviewCell:
    """What one athlete gets on one line: `name` only where it is another exercise, `load` only where there is one."""

    column: Column
    is_dropped: bool
    name: str
    load: str
    why: tuple[str, ...]

    @property
    def is_plain(self) -> bool:
        return not (self.is_dropped or self.name or self.why)


@dataclass(frozen=True, slots=True)
class PreviewLine:
    """`holds`: the assignment on which they have it already; `others`: what else they have that day."""

    athlete: Athlete
    is_ticked: bool
    is_out: bool
    is_modified: bool
    waits: bool
    eased_after: int
    holds: int
    others: tuple[str, ...]
    cells: tuple[PreviewCell, ...]
    before: tuple[PreviewCell, ...]


@dataclass(frozen=True, slots=True)
class Preview:
    """`columns`: the lettered lines. What comes before or after them is told only where it differs."""

    session: Session
    squad: Squad | None
    venue: Venue
    on_date: date
    week: int
    columns: tuple[Column, ...]
    lines: tuple[PreviewLine, ...]
    is_unwritten: bool

    @property
    def is_past(self) -> bool:
        return self.on_date < today()

    @property
    def is_other_week(self) -> bool:
        return self.week not in self.session.weeks

    @property
    def eased(self) -> int:
        """How many come back from a break."""
        return sum(1 for line in self.lines if line.eased_after)

    @property
    def longest_break(self) -> int:
        return max((line.eased_after for line in self.lines), default=0)

    @property
    def swaps(self) -> int:
        return sum(1 for cell in self._cells if cell.name)

    @property
    def drops(self) -> int:
        return sum(1 for cell in self._cells if cell.is_dropped)

    @property
    def _cells(self) -> Iterable[PreviewCell]:
        return (cell for line in self.lines for cell in (*line.cells, *line.before))


@dataclass(frozen=True, slots=True)
class AssignPage:
    """`chosen`: single athletes; `found`: who a search by name has found besides; `missing`: `first_missing`."""

    name: str
    found: tuple[Athlete, ...]
    chosen: tuple[Athlete, ...]
    preview: Preview | None
    is_shown: bool
    missing: str

    @classmethod
    def of(
        cls, actor: Actor, form: AssignForm, query: QueryDict, *, ticked: Collection[int] | None = None
    ) -> AssignPage:
        """`ticked`: who was ticked in a preview that comes back; None ticks everyone who is not out."""
        data = form.cleaned_data if form.is_bound and form.is_valid() else None
        name, chosen = query.get("name", ""), chosen_athletes(actor, query)
        return cls(
            name=name,
            found=find(actor, name, chosen),
            chosen=chosen,
            preview=preview_for(actor, data, chosen, ticked) if data else None,
            is_shown=form.is_bound,
            missing="" if data else first_missing(form),
        )


def asked_form(actor: Actor, query: QueryDict) -> AssignForm:
    """What was asked for, checked once a preview is wanted; until then what is known stands in the fields."""
    if "venue" in query and "find" not in query:
        return AssignForm(query, actor=actor)
    known: dict[str, Any] = {name: value for name, value in query.items() if value}
    return AssignForm(actor=actor, initial={**likely(actor, query), **known})


def likely(actor: Actor, query: QueryDict) -> dict[str, Any]:
    """What goes with a session: the first of its weeks, its squad unless single athletes are named, the usual venue."""
    pk = query.get("session", "")
    found = (
        Session.objects.visible_to(actor).filter(pk=pk) if pk.isdecimal() and len(pk) < 19 else Session.objects.none()
    )
    session = found.select_related("plan").first()
    if session is None:
        return {"venue": usual_venue(None)}
    squad = None if query.getlist("athlete") else session.plan.squad_id
    return {"week": session.week_from, "squad": squad, "venue": usual_venue(squad)}


def usual_venue(squad: int | None) -> int | None:
    """The only one in use, else where the squad was given a session last."""
    in_use = list(Venue.objects.filter(archived_at=None).values_list("pk", flat=True)[:2])
    if len(in_use) < 2:
        return in_use[0] if in_use else None
    given = Assignment.objects.live().filter(squad=squad, venue__archived_at=None).exclude(squad=None)
    return given.order_by("-on_date", "-pk").values_list("venue", flat=True).first()


def sent_form(actor: Actor, query: QueryDict, sent: QueryDict) -> AssignForm:
    """The preview's own question, given to those who are ticked now."""
    merged = query.copy()
    merged.setlist("athlete", [])
    for name in sent:
        merged.setlist(name, sent.getlist(name))
    return AssignForm(merged, actor=actor)


def first_missing(form: AssignForm) -> str:
    """The field for which the club has nothing to choose from yet."""
    for name in ("session", "athlete", "venue"):
        if not cast(Any, form.fields[name]).queryset.exists():
            return name
    return ""


def chosen_athletes(actor: Actor, query: QueryDict) -> tuple[Athlete, ...]:
    if query.get("squad"):
        return ()
    ids = {int(pk) for pk in query.getlist("athlete") if pk.isdecimal() and len(pk) < 19}
    return tuple(Athlete.objects.visible_to(actor).live().filter(pk__in=ids)) if ids else ()


def members(actor: Actor, squad: Squad, on_date: date) -> tuple[Athlete, ...]:
    return tuple(Athlete.objects.visible_to(actor).members_of(squad.pk, on_date))


def find(actor: Actor, name: str, chosen: Sequence[Athlete]) -> tuple[Athlete, ...]:
    """Live athletes whose name holds every word, without those already chosen."""
    if not fold(name):
        return ()
    rows = Athlete.objects.visible_to(actor).live().exclude(pk__in=[athlete.pk for athlete in chosen])
    for word in fold(name).split():
        rows = rows.filter(search_key__contains=word)
    return tuple(rows[:FOUND_AT_MOST])


def preview_for(
    actor: Actor, data: dict[str, Any], chosen: Sequence[Athlete], ticked: Collection[int] | None
) -> Preview | None:
    """None where nobody was named; a squad without athletes has a preview without lines."""
    squad = data["squad"]
    if squad is None and not chosen:
        return None
    return preview_of(data, members(actor, squad, data["on_date"]) if squad else chosen, ticked)


def preview_of(data: dict[str, Any], athletes: Sequence[Athlete], ticked: Collection[int] | None) -> Preview:
    session, venue, on_date = data["session"], data["venue"], data["on_date"]
    rows = queries.preview(
        session=session, athletes=athletes, venue=venue, on_date=on_date, week=data["week"], squad=data["squad"]
    )
    ids = [athlete.pk for athlete in athletes]
    holds = queries.holders(session, on_date, venue, ids)
    others = queries.others_that_day(session, on_date, venue, ids)
    return Preview(
        session=session,
        squad=data["squad"],
        venue=venue,
        on_date=on_date,
        week=data["week"],
        columns=tuple(_columns(rows[0].card)) if rows else (),
        lines=tuple(_line(row, ticked, holds.get(row.athlete.pk, 0), others.get(row.athlete.pk, ())) for row in rows),
        is_unwritten=bool(rows) and not rows[0].card.lines,
    )


def _columns(card: ResolvedCard) -> Iterable[Column]:
    lettered = (line for resolved in card.groups if resolved.group.label for line in resolved.lines)
    return (_column(queries.line_to_be(line)) for line in lettered)


def _column(line: SheetLine) -> Column:
    return Column(line.label, line.written_name, f"{line.sets} × {amount_text(line)}")


def _line(row: queries.PreviewRow, ticked: Collection[int] | None, holds: int, others: tuple[str, ...]) -> PreviewLine:
    is_out = row.availability is AvailabilityStatus.OUT
    cells = [(bool(g.group.label), _cell(line, row.athlete.unit)) for g in row.card.groups for line in g.lines]
    return PreviewLine(
        athlete=row.athlete,
        is_ticked=(not is_out if ticked is None else row.athlete.pk in ticked) and not holds,
        is_out=is_out,
        is_modified=row.availability is AvailabilityStatus.MODIFIED,
        waits=row.waits,
        eased_after=queries.eased_after(row.card),
        holds=holds,
        others=others,
        cells=tuple(cell for is_lettered, cell in cells if is_lettered),
        before=tuple(cell for is_lettered, cell in cells if not is_lettered and not cell.is_plain),
    )


def _cell(resolved: ResolvedLine, unit: str) -> PreviewCell:
    line = queries.line_to_be(resolved)
    return PreviewCell(
        column=_column(line),
        is_dropped=line.is_dropped,
        name=line.name if line.is_swapped else "",
        load="" if line.is_dropped else load_text(line, unit),
        why=tuple(note_text(told) for told in _told(line)),
    )


def _told(line: SheetLine) -> Iterable[Note]:
    """The reasons, without what the cell says by itself."""
    return (told for told in line.trace if told.code not in QUIET and told.code not in ("swapped", "dropped"))
