"""Quick entry: a box for each set of many cards, filled in as on paper (`coaching.written`)."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final, cast
from uuid import UUID, uuid4, uuid5

from django import forms
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from coachhub.base.clock import now
from coachhub.cards.actions import EntryDraft, amount_columns
from coachhub.cards.sheet import Sheet, SheetEntry, SheetLine
from coachhub.cards.words_done import amount_of
from coachhub.coaching.facts import Mass
from coachhub.coaching.loading import LoadUnit
from coachhub.coaching.notation.dose import DoseKind
from coachhub.coaching.written import Box, Written, WrittenError, plan_of, read_box, write_box

LONGEST: Final = 40
_NAME: Final = re.compile(r"c:(\d{1,18}):([\w-]{1,40}):(\d{1,2})(?::([\d.]{1,80}))?")
_SEEN_CARD: Final = re.compile(r"r:(\d{1,18})")
_ERRORS: Final[Mapping[str, str | Promise]] = {
    "unreadable": gettext_lazy("“%(text)s” cannot be read. Write 62.5x8, x8, 8 or - for skipped."),
    "sides": gettext_lazy("Left and right stand apart only where each side is counted."),
    "which": gettext_lazy("Is %(text)s the load or the reps? Write 62.5x8, or x8 for the planned load."),
    "no_load": gettext_lazy("This is done without a load: write the amount alone."),
    "load_missing": gettext_lazy("No load was planned: write it, such as 20x8, or x8 where nobody knows it."),
    "too_much": gettext_lazy("%(text)s cannot be."),
    "whole": gettext_lazy("%(text)s: write a whole number."),
    "precise": gettext_lazy("%(text)s: at most two decimals."),
    "measure": gettext_lazy("%(text)s is not what is counted here."),
}

Place = tuple[int, str, int]


@dataclass(frozen=True, slots=True)
class Typed:
    """`seen`: the entries that the page showed in that box."""

    text: str
    seen: frozenset[int]


class SetBox:
    """The box of one line in one round of one card; `error` in words where what was typed cannot be written."""

    def __init__(self, sheet: Sheet, line: SheetLine, number: int, typed: Typed | None) -> None:
        self.sheet, self.line, self.number = sheet, line, number
        cell = line.cell(number)
        self.entries = {entry.fact.side: entry for entry in cell.entries} if cell else {}
        self.sides = ("both",) if "both" in self.entries else line.sides
        self.box = _box(sheet, line, has_sides=len(self.sides) > 1)
        self.shown = write_box([_written(self.entries.get(side)) for side in self.sides], self.box)
        self.typed = typed
        self.values: tuple[Written | None, ...] = ()
        self.error = self._read() if typed else ""

    @property
    def place(self) -> Place:
        return self.sheet.card_id, self.line.key, self.number

    @property
    def name(self) -> str:
        """Says which set it is, and which entries stood there when the page was made."""
        card, key, number = self.place
        seen = ".".join(str(entry.fact.pk) for entry in self.entries.values())
        return f"c:{card}:{key}:{number}" + (f":{seen}" if seen else "")

    @property
    def value(self) -> str:
        """As typed; a box left empty shows what others wrote in it meanwhile."""
        if self.typed is None or (not self.typed.text and self._unseen):
            return self.shown
        return self.typed.text

    @property
    def plan(self) -> str:
        """What is written by accepting the plan; empty where a load is to be found, and for what was left out."""
        sides = None if self.line.is_dropped else plan_of(self.box)
        return write_box(sides, self.box) if sides else ""

    @property
    def _unseen(self) -> frozenset[int]:
        seen = self.typed.seen if self.typed else frozenset()
        return frozenset(entry.fact.pk for entry in self.entries.values()) - seen

    def _read(self) -> str:
        text = self.typed.text if self.typed else ""
        if text == self.shown and not self._unseen:
            return ""
        try:
            self.values = read_box(text, self.box) if text else (None,) * len(self.sides)
        except WrittenError as error:
            return str(_ERRORS[error.code]) % {"text": error.text}
        if any(value and value.amount == 0 and value.load and not value.load.value for value in self.values):
            return _("%(text)s says nothing: write - if it was not done.") % {"text": text}
        clashes = [entry for side, value, entry in self._changes() if entry and entry.fact.pk in self._unseen and value]
        return (
            _("Written meanwhile: %(text)s. Save again to put yours in its place.") % {"text": self.shown}
            if clashes
            else ""
        )

    def _changes(self) -> Iterator[tuple[str, Written | None, SheetEntry | None]]:
        """Each side that is to say something else than it does."""
        for side, value in zip(self.sides, self.values, strict=False):
            entry = self.entries.get(side)
            if value != _written(entry) and (value or (entry and entry.fact.pk not in self._unseen)):
                yield side, value, entry

    def drafts(self, uuid: UUID) -> Iterator[EntryDraft]:
        """One entry for each side that changes; the same uuids for the same content."""
        for side, value, entry in self._changes():
            told = f"{self.place}{self.line.pk}{side}{entry.fact.uuid if entry else ''}{value}"
            yield EntryDraft(
                uuid=uuid5(uuid, told),
                line_key=self.line.key,
                line_pk=self.line.pk,
                round=self.number,
                client_at=now(),
                seq=self.sheet.next_seq,
                side=side,
                supersedes_uuid=entry.fact.uuid if entry else None,
                **_columns(value, self.line, entry),
            )


def _box(sheet: Sheet, line: SheetLine, *, has_sides: bool) -> Box:
    must = line.load is not None or line.wants_load
    return Box(
        kind=cast(DoseKind, line.dose_kind),
        low=line.low,
        load=line.load,
        unit=cast(LoadUnit, line.unit_for(sheet.athlete_unit)),
        loading="none" if line.load_meaning == "none" else "must" if must else "may",
        has_sides=has_sides,
    )


def _written(entry: SheetEntry | None) -> Written | None:
    if entry is None:
        return None
    fact = entry.fact
    load = None if fact.load_value is None else Mass(fact.load_value, cast(LoadUnit, fact.load_unit))
    return Written(load if entry.is_done else None, amount_of(entry) if entry.is_done else None)


def _columns(value: Written | None, line: SheetLine, entry: SheetEntry | None) -> dict[str, Any]:
    """What changes of an entry that stood there; its note and reserve stay."""
    if value is None:
        return {"kind": "void"}
    kept: dict[str, Any] = {"note": entry.fact.note} if entry else {}
    if value.amount is None:
        return {"kind": "skipped", **kept}
    if entry and entry.is_done:
        kept["rir_half"] = entry.fact.rir_half
    return {"kind": "done", "load": value.load, **amount_columns(line.dose_kind, value.amount), **kept}


class SendingForm(forms.Form):
    """What makes a repeat the same sending."""

    uuid = forms.UUIDField(widget=forms.HiddenInput)


class QuickForm:
    """The boxes of many cards. `keys`: of the lines that are shown; what was typed for others counts all the same."""

    def __init__(self, data: Mapping[str, str] | None, sheets: Sequence[Sheet], keys: Collection[str]) -> None:
        self.sheets, self.sending = sheets, SendingForm(data)
        self.typed = read_names(data or {})
        self.boxes = {
            box.place: box
            for sheet in sheets
            for group in sheet.groups
            for line in (*group.lines, *group.dropped)
            for number in range(1, line.sets + 1)
            if (typed := self.typed.get((sheet.card_id, line.key, number))) or line.key in keys
            for box in [SetBox(sheet, group.as_written(line, number), number, typed)]
        }

    @property
    def uuid(self) -> UUID:
        """New on a page that is shown again: what was sent by the old one may be stored."""
        return uuid4()

    @property
    def wrong(self) -> list[SetBox]:
        return [box for box in self.boxes.values() if box.error]

    @property
    def homeless(self) -> list[str]:
        """What was typed for a card that is gone."""
        return [typed.text for place, typed in self.typed.items() if typed.text and place not in self.boxes]

    def is_valid(self) -> bool:
        return self.sending.is_valid() and not self.wrong and not self.homeless

    def drafts(self) -> dict[int, list[EntryDraft]]:
        """What there is to write, by card."""
        uuid = self.sending.cleaned_data["uuid"]
        found: dict[int, list[EntryDraft]] = {}
        for box in self.boxes.values():
            if new := list(box.drafts(uuid)):
                found.setdefault(box.sheet.card_id, []).extend(new)
        return found


def all_lines(sheet: Sheet) -> Iterator[SheetLine]:
    """Left out ones too: a set may have been done on one before it went, and a fact is never refused."""
    for group in sheet.groups:
        yield from (*group.lines, *group.dropped)


def read_names(data: Mapping[str, str]) -> dict[Place, Typed]:
    found: dict[Place, Typed] = {}
    for name in data:
        if match := _NAME.fullmatch(name):
            card, key, number, seen = match.groups()
            pks = frozenset(int(pk) for pk in (seen or "").split(".") if pk)
            found[int(card), key, int(number)] = Typed(data[name].strip()[:LONGEST], pks)
    return found


def cards_sent(data: Mapping[str, str]) -> dict[int, int]:
    """Which revision of which card the page showed."""
    return {
        int(match[1]): int(data[name])
        for name in data
        if (match := _SEEN_CARD.fullmatch(name)) and re.fullmatch(r"\d{1,6}", data[name], re.ASCII)
    }
