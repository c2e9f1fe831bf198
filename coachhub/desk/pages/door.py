"""The session at the door: what may be changed now, and what a change would do to whom."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any
from uuid import UUID, uuid4

from django.http import Http404
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.cards.actions.door import door_cards, preview_at_door, undoable_change
from coachhub.cards.actions.door_lines import CardPlan
from coachhub.cards.models import Assignment, Card, CardLine, DoorChange, LineStatus, RevisionReason
from coachhub.cards.queries.door_steps import steps_by_card, steps_for_all, steps_of
from coachhub.cards.queries.session_facts import session_facts
from coachhub.cards.words import note_text, number
from coachhub.cards.words_door import WHYS, step_text, steps_text
from coachhub.coaching.door import DoorStep, changed_session
from coachhub.coaching.facts import GroupFacts, LineFacts, Note, SessionFacts
from coachhub.desk.pages.cards_assignment import changeable_assignment
from coachhub.desk.pages.cards_differences import MOST_BUT
from coachhub.library.models import Venue
from coachhub.library.queries import exercise_names


@dataclass(frozen=True, slots=True)
class DoorLine:
    key: str
    label: str
    name: str
    swaps: tuple[tuple[int, str], ...]


@dataclass(frozen=True, slots=True)
class DoorBlock:
    """`fewer` and `more`: how many rounds there would be; None where that is not to be had."""

    key: str
    label: str
    rounds: int
    fewer: int | None
    more: int
    is_off: bool
    lines: tuple[DoorLine, ...]


@dataclass(frozen=True, slots=True)
class LastChange:
    row: DoorChange
    text: str
    who: str


@dataclass(frozen=True, slots=True)
class DoorPage:
    """`only`: the card of the one athlete whom it is about."""

    row: Assignment
    only: Card | None
    blocks: tuple[DoorBlock, ...]
    venues: tuple[Venue, ...]
    names: tuple[str, ...]
    last: LastChange | None
    is_past: bool

    @classmethod
    def of(cls, row: Assignment, only: Card | None, session: SessionFacts) -> DoorPage:
        place = only.place_id if only else row.venue_id
        return cls(
            row=row,
            only=only,
            blocks=tuple(_block(group, session) for group in session.groups if group.label),
            venues=tuple(Venue.objects.filter(archived_at=None).exclude(pk=place)),
            names=tuple(exercise_names()),
            last=_last(row),
            is_past=row.on_date < today(),
        )


def find_door(actor: Actor, pk: int, card_pk: int | None) -> tuple[Assignment, Card | None, SessionFacts]:
    """The assignment, the one card if it is about one, and the session as it stands; else Http404."""
    row = changeable_assignment(actor, pk)
    if card_pk is None:
        return row, None, changed_session(session_facts(row.session, row.week), steps_for_all(row.pk))
    card = get_object_or_404(door_cards(actor, row), pk=card_pk)
    return row, card, changed_session(session_facts(row.session, row.week), steps_by_card(row.pk, [card.pk])[card.pk])


def asked_card(text: str) -> int | None:
    """The number of a card in an address; empty for everybody's."""
    if not text:
        return None
    if not text.isdigit() or len(text) > 18:
        raise Http404
    return int(text)


def door_url(pk: int, card_pk: int | None = None) -> str:
    url = reverse("desk:door", kwargs={"pk": pk})
    return f"{url}?card={card_pk}" if card_pk else url


def _block(group: GroupFacts, session: SessionFacts) -> DoorBlock:
    return DoorBlock(
        key=group.key,
        label=group.label,
        rounds=group.rounds_max,
        fewer=group.rounds_max - 1 if group.rounds_max > 1 else None,
        more=group.rounds_max + 1,
        is_off=all(any(step.code == "door_block" for step in line.against) for line in group.lines),
        lines=tuple(_line(line, f"{group.label}{place}", session) for place, line in enumerate(group.lines, 1)),
    )


def _line(line: LineFacts, label: str, session: SessionFacts) -> DoorLine:
    on = line.swap_ids[0] if line.against and line.swap_ids else line.exercise_id
    others = [pk for pk in (line.exercise_id, *line.swap_ids) if pk != on]
    known = session.exercises
    return DoorLine(line.key, label, _name(known, on), tuple((pk, _name(known, pk)) for pk in others if pk in known))


def _name(known: Any, pk: int) -> str:
    return known[pk].name if pk in known else _("another exercise")


def _last(row: Assignment) -> LastChange | None:
    change = undoable_change(row)
    if change is None:
        return None
    who = change.card.athlete.name if change.card else _("everybody")
    return LastChange(change, steps_text(steps_of(change.steps)), who)


