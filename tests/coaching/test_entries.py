"""Which facts count: the same for any order, any repeats."""

from __future__ import annotations

import random
from dataclasses import dataclass
from uuid import UUID

from hypothesis import given
from hypothesis import strategies as st

from coachhub.coaching.entries import counting, next_seq


@dataclass(frozen=True)
class Written:
    uuid: UUID
    seq: int = 1
    supersedes_uuid: UUID | None = None
    kind: str = "done"
    line_key: str = "p1"
    round: int = 1
    side: str = "both"


A, B, C = (UUID(int=number) for number in (1, 2, 3))


def test_correction_counts_even_if_it_arrives_first() -> None:
    old, new = Written(A), Written(B, 2, supersedes_uuid=A)
    assert [c.fact for c in counting([new, old]).values()] == [new]


def test_correction_counts_even_if_the_old_one_never_arrives() -> None:
    new = Written(B, 2, supersedes_uuid=A)
    assert [c.fact for c in counting([new]).values()] == [new]


def test_highest_seq_counts_and_the_coach_sees_both() -> None:
    early, late = Written(B, 1), Written(A, 2)
    (counted,) = counting([late, early]).values()
    assert (counted.fact, counted.rivals, counted.is_contested) == (late, (early,), True)


def test_equal_seq_is_settled_by_uuid() -> None:
    (counted,) = counting([Written(A), Written(B)]).values()
    assert counted.fact.uuid == B


def test_taken_back_set_leaves_its_slot_blank() -> None:
    assert counting([Written(A), Written(B, 2, supersedes_uuid=A, kind="void")]) == {}


def test_sides_are_slots_of_their_own() -> None:
    assert len(counting([Written(A, side="left"), Written(B, side="right")])) == 2


def test_next_seq_is_one_more_than_the_highest() -> None:
    assert (next_seq([]), next_seq([Written(A, 4), Written(B, 2)])) == (1, 5)


uuids = st.integers(1, 12).map(lambda n: UUID(int=n))
facts = st.builds(
    Written,
    uuid=uuids,
    seq=st.integers(1, 5),
    supersedes_uuid=st.none() | uuids,
    kind=st.sampled_from(["done", "skipped", "void"]),
    round=st.integers(1, 2),
    side=st.sampled_from(["both", "left"]),
)


@given(st.lists(facts, unique_by=lambda fact: fact.uuid), st.randoms(use_true_random=False))
def test_order_and_repeats_change_nothing(written: list[Written], chance: random.Random) -> None:
    again = [fact for fact in written for _ in range(chance.randint(1, 3))]
    chance.shuffle(again)
    first, second = counting(written), counting(again)
    assert {slot: c.fact for slot, c in first.items()} == {slot: c.fact for slot, c in second.items()}
