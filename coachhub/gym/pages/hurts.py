""" "Something hurts", and what happens now."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final
from uuid import UUID, uuid4

from django import forms
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from coachhub.base.actor import Actor, ActorKind
from coachhub.cards import words
from coachhub.cards.sheet import Sheet
from coachhub.coaching.limits import pain_stop
from coachhub.gym.forms import PainForm
from coachhub.people.models import RedFlagKind

# Words beside the numbers that need them.
ANCHORS: Final[dict[int, str | Promise]] = {
    0: _("nothing"),
    3: _("hurts a little"),
    6: _("hurts a lot: I want to stop"),
    10: _("the worst I can think of"),
}


@dataclass(frozen=True, slots=True)
class Score:
    widget: forms.boundfield.BoundWidget
    words: str | Promise


@dataclass(frozen=True, slots=True)
class HurtsPage:
    """`is_unsent`: the server could not store it."""

    sheet: Sheet
    is_own: bool
    uuid: UUID
    flag_uuid: UUID
    flags: tuple[tuple[str, str | Promise], ...]
    scores: tuple[Score, ...]
    is_unsent: bool

    @classmethod
    def of(cls, sheet: Sheet, actor: Actor, form: PainForm, *, is_unsent: bool = False) -> HurtsPage:
        return cls(
            sheet=sheet,
            is_own=actor.kind is ActorKind.ATHLETE,
            uuid=uuid4(),
            flag_uuid=uuid4(),
            flags=tuple((kind.value, kind.label) for kind in RedFlagKind),
            scores=tuple(Score(widget, ANCHORS.get(n, "")) for n, widget in enumerate(form["score"])),
            is_unsent=is_unsent,
        )


STOP, OFF, HELD, SORE, NOTHING = "stop", "off", "held", "sore", "nothing"


def told_after(sheet: Sheet, *, score: int, is_sore_only: bool) -> str:
    """Return what the page after a report has to say."""
    if is_sore_only:
        return SORE
    if score == 0:
        return NOTHING
    return OFF if score >= pain_stop(sheet.is_minor) else HELD


@dataclass(frozen=True, slots=True)
class ToldPage:
    """`off`: lines that have left this card because of pain."""

    sheet: Sheet
    what: str
    off: tuple[str, ...]

    @classmethod
    def of(cls, sheet: Sheet, what: str) -> ToldPage:
        dropped = [line for group in sheet.groups for line in group.dropped]
        hurt = [line for line in dropped if any(note.code == "pain_off" for note in line.trace)]
        return cls(sheet, what, tuple(line.written_name for line in hurt))

    @property
    def stops(self) -> tuple[str, ...]:
        return tuple(words.red_flag_text(kind) for kind in self.sheet.flags)
