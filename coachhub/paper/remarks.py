"""The small print under an exercise, and why one was left out or taken instead."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

from django.utils.translation import gettext as _

from coachhub.cards import words
from coachhub.cards.sheet import SheetLine
from coachhub.cards.words_done import bar_text
from coachhub.coaching.facts import Note

# The steps of a trace that whoever lifts has to know; the rest is a tap away on the phone.
_TOLD: Final = frozenset(("ask_for_lighter", "nothing_to_load", "below_lightest"))
# Steps that name nothing: the line itself already says what they say.
_OUTCOMES: Final = frozenset(("swapped", "dropped"))
_RESTRICTED: Final = frozenset(("restricted", "restricted_unreviewed"))


def remarks(line: SheetLine, *, with_health: bool) -> str:
    return " · ".join(_remarks(line, with_health))


def _remarks(line: SheetLine, with_health: bool) -> Iterator[str]:
    if line.is_swapped:
        yield _("instead of %(written)s: %(why)s") % {
            "written": line.written_name,
            "why": reason(line, with_health=with_health).removesuffix("."),
        }
    if words.load_text(line):
        yield words.meaning_text(line)
    bar = ", ".join(text for text in (bar_text(line), words.plates_text(line)) if text)
    yield from filter(None, (bar, words.rir_text(line), words.directions_text(line)))
    if line.tempo:
        yield _("tempo %(tempo)s") % {"tempo": line.tempo}
    if line.last:
        yield words.last_text(line.last)
    yield from (words.note_text(note).removesuffix(".") for note in line.trace if note.code in _TOLD)


def reason(line: SheetLine, *, with_health: bool) -> str:
    """Why the written exercise is not on the card: every reason that came before the swap or the gap."""
    texts = []
    for note in line.trace:
        if note.code in _OUTCOMES:
            break
        texts.append(_private(note, with_health))
    return " ".join(dict.fromkeys(texts))


def _private(note: Note, with_health: bool) -> str:
    """A printed card lies about: it never tells of pain, and of a restriction only to whom it concerns."""
    if note.code == "pain_off":
        return _("Off the card for now: the coach decides when it comes back.")
    if note.code in _RESTRICTED and not with_health:
        return _("Left out for now: the coach knows why.")
    return words.note_text(note)


def foot_notes(lines: Iterable[SheetLine]) -> tuple[str, ...]:
    """How to spot, each rule once, with the labels it holds for."""
    labels: dict[str, list[str]] = {}
    for line in lines:
        if rule := words.spotting_text(line):
            labels.setdefault(rule, []).append(line.label)
    return tuple(f"{', '.join(names)}: {rule}" for rule, names in labels.items())
