"""Phones that lose replies, send twice and meet again: nothing is lost, nothing counts twice, all see the same."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from decimal import Decimal
from itertools import product
from uuid import UUID

import pytest
from django.db import transaction
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule

from coachhub.base.clock import now
from coachhub.cards.actions import EntryDraft, log_entries
from coachhub.cards.models import SetEntry
from coachhub.coaching.entries import Slot, counting, next_seq
from coachhub.coaching.facts import Mass
from tests.cards.conftest import Evening

PHONES = (0, 1, 2)
SLOTS: tuple[Slot, ...] = (("a", 1, "both"), ("a", 2, "both"), ("b", 1, "left"))


@dataclass(frozen=True)
class Fact:
    uuid: UUID
    seq: int
    supersedes_uuid: UUID | None
    kind: str
    line_key: str
    round: int
    side: str
    reps: int


@dataclass
class Phone:
    """`seen` is what its page shows; `unsent` what nobody has confirmed to it yet."""

    seen: dict[UUID, Fact] = field(default_factory=dict)
    unsent: list[Fact] = field(default_factory=list)


def state(facts: Sequence[Fact]) -> dict[Slot, list[UUID]]:
    """Per slot the fact that counts, then those that stand against it."""
    return {slot: [c.fact.uuid, *(rival.uuid for rival in c.rivals)] for slot, c in counting(facts).items()}


class Card(RuleBasedStateMachine):
    """One card on three phones and a server that keeps the first fact under each uuid."""

    def __init__(self) -> None:
        super().__init__()
        self.phones = [Phone() for _ in PHONES]
        self.server: dict[UUID, Fact] = {}
        self.made: list[Fact] = []
        self.chance = random.Random(0)

    @rule(what=st.sampled_from([*product(PHONES, SLOTS, ["done", "skipped", "void"])]))
    def write(self, what: tuple[int, Slot, str]) -> None:
        """A set on a blank slot, or a correction of what the phone sees there."""
        number, slot, kind = what
        phone = self.phones[number]
        shown = counting(phone.seen.values()).get(slot)
        before = shown.fact.uuid if shown else None
        uuid = UUID(int=self.chance.getrandbits(128))
        fact = Fact(uuid, next_seq(phone.seen.values()), before, kind, *slot, len(self.made))
        phone.seen[uuid] = fact
        phone.unsent.append(fact)
        self.made.append(fact)

    @rule(what=st.sampled_from([*product(PHONES, range(1, 6), [True, False])]))
    def send(self, what: tuple[int, int, bool]) -> None:
        """The same batch one to five times, shuffled; without an answer the phone will send it again."""
        number, times, is_answered = what
        phone = self.phones[number]
        posts = phone.unsent * times
        self.chance.shuffle(posts)
        for fact in posts:
            self.server.setdefault(fact.uuid, fact)
        if is_answered:
            phone.unsent.clear()

    @precondition(lambda self: self.server)
    @rule(number=st.sampled_from(PHONES))
    def fetch(self, number: int) -> None:
        self.phones[number].seen.update(self.server)

    @invariant()
    def nothing_stored_twice_or_made_up(self) -> None:
        assert set(self.server) <= {fact.uuid for fact in self.made}

    @invariant()
    def a_corrected_fact_is_never_shown_where_its_correction_is_known(self) -> None:
        for known in (self.server, *(phone.seen for phone in self.phones)):
            corrected = {fact.supersedes_uuid for fact in known.values()}
            shown = {uuid for uuids in state([*known.values()]).values() for uuid in uuids}
            assert corrected.isdisjoint(shown)

    def teardown(self) -> None:
        for number in PHONES:
            self.send((number, 1, True))
        for number in PHONES:
            self.fetch(number)
        assert set(self.server) == {fact.uuid for fact in self.made}
        assert [state([*phone.seen.values()]) for phone in self.phones] == [state(self.made)] * len(PHONES)


Card.TestCase.settings = settings(max_examples=2000, stateful_step_count=12, deadline=None)
TestCard = Card.TestCase


@st.composite
def posts(draw: st.DrawFn) -> list[tuple[int, int | None, str, int]]:
    """Sets of one line: round, which earlier one it corrects, kind, reps."""
    made: list[tuple[int, int | None, str, int]] = []
    for number in range(draw(st.integers(1, 6))):
        corrects = draw(st.none() | st.integers(0, number - 1)) if number else None
        round_number = made[corrects][0] if corrects is not None else draw(st.integers(1, 3))
        made.append(
            (round_number, corrects, draw(st.sampled_from(["done", "skipped", "void"])), draw(st.integers(1, 9)))
        )
    return made


def drafts_of(evening: Evening, written: list[tuple[int, int | None, str, int]]) -> list[EntryDraft]:
    moment = now()
    return [
        EntryDraft(
            UUID(int=number + 1),
            evening.squat.line_key,
            round_number,
            moment,
            seq=number + 1,
            kind=kind,
            reps=reps,
            load=Mass(Decimal(60), "kg"),
            supersedes_uuid=None if corrects is None else UUID(int=corrects + 1),
        )
        for number, (round_number, corrects, kind, reps) in enumerate(written)
    ]


def outcome(
    evening: Evening, batches: Sequence[Sequence[EntryDraft]]
) -> tuple[dict[Slot, tuple[UUID, int | None]], int]:
    """What counts after these posts, and how many rows there are; all of it undone again."""
    with transaction.atomic():
        for batch in batches:
            log_entries(actor=evening.phone, card=evening.card(), drafts=batch)
        rows = list(SetEntry.objects.all())
        transaction.set_rollback(True)
    return {slot: (c.fact.uuid, c.fact.reps) for slot, c in counting(rows).items()}, len(rows)


@pytest.mark.django_db
@given(written=posts(), times=st.integers(1, 5), size=st.integers(1, 4), chance=st.randoms(use_true_random=False))
@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_stored_batches_end_alike_sent_once_or_five_times_shuffled(
    evening: Evening,
    written: list[tuple[int, int | None, str, int]],
    times: int,
    size: int,
    chance: random.Random,
) -> None:
    drafts = drafts_of(evening, written)
    again = [replace(draft) for draft in drafts for _ in range(times)]
    chance.shuffle(again)
    batches = [again[at : at + size] for at in range(0, len(again), size)]
    assert outcome(evening, batches) == outcome(evening, [drafts])
