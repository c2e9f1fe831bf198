"""One line of a card as a phone shows it: everything already in words."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from django.utils.translation import gettext as _

from coachhub.cards import words
from coachhub.cards.sheet import Sheet, SheetGroup, SheetLine
from coachhub.cards.words_done import bar_text, cell_text, is_as_planned, ramp_text
from coachhub.gym.forms import TapForm, asks_reserve
from coachhub.gym.forms_round import load_before


@dataclass(frozen=True, slots=True)
class LoadBox:
    """A number to write where the plan names none; `steps` are what can be loaded here."""

    name: str
    value: str
    unit: str
    steps: tuple[str, ...]
    errors: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LineView:
    """`more`: last time, what the number means, plates, reserve, tempo. `ramps` stand before the first set."""

    key: str
    label: str
    name: str
    instead_of: str
    plan: str
    load_words: str
    more: str
    cue: str
    spotting: str
    ramps: tuple[str, ...]
    box: LoadBox | None
    asks_reserve: bool
    is_ticked: bool
    tick: str

    @classmethod
    def of(cls, sheet: Sheet, group: SheetGroup, line: SheetLine, number: int, form: TapForm | None = None) -> LineView:
        cell = line.cell(number)
        is_ticked = cell is not None and (not cell.is_open or line in group.earlier)
        return cls(
            key=line.key,
            label=line.label,
            name=line.name,
            instead_of=_("instead of %(name)s") % {"name": line.written_name} if line.is_swapped else "",
            plan=words.plan_text(replace(line, load_words=""), sheet.athlete_unit),
            load_words=line.load_words,
            more=more_of(sheet, group, line),
            cue=line.cue or (line.cues[0] if line.cues else ""),
            spotting=words.spotting_text(line),
            ramps=ramp_text(line, sheet.athlete_unit) if number == 1 else (),
            box=box_of(sheet, line, number, form) if line.takes_load and not is_ticked else None,
            asks_reserve=not is_ticked and asks_reserve(sheet, group, line, number),
            is_ticked=is_ticked,
            tick=(_("%(line)s is written: change it") if is_ticked else _("%(line)s done as planned"))
            % {"line": f"{line.label} {line.name}"},
        )


def more_of(sheet: Sheet, group: SheetGroup, line: SheetLine) -> str:
    parts = (
        words.fewer_sets_text(line, group),
        words.last_text(line.last, sheet.athlete_unit),
        words.meaning_text(line) if line.load or line.takes_load else "",
        bar_text(line),
        words.plates_text(line),
        words.rir_text(line) if sheet.is_rir_taught else "",
        words.directions_text(line),
        _("tempo %(tempo)s") % {"tempo": line.tempo} if line.tempo else "",
    )
    return " · ".join(part for part in parts if part)


def box_of(sheet: Sheet, line: SheetLine, number: int, form: TapForm | None) -> LoadBox:
    name = f"load_{line.key}"
    before = load_before(line, number)
    value = words.number(before) if before is not None else ""
    is_sent = form is not None and name in form.data
    return LoadBox(
        name=name,
        value=str(form.data[name]) if form is not None and is_sent else value,
        unit=line.unit_for(sheet.athlete_unit),
        steps=tuple(words.number(step.value) for step in line.steps),
        errors=tuple(map(str, form.errors.get(name, ()))) if form is not None and is_sent else (),
    )


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A line that is not for this athlete today, with the reasons."""

    label: str
    name: str
    reasons: tuple[str, ...]

    @classmethod
    def of(cls, line: SheetLine) -> LeftOut:
        return cls(line.label, line.written_name, tuple(words.note_text(note) for note in line.trace))


@dataclass(frozen=True, slots=True)
class DonePart:
    label: str
    text: str
    is_different: bool


@dataclass(frozen=True, slots=True)
class DoneRound:
    """A round with everything in it written; `is_contested`: two versions of a set stand side by side."""

    number: int
    parts: tuple[DonePart, ...]
    is_contested: bool

    @classmethod
    def of(cls, group: SheetGroup, number: int) -> DoneRound:
        lines = group.written_or_planned(number)
        found = [(line, cell) for line in lines if (cell := line.cell(number)) and cell.entries]
        return cls(
            number,
            tuple(
                DonePart(
                    f"{line.label} {line.name}" if line in group.earlier else line.label,
                    cell_text(line, cell),
                    not all(is_as_planned(line, entry) for entry in cell.entries),
                )
                for line, cell in found
            ),
            any(entry.rivals for _line, cell in found for entry in cell.entries),
        )


@dataclass(frozen=True, slots=True)
class Why:
    """The steps that led to a line as it is."""

    label: str
    name: str
    steps: tuple[str, ...]


def whys_of(lines: Any) -> tuple[Why, ...]:
    return tuple(
        Why(line.label, line.name, tuple(words.note_text(note) for note in line.trace)) for line in lines if line.trace
    )


def why_title(lines: tuple[SheetLine, ...]) -> str:
    """Name the number that people ask about, where there is one."""
    loads = [words.number(line.load.value) for line in lines if line.load and line.trace]
    return _("Why %(load)s?") % {"load": loads[0]} if len(loads) == 1 else _("Why these loads?")
