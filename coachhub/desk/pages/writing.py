"""What the page on which a session is written shows."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Literal
from urllib.parse import urlencode

from django.http import Http404
from django.urls import reverse
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from coachhub.base.actor import Actor
from coachhub.base.models import SegmentKind
from coachhub.coaching.rest import format_rest, format_rest_range
from coachhub.desk.pages.given import GivenPanel
from coachhub.desk.pages.patterns import PatternsPanel
from coachhub.desk.pages.review import FindingList, session_findings
from coachhub.desk.pages.timing import TimePanel
from coachhub.library.models import Direction
from coachhub.plans import queries
from coachhub.plans.access import may_edit
from coachhub.plans.dose import show_dose
from coachhub.plans.forms import SegmentForm
from coachhub.plans.forms_review import AcceptForm
from coachhub.plans.models import Removal, Session
from coachhub.plans.reading import Reading
from coachhub.plans.tree import Block, Line, Part, SessionTree

EditorKind = Literal["line", "add", "block", "part", "new part"]


@dataclass(frozen=True, slots=True)
class Editor:
    """What is open for writing: a line, a new line in a block, a block's head, a part; `pk` of that row.

    A new part is open at the session's foot; its `pk` is the session's.
    """

    kind: EditorKind
    pk: int
    form: Any
    post_url: str
    reading: Reading | None = None

    @property
    def status(self) -> int:
        return 422 if self.form.is_bound and self.form.errors else 200


@dataclass(frozen=True, slots=True)
class LineRow:
    """`place`: where it stands, as a sentence for who cannot see it move."""

    line: Line
    dose: str
    place: str
    remarks: tuple[str, ...]
    editor: Editor | None


@dataclass(frozen=True, slots=True)
class BlockRows:
    block: Block
    title: str
    head: tuple[str, ...]
    lines: tuple[LineRow, ...]
    head_editor: Editor | None
    add_editor: Editor | None
    next_label: str
    rounds: str


@dataclass(frozen=True, slots=True)
class PartRows:
    part: Part
    name: str | Promise
    minutes: str
    blocks: tuple[BlockRows, ...]
    editor: Editor | None


@dataclass(frozen=True, slots=True)
class Shown:
    """How the page is opened: for moving and removing; `at` what was just worked on, such as line-12, so that the
    keyboard goes on from there; `undo` the removal just made; `is_gone` one that could not be put back.
    """

    is_arranging: bool = False
    at: str = ""
    undo: int | None = None
    is_gone: bool = False

    @classmethod
    def of(cls, query: Mapping[str, str]) -> Shown:
        undo = query.get("undo", "")
        return cls("arrange" in query, query.get("at", ""), int(undo) if undo.isdecimal() else None, "gone" in query)

    @property
    def query(self) -> str:
        given = {"arrange": int(self.is_arranging), "at": self.at, "undo": self.undo, "gone": int(self.is_gone)}
        return urlencode({name: value for name, value in given.items() if value})


@dataclass(frozen=True, slots=True)
class SessionPage:
    """While it is arranged, what was removed stands beside it in place of what was given."""

    session: Session
    parts: tuple[PartRows, ...]
    patterns: PatternsPanel
    checks: FindingList | None
    given: GivenPanel | None
    removed: tuple[Removal, ...]
    time: TimePanel
    counts: tuple[tuple[str, str], ...]
    part_form: Any
    may_edit: bool
    may_give: bool
    shown: Shown

    @property
    def is_arranging(self) -> bool:
        return self.shown.is_arranging

    @property
    def at_line(self) -> int | None:
        return self._at("line")

    @property
    def at_block(self) -> int | None:
        return self._at("block")

    def _at(self, wanted: str) -> int | None:
        kind, _dash, pk = self.shown.at.partition("-")
        return int(pk) if kind == wanted and pk.isdecimal() else None

    @classmethod
    def of(
        cls,
        actor: Actor,
        tree: SessionTree,
        *,
        editor: Editor | None = None,
        shown: Shown | None = None,
        refused: AcceptForm | None = None,
    ) -> SessionPage:
        """`refused`: an answer to a finding that could not be taken."""
        shown = shown or Shown()
        session, known = tree.session, queries.movements(line.exercise.pk for line in tree.lines)
        is_live = not (session.is_archived or session.plan.is_archived)
        return cls(
            session=session,
            parts=part_rows(tree, editor),
            patterns=PatternsPanel.of(tree, known),
            checks=session_findings(actor, tree, known, refused),
            given=None if shown.is_arranging else GivenPanel.of(actor, session),
            removed=tuple(queries.removals_of(session)) if shown.is_arranging else (),
            time=TimePanel.of(tree),
            counts=tuple(_counts(tree)),
            part_form=editor.form if editor and editor.kind == "new part" else _part_form(tree),
            may_edit=may_edit(actor, session.plan) and is_live,
            may_give=actor.may_write and bool(tree.lines) and is_live,
            shown=shown,
        )


def open_session(actor: Actor, *, to_edit: bool = False, **where: int) -> SessionTree:
    """The one session that fits `where`; 404 where there is none that the actor may see, or may change."""
    seen = Session.objects.editable_by(actor) if to_edit else Session.objects.visible_to(actor)
    try:
        return queries.load_session(seen.filter(**where), facts=())
    except Session.DoesNotExist:
        raise Http404 from None


def find_part(tree: SessionTree, pk: int) -> Part:
    return next(part for part in tree.parts if part.row.pk == pk)


def find_block(tree: SessionTree, pk: int) -> Block:
    return next(block for block in tree.blocks if block.row.pk == pk)


def find_line(tree: SessionTree, pk: int) -> tuple[Block, Line]:
    return next((block, line) for block in tree.blocks for line in block.lines if line.row.pk == pk)


def session_url(session: Session, at: str = "", **shown: Any) -> str:
    """The session's page, opened as `Shown` says."""
    url, query = reverse("desk:session", kwargs={"pk": session.pk}), Shown(at=at, **shown).query
    return f"{url}?{query}" if query else url


