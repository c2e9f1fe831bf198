"""Lets a squad train for twelve weeks.

A verb reads what it needs for one session and writes for one athlete: over seventy sessions of three squads that takes
minutes. So here cards are resolved by the same `coaching.resolve` from facts kept in hand (`demo.log`), made of the
same snapshots, and go in as rows, an evening at once. Today's session is given and logged by the verbs themselves
(`demo.tonight`), on top of this.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from random import Random
from typing import Final
from uuid import uuid5

from coachhub.cards.actions.logging_sets import entry_row
from coachhub.cards.actions.snapshots import layout_of, lines_of
from coachhub.cards.models import (
    Assignment,
    Attendance,
    AttendanceStatus,
    Card,
    CardLine,
    CardRevision,
    RevisionReason,
    SetEntry,
    SetMark,
    SetQuality,
)
from coachhub.cards.queries.resolving import Recipe
from coachhub.coaching.resolve import ResolvedCard
from coachhub.demo.club import Member
from coachhub.demo.days import at
from coachhub.demo.lifting import Trainee, Written, lettered, new_uuid, train_card
from coachhub.demo.rows import put_in
from coachhub.demo.stage import Evening, Stage
from coachhub.insight.models import EffortLoad, SessionNote

PREPARATION: Final = timedelta(minutes=24)
ARRIVAL: Final = timedelta(seconds=2)
ASKED_AFTER: Final = timedelta(minutes=20)
OPTIONAL_SHARE: Final = 0.5
LATE_MINUTES: Final = 20


@dataclass(frozen=True, slots=True)
class Trained:
    """One athlete's evening; nothing written where she was not there."""

    member: Member
    card: ResolvedCard
    written: list[Written]

    @property
    def is_there(self) -> bool:
        return bool(self.written)

    @property
    def first_at(self) -> datetime:
        return self.written[0].draft.client_at

    @property
    def last_at(self) -> datetime:
        return max(one.draft.client_at for one in self.written)


def train(stage: Stage, number: int, on_date: date) -> None:
    """Write one evening of the squad: cards, who came, sets, marks, effort."""
    evening = stage.evening(number, on_date)
    recipe = evening.recipe()
    trained = [_train(evening, recipe, member) for member in evening.there]
    assignment = _assign(evening, at(on_date - timedelta(days=1), 18, 30))
    cards, lines = _write_cards(stage, assignment, recipe, trained)
    _write_attendance(stage, number, cards, trained, at(on_date, stage.story.starts_at.hour, 5))
    _write_sets(stage, cards, lines, trained)
    put_in(effort_row(card, one) for card, one in zip(cards, trained, strict=True) if one.is_there)
    _write_notes(
        stage,
        number,
        dict(zip((one.member.person.name[0] for one in trained), zip(cards, trained, strict=True), strict=True)),
    )


def give(evening: Evening, made_at: datetime) -> None:
    """Write the cards of an evening that is still to come."""
    recipe = evening.recipe()
    coming = [Trained(member, recipe.resolve(member.athlete.pk), []) for member in evening.there]
    _write_cards(evening.stage, _assign(evening, made_at), recipe, coming)


def _assign(evening: Evening, made_at: datetime) -> Assignment:
    return Assignment.objects.create(
        session=evening.session,
        squad=evening.stage.squad,
        venue=evening.venue,
        on_date=evening.on_date,
        week=evening.week,
        created_by_id=evening.stage.coach.user_id,
        created_at=made_at,
    )


def _train(evening: Evening, recipe: Recipe, member: Member) -> Trained:
    card = recipe.resolve(member.athlete.pk)
    if evening.number in member.person.missed:
        return Trained(member, card, [])
    trainee = evening.trainee(member, recipe)
    start = at(evening.on_date, evening.stage.story.starts_at.hour) + PREPARATION
    written = train_card(trainee, card, _rounds(trainee, card), start)
    if evening.number in member.person.corrected:
        written = _mistyped(written, trainee.rng)
    return Trained(member, card, written)


def _rounds(trainee: Trainee, card: ResolvedCard) -> list[int]:
    """Everything that is asked for; an optional block if there is time."""
    return [
        0 if group.group.is_optional and trainee.rng.random() > OPTIONAL_SHARE else group.group.rounds_max
        for group in lettered(card)
    ]


def _mistyped(written: list[Written], rng: Random) -> list[Written]:
    """The first set was typed two reps too high, and put right a minute later."""
    first, *others = written
    right = replace(
        first.draft,
        uuid=new_uuid(rng),
        supersedes_uuid=first.draft.uuid,
        seq=first.draft.seq + 1,
        client_at=first.draft.client_at + timedelta(minutes=1),
        note="Typed too fast.",
    )
    wrong = replace(first.draft, reps=(first.draft.reps or 0) + 2)
    return [replace(first, draft=wrong, is_clean=None), replace(first, draft=right), *others]


