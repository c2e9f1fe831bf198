"""Which patterns a session covers, and what is proposed for a gap."""

from __future__ import annotations

import pytest

from coachhub.coaching.coverage import (
    BlockSize,
    Coverage,
    CoverageLine,
    Covered,
    Gap,
    Movement,
    Suggestion,
    coverage,
)


def moves(number: int, name: str, *patterns: str, needs: tuple[str, ...] = (), is_loaded: bool = False) -> Movement:
    return Movement(number, name, patterns, tuple(frozenset([kind]) for kind in needs), is_loaded)


SQUAT = moves(1, "Front squat", "squat", needs=("barbell", "rack"))
JUMP = moves(2, "Squat jump", "squat", "jump")
HINGE = moves(3, "Romanian deadlift", "hinge", needs=("barbell",))
PUSH = moves(4, "Push-up", "push", "trunk")
PULL = moves(5, "Inverted row", "pull", needs=("barbell",))


def line(label: str, movement: Movement, part: str = "strength") -> CoverageLine:
    return CoverageLine(label, part, movement)


FOUR_OF_FIVE = [line("A1", SQUAT), line("A2", JUMP), line("B1", HINGE), line("B2", PUSH), line("B3", PULL)]


def gap_of(found: Coverage, pattern: str) -> Gap:
    return next(gap for gap in found.gaps if gap.pattern == pattern)


def test_coverage_names_the_lines_of_each_pattern() -> None:
    found = coverage(FOUR_OF_FIVE)

    assert found.primary == (
        Covered("hinge", ("B1",)),
        Covered("squat", ("A1", "A2")),
        Covered("lunge", ()),
        Covered("push", ("B2",)),
        Covered("pull", ("B3",)),
    )
    assert found.further == (Covered("carry", ()), Covered("trunk", ("B2",)), Covered("jump", ("A2",)))
    assert [(gap.code, gap.pattern) for gap in found.gaps] == [("gap", "lunge"), ("gap", "carry")]


@pytest.mark.parametrize(
    ("part", "labels"),
    [
        ("warm_up", ()),
        ("activation", ()),
        ("athleticism", ("1",)),
        ("strength", ("1",)),
        ("conditioning", ("1",)),
        ("cool_down", ()),
    ],
)
def test_coverage_counts_only_the_parts_that_train(part: str, labels: tuple[str, ...]) -> None:
    found = coverage([line("1", SQUAT, part)])

    assert found.primary[1] == Covered("squat", labels)


def test_coverage_of_nothing_misses_everything() -> None:
    found = coverage([])

    assert [gap.pattern for gap in found.gaps] == ["hinge", "squat", "lunge", "push", "pull", "carry", "trunk", "jump"]


def test_suggestion_uses_the_equipment_that_the_session_uses() -> None:
    library = [
        moves(10, "Cable lunge", "lunge", needs=("cable",)),
        moves(11, "Barbell reverse lunge", "lunge", needs=("barbell",)),
    ]

    gap = gap_of(coverage(FOUR_OF_FIVE, library=library), "lunge")

    assert gap == Gap("gap_with_suggestion", "lunge", Suggestion(library[1], None))


def test_suggestion_may_use_what_is_always_there() -> None:
    wall = moves(10, "Wall lunge", "lunge", needs=("wall",))

    without = coverage(FOUR_OF_FIVE, library=[wall])
    found = coverage(FOUR_OF_FIVE, library=[wall], always_there=frozenset({"wall"}))

    assert gap_of(without, "lunge").suggestion is None
    assert gap_of(found, "lunge").suggestion == Suggestion(wall, None)


@pytest.mark.parametrize(
    ("better", "worse"),
    [
        (moves(10, "Reverse lunge", "lunge"), moves(11, "A carry in lunges", "carry", "lunge")),
        (moves(10, "Reverse lunge", "lunge"), moves(11, "A lunge with a jump", "lunge", "jump")),
        (moves(10, "Reverse lunge", "lunge", is_loaded=True), moves(11, "Assisted lunge", "lunge")),
        (moves(10, "Diagonal lunge", "lunge"), moves(11, "Reverse lunge", "lunge")),
    ],
    ids=["pattern first", "pattern alone", "loaded", "name"],
)
def test_suggestion_takes_the_plainest_exercise(better: Movement, worse: Movement) -> None:
    gap = gap_of(coverage(FOUR_OF_FIVE, library=[worse, better]), "lunge")

    assert gap.suggestion == Suggestion(better, None)


def test_suggestion_is_never_an_exercise_of_the_session() -> None:
    warm_up = moves(10, "Walking lunge", "lunge")

    found = coverage([line("1", warm_up, "warm_up"), *FOUR_OF_FIVE], library=[warm_up])

    assert gap_of(found, "lunge") == Gap("gap", "lunge", None)


def test_suggestions_go_to_the_smallest_block_and_never_make_five() -> None:
    library = [moves(10 + n, pattern, pattern) for n, pattern in enumerate(("hinge", "squat", "lunge", "push"))]
    blocks = [BlockSize(1, "A", 3), BlockSize(2, "B", 2)]

    found = coverage([], library=library, blocks=blocks)

    placed = [gap.suggestion.block.label if gap.suggestion.block else "" for gap in found.gaps if gap.suggestion]
    assert placed == ["B", "A", "B", ""]