def block_title(block: Block) -> str:
    return labelled(block.label)


def labelled(letter: str) -> str:
    """ "Block A"; in the parts without letters only "Block"."""
    return _("Block %s") % letter if letter else _("Block")


def _part_form(tree: SessionTree) -> SegmentForm:
    """For a part more; the first kind that the session has not got yet is chosen."""
    present = {part.row.kind for part in tree.parts}
    kind = next((code for code in SegmentKind.values if code not in present), SegmentKind.STRENGTH)
    return SegmentForm(initial={"kind": kind}, auto_id="new_%s")


def part_rows(tree: SessionTree, editor: Editor | None = None) -> tuple[PartRows, ...]:
    labels = {line.row.pk: line.label for line in tree.lines}
    return tuple(_part(part, labels, editor) for part in tree.parts)


def _part(part: Part, labels: dict[int, str], editor: Editor | None) -> PartRows:
    return PartRows(
        part=part,
        name=part.row.get_kind_display(),
        minutes=_("%(n)s min") % {"n": part.row.minutes} if part.row.minutes else "",
        blocks=tuple(_block(block, labels, editor) for block in part.blocks),
        editor=_if(editor, "part", part.row.pk),
    )


def _block(block: Block, labels: dict[int, str], editor: Editor | None) -> BlockRows:
    return BlockRows(
        block=block,
        title=block_title(block),
        head=tuple(_head(block)),
        lines=tuple(_line(line, n, block, labels, editor) for n, line in enumerate(block.lines, 1)),
        head_editor=_if(editor, "block", block.row.pk),
        add_editor=_if(editor, "add", block.row.pk),
        next_label=f"{block.label}{len(block.lines) + 1}" if block.label else "",
        rounds=str(block.rounds).replace("-", "–"),
    )


def _line(line: Line, number: int, block: Block, labels: dict[int, str], editor: Editor | None) -> LineRow:
    place = _("%(label)s %(name)s: place %(n)s of %(all)s in %(block)s") % {
        "label": line.label,
        "name": line.exercise.name,
        "n": number,
        "all": len(block.lines),
        "block": block_title(block) if block.label else block.row.segment.get_kind_display(),
    }
    remarks = tuple(_remarks(line, labels))
    return LineRow(line, show_dose(line.written), place, remarks, _if(editor, "line", line.row.pk))


def _if(editor: Editor | None, kind: EditorKind, pk: int) -> Editor | None:
    return editor if editor and (editor.kind, editor.pk) == (kind, pk) else None


def _head(block: Block) -> Iterator[str]:
    """Behind the rounds: how the block is rested and what it is for."""
    row = block.row
    if len(block.lines) > 1 and row.rounds_max > 1 and not any(line.row.rest_after_s for line in block.lines):
        yield _("straight through")
    if row.rest_min_s is not None:
        rest = format_rest_range(row.rest_min_s, row.rest_max_s)
        yield _("rest %(rest)s after a round") % {"rest": rest}
    if row.rest_note:
        yield row.rest_note
    if row.rest_after_s:
        yield _("%(rest)s after the block") % {"rest": format_rest(row.rest_after_s)}
    if row.intent:
        yield row.intent


def _remarks(line: Line, labels: dict[int, str]) -> Iterator[str]:
    row = line.row
    if row.is_by_level:
        yield _("each athlete's own level")
    if row.cue:
        yield row.cue
    if row.ramp_up_sets:
        yield _("ramp-up sets: %(n)s") % {"n": row.ramp_up_sets}
    if row.rest_after_s:
        yield _("rest %(rest)s") % {"rest": format_rest(row.rest_after_s)}
    if row.directions:
        yield ", ".join(str(Direction(code).label) for code in row.directions)
    if row.pair_with_id in labels:
        yield _("pairs with %(label)s") % {"label": labels[row.pair_with_id]}
    if line.week_count:
        yield ngettext("other in %(n)s week", "other in %(n)s weeks", line.week_count) % {"n": line.week_count}
    if line.swaps:
        yield _("swap: %(names)s") % {"names": ", ".join(one.name for one in line.swaps)}


def _counts(tree: SessionTree) -> Iterator[tuple[str, str]]:
    lettered = [block for block in tree.blocks if block.label]
    yield _("Blocks"), str(len(lettered))
    yield _("Exercises in blocks"), str(sum(len(block.lines) for block in lettered))
    yield _("Exercises in all"), str(len(tree.lines))