def _write_cards(
    stage: Stage, assignment: Assignment, recipe: Recipe, trained: list[Trained]
) -> tuple[list[Card], list[list[CardLine]]]:
    """A card each, its first revision, and the lines of that."""
    cards = [
        Card(
            assignment=assignment,
            athlete_id=one.member.athlete.pk,
            session_revision=recipe.session.revision,
            digest=recipe.digest(one.member.athlete.pk),
            started_at=one.first_at + ARRIVAL if one.is_there else None,
            created_at=assignment.created_at,
        )
        for one in trained
    ]
    put_in(cards)
    revisions = [
        CardRevision(
            card_id=card.pk,
            number=card.revision_number,
            reason=RevisionReason.FIRST,
            layout=layout_of(one.card),
            made_at=card.created_at,
            made_by_id=stage.coach.user_id,
        )
        for card, one in zip(cards, trained, strict=True)
    ]
    put_in(revisions)
    lines = [_lines(one.card, revision) for one, revision in zip(trained, revisions, strict=True)]
    put_in(line for own in lines for line in own)
    return cards, lines


def _lines(card: ResolvedCard, revision: CardRevision) -> list[CardLine]:
    lines = lines_of(card)
    for position, line in enumerate(lines):
        line.revision_id, line.position = revision.pk, position
    return lines


def _status(one: Trained, number: int) -> AttendanceStatus:
    if not one.is_there:
        return AttendanceStatus.ABSENT
    return AttendanceStatus.LATE if number in one.member.person.late else AttendanceStatus.PRESENT


def _write_attendance(stage: Stage, number: int, cards: list[Card], trained: list[Trained], noted_at: datetime) -> None:
    put_in(
        Attendance(
            card_id=card.pk,
            status=_status(one, number),
            minutes_left=stage.story.minutes - LATE_MINUTES if _status(one, number) == AttendanceStatus.LATE else None,
            noted_at=noted_at,
            noted_by_id=stage.assistant.user_id,
        )
        for card, one in zip(cards, trained, strict=True)
    )


def _write_sets(stage: Stage, cards: list[Card], lines: list[list[CardLine]], trained: list[Trained]) -> None:
    rows = [
        (row, one)
        for card, own, she in zip(cards, lines, trained, strict=True)
        for row, one in _rows(stage, card, own, she)
    ]
    put_in(row for row, _ in rows)
    looks = [(row, one.is_clean) for row, one in rows]
    mark(stage, looks)
    stage.log.add_sets(looks)


def _rows(stage: Stage, card: Card, lines: list[CardLine], she: Trained) -> Iterator[tuple[SetEntry, Written]]:
    """Her phone writes it, or the assistant with the coach's tablet."""
    actor, by_key = she.member.actor or stage.assistant, {line.line_key: line for line in lines}
    for one in she.written:
        row = entry_row(card, by_key[one.draft.line_key], one.draft, actor)
        row.received_at = row.client_at + ARRIVAL
        yield row, one


def _write_notes(stage: Stage, number: int, cards: dict[str, tuple[Card, Trained]]) -> None:
    """What some told the coach at the session's end; read the morning after, but for what came last."""
    for row in stage.story.notes:
        if row["after"] != number:
            continue
        card, she = cards[row["athlete"]]
        note = SessionNote(
            uuid=uuid5(she.written[0].draft.uuid, "note"),
            card=card,
            text=row["text"],
            received_at=she.last_at + ASKED_AFTER,
            device_id=she.member.device_id,
        )
        if not row.get("is_unread", False):
            note.read_at, note.read_by_id = note.received_at + timedelta(hours=13), stage.coach.user_id
        note.save()


def mark(stage: Stage, rows: list[tuple[SetEntry, bool | None]]) -> None:
    """The assistant marks what was watched, right then."""
    put_in(
        SetMark(
            entry_id=row.pk,
            quality=SetQuality.CLEAN if is_clean else SetQuality.SHAKY,
            marked_at=row.received_at,
            marked_by_id=stage.assistant.require_user_id(),
        )
        for row, is_clean in rows
        if is_clean is not None
    )


def effort_row(card: Card, she: Trained) -> EffortLoad:
    """The less was left in reserve, the harder it felt; the minutes run from the warm-up to the last set."""
    reserves = [one.left for one in she.written if one.left is not None]
    mean = sum(reserves) / len(reserves) if reserves else 5.0
    minutes = round((she.last_at - she.first_at + PREPARATION).total_seconds() / 60) + 6
    return EffortLoad(
        uuid=uuid5(she.written[0].draft.uuid, "effort"),
        card_id=card.pk,
        effort=max(2, min(9, round(8 - 0.6 * mean))),
        minutes=minutes,
        received_at=she.last_at + ASKED_AFTER,
        device_id=she.member.device_id,
    )


WRITTEN: Final = (Assignment, Attendance, Card, CardLine, CardRevision, EffortLoad, SetEntry, SetMark)
"""The models that get rows here."""
