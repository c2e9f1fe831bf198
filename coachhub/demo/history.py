"""Lets the squad train: four weeks of sessions, and today's in full swing. All by the verbs that the pages use."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, datetime, timedelta
from random import Random
from typing import Final

from coachhub.base.clock import now
from coachhub.cards.actions import assign_session, log_entries, note_attendance
from coachhub.cards.models import (
    Assignment,
    AttendanceStatus,
    Card,
    SetMark,
    SetQuality,
)
from coachhub.cards.queries import load_sheets
from coachhub.cards.queries.resolving import availability_of
from coachhub.cards.sheet import Sheet
from coachhub.demo import bests, health
from coachhub.demo.backdate import backdate
from coachhub.demo.club import Member
from coachhub.demo.days import at
from coachhub.demo.lifting import MINUTES_A_ROUND, Trainee, Written, new_uuid, train_block
from coachhub.demo.stage import Stage
from coachhub.people.models import AvailabilityStatus

SESSIONS_A_WEEK: Final = 2
PREPARATION: Final = timedelta(minutes=24)
OPTIONAL_SHARE: Final = 0.5


def play(stage: Stage, days: list[date], today: date) -> None:
    """Train on each of the days, then begin today's session."""
    bests.note_start(stage, days[0] - timedelta(days=10))
    past = []
    for number, on_date in enumerate(days):
        health.before_session(stage.club, stage.story, number, on_date, today)
        past.append(_train(stage, number, on_date))
        health.after_session(stage.club, stage.story, number, on_date, stage.rng)
        if number in stage.story.bests_renewed_after:
            bests.note_done(stage, on_date)
    backdate([*past, _begin_today(stage, len(days), today)])
    health.hurt(stage.club, stage.story.today_pain, stage.rng)


def _assign(stage: Stage, number: int, on_date: date) -> tuple[Assignment, list[tuple[Card, Sheet, Member]]]:
    """Give the session of that number to everyone who is not out."""
    members = {member.athlete.pk: member for member in stage.club.members.values()}
    status = availability_of(list(members), on_date)
    assignment = assign_session(
        actor=stage.club.coach,
        session=stage.sessions[number % len(stage.sessions)],
        squad=stage.club.squad,
        athletes=[m.athlete for pk, m in members.items() if status[pk] != AvailabilityStatus.OUT],
        venue=stage.venue,
        on_date=on_date,
        week=number // SESSIONS_A_WEEK + 1,
    )
    rows = Card.objects.filter(assignment=assignment)
    cards = {card.pk: card for card in rows.select_related("assignment")}
    sheets = load_sheets(rows)
    return assignment, [(cards[sheet.card_id], sheet, members[sheet.athlete_id]) for sheet in sheets]


def _train(stage: Stage, number: int, on_date: date) -> Assignment:
    assignment, cards = _assign(stage, number, on_date)
    for card, sheet, member in cards:
        if number in member.person.missed:
            note_attendance(actor=stage.club.assistant, card=card, status=AttendanceStatus.ABSENT)
            continue
        rounds = [
            0 if group.is_optional and stage.rng.random() > OPTIONAL_SHARE else group.rounds_max
            for group in sheet.blocks
        ]
        written = _train_card(stage.trainee(member, number), sheet, rounds, at(on_date, 17) + PREPARATION)
        is_corrected = number in member.person.corrected
        _write(stage, card, member, _mistyped(written, stage.rng) if is_corrected else written)
    return assignment


def _train_card(trainee: Trainee, sheet: Sheet, rounds: Iterable[int], start: datetime) -> list[Written]:
    written: list[Written] = []
    for group, count in zip(sheet.blocks, rounds, strict=False):
        written += train_block(trainee, group, count, start)
        start += timedelta(minutes=MINUTES_A_ROUND * (count + 1))
    return written


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
    return [Written(wrong, None), Written(right, first.is_clean), *others]


def _write(stage: Stage, card: Card, member: Member, written: list[Written]) -> None:
    """Her phone writes it, or the assistant with the coach's tablet; the assistant marks what was watched."""
    actor = member.actor or stage.club.assistant
    stored = log_entries(actor=actor, card=card, drafts=[one.draft for one in written])
    SetMark.objects.bulk_create(
        SetMark(
            entry=answer.entry,
            quality=SetQuality.CLEAN if one.is_clean else SetQuality.SHAKY,
            marked_at=now(),
            marked_by_id=stage.club.assistant.require_user_id(),
        )
        for one, answer in zip(written, stored, strict=True)
        if one.is_clean is not None
    )


def _begin_today(stage: Stage, number: int, today: date) -> Assignment:
    """Cards for everybody, a few of them begun."""
    assignment, cards = _assign(stage, number, today)
    for card, sheet, member in cards:
        rounds = stage.story.today.get(member.athlete.given_name)
        if rounds is not None:
            start = now() - timedelta(minutes=MINUTES_A_ROUND * (sum(rounds) + len(rounds)))
            _write(stage, card, member, _train_card(stage.trainee(member, number), sheet, rounds, start))
    return assignment
