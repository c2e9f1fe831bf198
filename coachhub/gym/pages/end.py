"""A session's end: what was done, how hard it was, what the coach should know."""

from __future__ import annotations

from dataclasses import dataclass
from uuid import UUID, uuid4

from django import forms
from django.http import QueryDict
from django.utils.functional import Promise

from coachhub.base.actor import Actor, ActorKind
from coachhub.cards import words
from coachhub.cards.sheet import Sheet
from coachhub.gym.forms_end import EndForm
from coachhub.insight.models import EffortLoad, SessionNote
from coachhub.insight.queries import efforts_of, minutes_logged, notes_of
from coachhub.insight.summary import LineSummary, sets_done, summary_of
from coachhub.insight.words import EFFORTS, effort_text


@dataclass(frozen=True, slots=True)
class Effort:
    widget: forms.boundfield.BoundWidget
    words: str | Promise


@dataclass(frozen=True, slots=True)
class EndPage:
    """`answer`: what was said before, in words; empty where nobody has answered yet."""

    sheet: Sheet
    is_own: bool
    uuid: UUID
    stops: tuple[str, ...]
    efforts: tuple[Effort, ...]
    answer: str
    note: SessionNote | None
    lines: tuple[LineSummary, ...]
    done: int
    asked: int
    is_unsent: bool

    @classmethod
    def of(cls, sheet: Sheet, actor: Actor, form: EndForm, said: Said, *, is_unsent: bool = False) -> EndPage:
        lines = summary_of(sheet)
        done, asked = sets_done(lines)
        return cls(
            sheet=sheet,
            is_own=actor.kind is ActorKind.ATHLETE,
            uuid=uuid4(),
            stops=tuple(words.red_flag_text(kind) for kind in sheet.flags),
            efforts=tuple(Effort(widget, EFFORTS.get(n, "")) for n, widget in enumerate(form["effort"])),
            answer=effort_text(said.effort),
            note=said.note,
            lines=lines,
            done=done,
            asked=asked,
            is_unsent=is_unsent,
        )


@dataclass(frozen=True, slots=True)
class Said:
    """What stands already."""

    effort: EffortLoad | None
    note: SessionNote | None

    @classmethod
    def of(cls, actor: Actor, sheet: Sheet) -> Said:
        card = [sheet.card_id]
        return cls(efforts_of(card).get(sheet.card_id), notes_of(actor, card).get(sheet.card_id))


def end_form(sheet: Sheet, actor: Actor, said: Said, data: QueryDict | None) -> EndForm:
    return EndForm(
        data,
        answer=said.effort,
        note=said.note,
        minutes=None if said.effort else minutes_logged(sheet.card_id, sheet.on_date),
        has_note=actor.sees_health or actor.kind is ActorKind.ATHLETE,
    )
