"""Lets the squad train: four weeks of sessions, and today's in full swing. All by the verbs that the pages use."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from decimal import Decimal
from random import Random
from typing import Final

from coachhub.base.clock import now
from coachhub.cards.actions import assign_session, log_entries, note_attendance
from coachhub.cards.models import (
    Assignment,
    AttendanceStatus,
    BestSource,
    Card,
    KnownBest,
    SetEntry,
    SetMark,
    SetQuality,
)
from coachhub.cards.queries import load_sheets
from coachhub.cards.queries.resolving import availability_of
from coachhub.cards.queries.session_facts import exercise_facts
from coachhub.cards.sheet import Sheet
from coachhub.coaching.facts import Mass
from coachhub.coaching.rungs import at_or_below, ladder_for
from coachhub.demo import health
from coachhub.demo.backdate import backdate
from coachhub.demo.club import DemoClub, Member
from coachhub.demo.data import Story
from coachhub.demo.days import at
from coachhub.demo.lifting import MINUTES_A_ROUND, Trainee, Written, new_uuid, train_block
from coachhub.library.models import Exercise, Venue
from coachhub.library.queries import venue_stock
from coachhub.people.models import AvailabilityStatus
from coachhub.plans.models import Session

SESSIONS_A_WEEK: Final = 2
PREPARATION: Final = timedelta(minutes=24)
OPTIONAL_SHARE: Final = 0.5
BEST_REPS: Final = 5
BEST_RIR_HALF: Final = 4
# A known best is what was lifted well, a start load is on the safe side of it.
TESTED_SHARE: Final = 0.97
START_SHARE: Final = 0.78


@dataclass(frozen=True, slots=True)
class Stage:
    """What the story is played with."""

    club: DemoClub
    venue: Venue
    sessions: list[Session]
    story: Story
    lifts: dict[int, float]
    rng: Random

    def trainee(self, member: Member, number: int) -> Trainee:
        """The athlete on the day of the session of that number."""
        return Trainee(member.person.strength, self.lifts, member.athlete.is_rir_taught, number, self.rng)


def make_stage(club: DemoClub, venue: Venue, sessions: list[Session], story: Story) -> Stage:
    keys = dict(Exercise.objects.filter(origin_key__in=story.lifts).values_list("origin_key", "pk"))
    lifts = {keys[key]: kg for key, kg in story.lifts.items()}
    return Stage(club, venue, sessions, story, lifts, Random(story.seed))


def play(stage: Stage, days: list[date], today: date) -> None:
    """Train on each of the days, then begin today's session."""
    note_bests(stage, days[0] - timedelta(days=10), 0, names=None)
    past = []
    for number, on_date in enumerate(days):
        health.before_session(stage.club, stage.story, number, on_date, today)
        past.append(_train(stage, number, on_date))
        health.after_session(stage.club, stage.story, number, on_date, stage.rng)
        if number in stage.story.bests_renewed_after:
            note_bests(stage, on_date, number, names=stage.story.main_lifts)
    backdate(past)
    _begin_today(stage, len(days), today)


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


def _begin_today(stage: Stage, number: int, today: date) -> None:
    """Cards for everybody, a few of them begun, and one report of pain."""
    _, cards = _assign(stage, number, today)
    for card, sheet, member in cards:
        rounds = stage.story.today.get(member.athlete.given_name)
        if rounds is not None:
            start = now() - timedelta(minutes=MINUTES_A_ROUND * (sum(rounds) + len(rounds)))
            _write(stage, card, member, _train_card(stage.trainee(member, number), sheet, rounds, start))
            SetEntry.objects.filter(card=card).update(received_at=now())
    health.hurt(stage.club, stage.story.today_pain, stage.rng)


def note_bests(stage: Stage, on_date: date, number: int, *, names: tuple[str, ...] | None) -> None:
    """Type in what the coach knows; with `names` only what tested athletes now do better in those lifts."""
    exercises = Exercise.objects.in_bulk(stage.lifts)
    facts, stock = exercise_facts(stage.lifts), venue_stock(stage.venue)
    rows = []
    for member in stage.club.members.values():
        for pk, exercise in exercises.items():
            is_main = exercise.origin_key in stage.story.main_lifts
            is_tested = is_main and member.person.bests == "tested"
            is_known = is_tested if names is not None else member.person.bests != "none"
            able = stage.trainee(member, number).able_kg(pk)
            if not is_known or able is None:
                continue
            share = TESTED_SHARE if is_tested else START_SHARE
            rung = at_or_below(Decimal(round(able * share, 2)), ladder_for(facts[pk], stock) or ())
            if rung is not None:
                rows.append(_best(stage, member, exercise, rung.mass, on_date, is_tested=is_tested))
    KnownBest.objects.bulk_create(rows)


def _best(stage: Stage, member: Member, exercise: Exercise, mass: Mass, on_date: date, *, is_tested: bool) -> KnownBest:
    return KnownBest(
        athlete=member.athlete,
        exercise=exercise,
        load_value=mass.value,
        load_unit=mass.unit,
        reps=BEST_REPS,
        rir_half=BEST_RIR_HALF if is_tested else 0,
        on_date=on_date,
        source=BestSource.TRAINING if is_tested else BestSource.COACH,
        noted_by_id=stage.club.coach.user_id,
    )
