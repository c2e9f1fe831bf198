""" "It was different": one round, set by set; and two versions of a set under one sending."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from uuid import UUID, uuid4

from django.utils.translation import gettext as _

from coachhub.base.actor import Actor, ActorKind
from coachhub.base.models import BodySide
from coachhub.cards import words
from coachhub.cards.actions import StoredEntry
from coachhub.cards.sheet import Sheet, SheetGroup
from coachhub.cards.words_done import unit_word
from coachhub.gym.forms_round import RoundForm, SlotForm
from coachhub.gym.pages.lines import LineView


@dataclass(frozen=True, slots=True)
class SlotView:
    """`rivals`: other versions of this set that stand beside the one in the form."""

    form: SlotForm
    title: str
    rivals: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RoundLine:
    view: LineView
    meaning: str
    unit: str
    steps: str
    slots: tuple[SlotView, ...]


@dataclass(frozen=True, slots=True)
class RoundPage:
    """`is_sent_wrong`: the sending itself was damaged, not a figure in it."""

    sheet: Sheet
    group: SheetGroup
    number: int
    at: str
    uuid: UUID
    is_own: bool
    stops: tuple[str, ...]
    lines: tuple[RoundLine, ...]
    is_valid: bool
    is_sent_wrong: bool

    @classmethod
    def of(
        cls, sheet: Sheet, group: SheetGroup, form: RoundForm, actor: Actor, at: str, *, is_sent_wrong: bool
    ) -> RoundPage:
        return cls(
            sheet=sheet,
            group=group,
            number=form.number,
            at=at,
            uuid=uuid4(),
            is_own=actor.kind is ActorKind.ATHLETE,
            stops=tuple(words.red_flag_text(kind) for kind in sheet.flags),
            lines=tuple(
                RoundLine(
                    LineView.of(sheet, group, line, form.number),
                    words.meaning_text(line),
                    unit_word(line),
                    " ".join(words.number(step.value) for step in line.steps),
                    tuple(slot_view(slot) for slot in slots),
                )
                for line, slots in form.lines
            ),
            is_valid=not any(slot.errors for slot in form.slots),
            is_sent_wrong=is_sent_wrong,
        )

    @property
    def title(self) -> str:
        told = {"label": self.group.label, "part": words.segment_text(self.group), "number": self.number}
        if self.group.label:
            return _("Block %(label)s, round %(number)s") % told
        return _("%(part)s, round %(number)s") % told if self.group.rounds_max > 1 else str(told["part"])


def slot_view(slot: SlotForm) -> SlotView:
    title = "" if slot.side == BodySide.BOTH else str(BodySide(slot.side).label).capitalize()
    rivals = tuple(words.entry_text(fact) for fact in slot.entry.rivals) if slot.entry else ()
    return SlotView(slot, title, rivals)


@dataclass(frozen=True, slots=True)
class TwoVersions:
    title: str
    stored: str
    sent: str


@dataclass(frozen=True, slots=True)
class ConflictPage:
    sheet: Sheet
    rows: tuple[TwoVersions, ...]
    group: str
    number: int

    @classmethod
    def of(cls, sheet: Sheet, answers: Iterable[StoredEntry]) -> ConflictPage:
        twice = list(answers)
        fact = twice[0].entry
        group = next(g.key for g in sheet.groups if any(line.key == fact.line_key for line in (*g.lines, *g.dropped)))
        return cls(sheet, tuple(versions(sheet, answer) for answer in twice), group, fact.round)


def versions(sheet: Sheet, answer: StoredEntry) -> TwoVersions:
    fact = answer.entry
    lines = (one for group in sheet.groups for one in (*group.earlier, *group.lines, *group.dropped))
    line = next((one for one in lines if (one.key, one.exercise_id) == (fact.line_key, fact.exercise_id)), None)
    side = "" if fact.side == BodySide.BOTH else str(BodySide(fact.side).label)
    name = f"{line.label} {line.name}" if line else ""
    title = ", ".join(part for part in (name, _("round %(number)s") % {"number": fact.round}, side) if part)
    sent = answer.sent or fact
    return TwoVersions(title, words.entry_text(fact), words.entry_text(sent))
