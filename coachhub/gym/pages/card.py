"""The card on a phone: what is done, the round that is on, what comes."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Final
from uuid import UUID, uuid4

from django.utils.formats import time_format
from django.utils.timezone import localtime
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor, ActorKind
from coachhub.base.clock import now, today
from coachhub.cards import words
from coachhub.cards.actions.rereading import HEALTH_CODES
from coachhub.cards.models import RevisionReason
from coachhub.cards.queries import lines_before
from coachhub.cards.sheet import RevisionInfo, Sheet, SheetGroup, SheetLine, SheetRound
from coachhub.cards.words_done import change_texts
from coachhub.cards.words_door import door_text
from coachhub.gym.fields import RESERVES
from coachhub.gym.forms import TapForm
from coachhub.gym.pages.lines import DoneRound, LeftOut, LineView, Why, why_title, whys_of
from coachhub.gym.pages.parts import PartView, parts_of

# After this long nobody is resting any more.
LONGEST_REST_S: Final = 900


@dataclass(frozen=True, slots=True)
class Rest:
    """`text` is what the plan says; `ago_s` since the last set here was received, None where no clock makes sense."""

    text: str
    wanted_s: int | None
    ago_s: int | None


@dataclass(frozen=True, slots=True)
class OpenRound:
    number: int
    is_extra: bool
    is_begun: bool
    lines: tuple[LineView, ...]
    rest: Rest
    why_title: str
    whys: tuple[Why, ...]


@dataclass(frozen=True, slots=True)
class BlockView:
    """`open`: the round to write now. `to_come`: rounds after it. `has_more`: an extra round may be opened."""

    key: str
    label: str
    rounds: str
    flow: str
    after: str
    intent: str
    is_optional: bool
    is_done: bool
    done: tuple[DoneRound, ...]
    open: OpenRound | None
    to_come: tuple[int, ...]
    has_more: bool
    lines: tuple[LineView, ...]
    left_out: tuple[LeftOut, ...]


@dataclass(frozen=True, slots=True)
class Change:
    """What a new revision did to this card; `is_loud` where health was the reason."""

    title: str
    is_loud: bool
    texts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CardPage:
    sheet: Sheet
    uuid: UUID
    as_of: datetime
    is_own: bool
    at: str
    is_coming: bool
    stops: tuple[str, ...]
    change: Change | None
    before: tuple[PartView, ...]
    blocks: tuple[BlockView, ...]
    after: tuple[PartView, ...]
    is_done: bool
    asks_reserve: bool
    form: TapForm | None

    @classmethod
    def of(
        cls, sheet: Sheet, actor: Actor, *, at: str = "", form: TapForm | None = None, is_early: bool = False
    ) -> CardPage:
        on = block_on(sheet, at)
        blocks = tuple(block_view(sheet, group, form, is_on=group is on) for group in sheet.blocks)
        before, after = parts_of(sheet, sheet.preparation), parts_of(sheet, sheet.afterwards)
        return cls(
            sheet=sheet,
            uuid=uuid4(),
            as_of=now(),
            is_own=actor.kind is ActorKind.ATHLETE,
            at=at,
            is_coming=sheet.on_date > today() and not (sheet.is_started or is_early or form),
            stops=tuple(words.red_flag_text(kind) for kind in sheet.flags),
            change=change_of(sheet),
            before=before,
            blocks=blocks,
            after=after,
            is_done=all(block.is_done or block.is_optional for block in blocks) and all(p.is_done for p in after),
            asks_reserve=any(line.asks_reserve for block in blocks if block.open for line in block.open.lines),
            form=form,
        )

    @property
    def is_closed(self) -> bool:
        """Nothing is written here now: it waits for its day, or for a clearance."""
        return self.is_coming or bool(self.stops)

    @property
    def reserves(self) -> tuple[tuple[str, str], ...]:
        return RESERVES if self.asks_reserve else ()

    @property
    def is_prepared(self) -> bool:
        return all(part.is_done for part in self.before)

    @property
    def is_folded(self) -> bool:
        """Once it is done, or a block has begun, the preparation no longer stands before what is on."""
        return self.is_prepared or any(block.done or (block.open and block.open.is_begun) for block in self.blocks)

    @property
    def minutes(self) -> int:
        return sum(part.minutes or 0 for part in self.before)


def block_on(sheet: Sheet, at: str) -> SheetGroup | None:
    """The block to train now: the one that was asked for, else the first that is not done."""
    asked = sheet.group(at) if at else None
    if asked is not None and asked.label and asked.current_round:
        return asked
    return next((group for group in sheet.blocks if group.lines and not group.is_done), None)


def block_view(sheet: Sheet, group: SheetGroup, form: TapForm | None, *, is_on: bool) -> BlockView:
    current = group.current_round
    typed = form if form is not None and group.key in [g.key for g in form.groups] else None
    opened = open_round(sheet, group, current, typed) if is_on and current else None
    written = [r.number for r in group.rounds if r.is_begun and not (opened and r.number == opened.number)]
    return BlockView(
        key=group.key,
        label=group.label,
        rounds=words.rounds_text(group),
        flow=words.flow_text(group),
        after=words.after_text(group),
        intent=group.intent,
        is_optional=group.is_optional,
        is_done=group.is_done,
        done=tuple(DoneRound.of(group, number) for number in written),
        open=opened,
        to_come=tuple(r.number for r in group.rounds if opened and r.number > opened.number and r.is_open),
        has_more=group.is_done and current is not None and not opened,
        lines=() if opened or group.is_done else lines_of(sheet, group),
        left_out=tuple(LeftOut.of(line) for line in group.dropped),
    )


def lines_of(sheet: Sheet, group: SheetGroup) -> tuple[LineView, ...]:
    return tuple(LineView.of(sheet, group, line, 1) for line in group.lines)


def open_round(sheet: Sheet, group: SheetGroup, current: SheetRound, form: TapForm | None) -> OpenRound:
    lines = tuple(line for line in group.written_or_planned(current.number) if line not in group.dropped)
    return OpenRound(
        number=current.number,
        is_extra=current.is_extra,
        is_begun=current.is_begun,
        lines=tuple(LineView.of(sheet, group, line, current.number, form) for line in lines),
        rest=rest_of(group, lines, current),
        why_title=why_title(lines),
        whys=whys_of(lines),
    )


def rest_of(group: SheetGroup, lines: tuple[SheetLine, ...], current: SheetRound) -> Rest:
    """Between rounds, the block's rest; inside a round, the rest after the exercise that was ticked last."""
    text = words.rest_text(group)
    every = (*group.lines, *group.earlier)
    facts = [entry.fact for line in every for cell in line.cells for entry in cell.entries if entry.is_done]
    if not facts:
        return Rest("", None, None)
    last = max(facts, key=lambda fact: (fact.received_at, fact.pk))
    wanted = group.rest_min_s
    if current.is_begun:
        wanted = next((line.rest_after_s for line in lines if line.key == last.line_key), 0)
        text = words.clock(wanted) if wanted else ""
    ago_s = int((now() - last.received_at).total_seconds())
    has_clock = bool(wanted) and 0 <= ago_s <= LONGEST_REST_S
    return Rest(text, wanted, ago_s if has_clock else None)


