"""What is printed of a card, ready to be set: the same `Sheet` that phone and desk show."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from django.utils.formats import date_format
from django.utils.timezone import localtime
from django.utils.translation import gettext as _

from coachhub.cards import words
from coachhub.cards.models import RevisionReason
from coachhub.cards.sheet import Sheet, SheetGroup, SheetLine
from coachhub.cards.words_door import revision_text
from coachhub.paper.boxes import Box, has_sides, is_wide, strip_length, strips_of
from coachhub.paper.qr import qr_png
from coachhub.paper.remarks import foot_notes, reason, remarks


@dataclass(frozen=True, slots=True)
class PaperLine:
    """`strips`: its boxes in rows; a single one where they stand beside the exercise."""

    label: str
    name: str
    dose: str
    remarks: str
    cue: str
    ramp_up_unit: str
    ramp_ups: tuple[str, ...]
    strips: tuple[tuple[Box, ...], ...]


@dataclass(frozen=True, slots=True)
class Left:
    """Exercises left out for this athlete for one reason."""

    names: str
    why: str


@dataclass(frozen=True, slots=True)
class PaperBlock:
    """`rounds`: how many stand side by side; `has_sides`: left and right have columns of their own.

    In a wide block the boxes stand in rows below each exercise, else beside it. `is_signed`: with a column for the
    initials of the coach who watched.
    """

    label: str
    lead: str
    flow: str
    heads: tuple[str, ...]
    rounds: int
    has_sides: bool
    is_wide: bool
    is_signed: bool
    lines: tuple[PaperLine, ...]
    left: tuple[Left, ...]
    notes: tuple[str, ...]

    @property
    def boxes(self) -> int:
        return self.rounds * 2 if self.has_sides else self.rounds

    @property
    def width(self) -> int:
        """All columns: the boxes, the initials, and the exercise where it stands beside them."""
        return self.boxes + self.is_signed + (not self.is_wide)


@dataclass(frozen=True, slots=True)
class PaperPart:
    """A part without a letter: warm-up, activation, athleticism, cool-down."""

    name: str
    text: str
    minutes: int | None
    left: tuple[Left, ...]


@dataclass(frozen=True, slots=True)
class PaperCard:
    name: str
    session: str
    date: str
    venue: str
    squad: str
    week: int
    revision: int
    as_of: str
    is_waiting: bool
    is_minor: bool
    notices: tuple[str, ...]
    qr: str
    before: tuple[PaperPart, ...]
    blocks: tuple[PaperBlock, ...]
    after: tuple[PaperPart, ...]


def paper_card(sheet: Sheet, *, address: str, as_of: datetime, with_health: bool) -> PaperCard:
    """Return the card as it stood at `as_of`; `address` is where a phone opens it.

    `with_health`: whoever prints it may read restrictions, so the card says which one left an exercise out.
    """
    return PaperCard(
        name=sheet.athlete_name,
        session=sheet.session_name,
        date=date_format(sheet.on_date, "D j M Y"),
        venue=sheet.venue_name,
        squad=sheet.squad_name,
        week=sheet.week,
        revision=sheet.revision.number,
        as_of=date_format(localtime(as_of), "H:i"),
        is_waiting=sheet.is_waiting,
        is_minor=sheet.is_minor,
        notices=tuple(_notices(sheet)),
        qr=qr_png(address),
        before=tuple(_part(group, sheet, with_health) for group in sheet.preparation),
        blocks=tuple(_block(group, sheet, with_health) for group in sheet.blocks),
        after=tuple(_part(group, sheet, with_health) for group in sheet.afterwards),
    )


def _notices(sheet: Sheet) -> Iterable[str]:
    if sheet.is_stale:
        yield _("The coach has changed something since. Ask for a new card.")
    if sheet.revision.reason != RevisionReason.FIRST:
        yield _("Revision %(number)s: %(reason)s at %(at)s. Throw an older one away.") % {
            "number": sheet.revision.number,
            "reason": revision_text(sheet.revision),
            "at": date_format(localtime(sheet.revision.made_at), "j M H:i"),
        }


def _block(group: SheetGroup, sheet: Sheet, with_health: bool) -> PaperBlock:
    wide = is_wide(group.lines, group.rounds_max, is_signed=sheet.is_minor)
    rounds = strip_length(group.lines, group.rounds_max) if wide else group.rounds_max
    return PaperBlock(
        label=group.label,
        lead=_rounds(group),
        flow=" ".join(text for text in (words.flow_text(group), words.after_text(group), group.intent) if text),
        heads=() if wide else tuple(f"({r.number})" if r.is_extra else str(r.number) for r in group.rounds),
        rounds=rounds,
        has_sides=has_sides(group.lines),
        is_wide=wide,
        is_signed=sheet.is_minor,
        lines=tuple(
            _line(line, group.rounds_max, rounds, sheet.athlete_unit, with_health) for line in group.with_earlier
        ),
        left=_left(group, with_health),
        notes=foot_notes(group.lines),
    )


def _rounds(group: SheetGroup) -> str:
    rounds = words.rounds_text(group)
    return _("%(rounds)s, optional") % {"rounds": rounds} if group.is_optional else rounds


def _line(line: SheetLine, rounds: int, in_row: int, reader_unit: str, with_health: bool) -> PaperLine:
    ramps = () if line.is_dropped else line.ramp_ups
    return PaperLine(
        label=line.label,
        name=line.name,
        dose=words.plan_text(line, reader_unit),
        remarks=_("done before it was swapped") if line.is_dropped else remarks(line, with_health=with_health),
        cue="" if line.is_dropped else line.cue or next(iter(line.cues), ""),
        ramp_up_unit=ramps[0][0].unit if ramps else "",
        ramp_ups=tuple(
            f"{words.number(mass.value)}\N{NO-BREAK SPACE}×\N{NO-BREAK SPACE}{reps}" for mass, reps in ramps
        ),
        strips=strips_of(line, rounds, in_row, reader_unit),
    )


def _left(group: SheetGroup, with_health: bool) -> tuple[Left, ...]:
    names: dict[str, list[str]] = {}
    for line in group.dropped:
        why = reason(line, with_health=with_health)
        names.setdefault(why, []).append(f"{line.label} {line.name}" if group.label else line.name)
    return tuple(Left(", ".join(those), why) for why, those in names.items())


def _part(group: SheetGroup, sheet: Sheet, with_health: bool) -> PaperPart:
    each = " · ".join(_short(line, group, sheet.athlete_unit, with_health) for line in group.lines)
    rest = words.rest_text(group)
    told = [each] if group.rounds_max == 1 else [f"{words.rounds_text(group)}: {each}"]
    if rest and group.rounds_max > 1:
        told.append(_("rest %(rest)s") % {"rest": rest})
    return PaperPart(
        name=words.segment_text(group),
        text=", ".join(told) if group.lines else "",
        minutes=group.minutes,
        left=_left(group, with_health),
    )


def _short(line: SheetLine, group: SheetGroup, reader_unit: str, with_health: bool) -> str:
    """An exercise of a part without a letter, in one breath."""
    text = f"{line.name} {words.plan_text(line, reader_unit)}"
    if fewer := words.fewer_sets_text(line, group):
        text = f"{text} ({fewer})"
    if line.is_swapped:
        text = _("%(what)s (instead of %(written)s: %(why)s)") % {
            "what": text,
            "written": line.written_name,
            "why": reason(line, with_health=with_health),
        }
    return f"{text}, {line.cue}" if line.cue else text