@dataclass(frozen=True, slots=True)
class Effect:
    """One thing that happens, and to whom."""

    text: str
    who: str


@dataclass(frozen=True, slots=True)
class DoorPreview:
    row: Assignment
    only: Card | None
    title: str
    uuid: UUID
    changed: int
    given: int
    effects: tuple[Effect, ...]
    stays: tuple[Effect, ...]
    is_move: bool
    back_url: str

    @classmethod
    def of(cls, actor: Actor, row: Assignment, only: Card | None, step: DoorStep) -> DoorPreview:
        plans = preview_at_door(actor=actor, assignment=row, steps=[step], card=only)
        changed = [plan for plan in plans if plan.is_changed]
        return cls(
            row=row,
            only=only,
            title=step_text(step),
            uuid=uuid4(),
            changed=len(changed),
            given=len(plans),
            effects=_told((plan, plan_texts(plan)) for plan in plans),
            stays=_told((plan, stay_texts(plan)) for plan in plans),
            is_move=step.do == "venue",
            back_url=door_url(row.pk, only.pk if only else None),
        )


def _told(pairs: Iterable[tuple[CardPlan, Sequence[str]]]) -> tuple[Effect, ...]:
    """The same words once, with the names of those whom they are about."""
    found: dict[str, list[str]] = {}
    everybody = []
    for plan, texts in pairs:
        everybody.append(plan.held.card.athlete.name)
        for text in texts:
            found.setdefault(text, []).append(everybody[-1])
    return tuple(Effect(text, _who(names, everybody)) for text, names in found.items())


def _who(names: Sequence[str], everybody: Sequence[str]) -> str:
    """By name; of most of them, who is not meant."""
    others = [name for name in everybody if name not in names]
    if len(everybody) > 1 and not others:
        return _("everybody (%(n)s)") % {"n": len(everybody)}
    if len(others) <= MOST_BUT < len(names):
        return _("everybody but %(names)s") % {"names": ", ".join(others)}
    return ", ".join(names)


def plan_texts(plan: CardPlan) -> list[str]:
    """What would be different on this card."""
    pairs = zip(plan.layout, plan.held.revision.layout, strict=False)
    blocks = [_rounds_text(new, old) for new, old in pairs if new["rounds_max"] != old["rounds_max"]]
    lines = [_line_text(new, old) for new, old in zip(plan.lines, plan.held.lines, strict=True) if new is not old]
    off = [_("%(line)s is begun, and goes all the same: it is not allowed there") % {"line": line} for line in plan.off]
    return [text for text in (*off, *blocks, *lines) if text]


def _rounds_text(new: dict[str, Any], old: dict[str, Any]) -> str:
    told = {"label": new["label"], "now": new["rounds_max"], "was": old["rounds_max"]}
    return _("Block %(label)s: %(now)s rounds, was %(was)s") % told


def _line_text(new: CardLine, old: CardLine) -> str:
    told = {"label": new.label, "now": new.name, "was": old.name, "load": _load(new), "old": _load(old)}
    if new.status == LineStatus.DROPPED:
        if old.status == LineStatus.DROPPED:
            return ""
        why = new.trace[0] if new.trace else None
        reason = note_text(Note(why["code"], tuple(why["params"].items()))) if why else ""
        return f"{_('%(label)s %(was)s is off.') % told} {reason}".strip()
    if old.status == LineStatus.DROPPED:
        return _("%(label)s %(now)s is back: %(load)s") % told
    if new.exercise_id != old.exercise_id:
        return _("%(label)s %(now)s instead of %(was)s: %(load)s") % told
    return _("%(label)s %(now)s: %(load)s, was %(old)s") % told if told["load"] != told["old"] else ""


def _load(line: CardLine) -> str:
    if line.load_value is not None:
        return f"{number(line.load_value)} {line.load_unit}"
    return line.load_words or (_("no load") if line.load_rule == "none" else _("find it"))


def stay_texts(plan: CardPlan) -> list[str]:
    """What stays as it is, and why."""
    told = [{"what": stay.what or _("The card"), "why": WHYS[stay.why]} for stay in plan.stays]
    return [_("%(what)s stays: %(why)s") % one for one in told]


def made_text(change: DoorChange | None) -> str:
    """What a change did, told from what is stored, so that a repeat is told the same."""
    if change is None:
        return _("Nothing had to change.")
    n = change.revisions.filter(reason=RevisionReason.DOOR).count()
    return ngettext("Changed on %(n)s card.", "Changed on %(n)s cards.", n) % {"n": n}