def change_of(sheet: Sheet) -> Change | None:
    """What the newest revision changed, said on every view of the card until a newer one comes."""
    reason = sheet.revision.reason
    if reason == RevisionReason.FIRST:
        return None
    before = lines_before(sheet)
    lines = [line for group in sheet.groups for line in (*group.lines, *group.dropped)]
    back = {line.key for line in before if is_held(line)} - {line.key for line in lines if is_held(line)}
    worse = change_texts([old for old in before if old.key not in back], [new for new in lines if new.key not in back])
    return Change(
        title=title_of(sheet.revision, is_back=bool(back) and not worse),
        is_loud=reason in (RevisionReason.RESTRICTED, RevisionReason.PAIN) and bool(worse),
        texts=tuple(change_texts(before, lines)),
    )


def is_held(line: SheetLine) -> bool:
    """Whether health has changed it: left out, swapped, or lighter."""
    return any(note.code in HEALTH_CODES for note in line.trace)


def title_of(revision: RevisionInfo, *, is_back: bool) -> str:
    at = time_format(localtime(revision.made_at), "H:i")
    if revision.steps:
        return f"{at} · {door_text(revision.steps, is_undone=revision.reason == RevisionReason.DOOR_UNDONE)}"
    if revision.reason == RevisionReason.RESTRICTED and is_back:
        return _("You may do more again since %(at)s. This is back on your card:") % {"at": at}
    if revision.reason == RevisionReason.PAIN and is_back:
        return _("Cleared at %(at)s, after what hurt. This is back on your card:") % {"at": at}
    if revision.reason == RevisionReason.RESTRICTED:
        return _("This card changed at %(at)s, because what you may do now has changed:") % {"at": at}
    if revision.reason == RevisionReason.PAIN:
        return _("This card changed at %(at)s, because of what hurts:") % {"at": at}
    if revision.reason == RevisionReason.MOVED:
        return _("Your coach moved this session to another day at %(at)s.") % {"at": at}
    return _("Your coach changed this card at %(at)s:") % {"at": at}
