"""What stands in for an exercise. The order of what an alternative keeps is common practice."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from coachhub.coaching.facts import (
    AthleteFacts,
    ExerciseFacts,
    GroupFacts,
    LineFacts,
    ListedSwap,
    PainFacts,
    RegionLoad,
    RestrictionFacts,
    SessionFacts,
    VenueFacts,
)
from coachhub.coaching.loading import Stock
from coachhub.coaching.notation import parse
from coachhub.coaching.obstacles import obstacles
from coachhub.coaching.resolve import ResolvedCard, ResolvedLine, resolve
from coachhub.coaching.swaps import alternatives
from tests.coaching.samples import ADULT, BRIDGE, DAY, GOBLET, GYM, HIP_HINGE, MINOR, ROAD, SQUAT, codes, line, session

KNEES = (RegionLoad("knee", "both"),)
BODY_SQUAT = ExerciseFacts(
    10, "Squat to a box", ("squat",), "reps", "none", "bilateral",
    regions=KNEES, is_regions_reviewed=True, needs_supervision=False,
)  # fmt: skip
PISTOL = replace(BODY_SQUAT, id=11, name="Single-leg squat", laterality="unilateral")
SQUAT_JUMP = replace(BODY_SQUAT, id=12, name="Squat jump", patterns=("jump", "squat"), is_impact=True)
LIBRARY = (SQUAT, GOBLET, HIP_HINGE, BRIDGE, BODY_SQUAT, PISTOL, SQUAT_JUMP)


def on_the_road(*lines: LineFacts, library: tuple[ExerciseFacts, ...] = LIBRARY, **more: object) -> ResolvedCard:
    written = replace(session(*lines), library=library, **more)  # type: ignore[arg-type]
    return resolve(written, ADULT, ROAD, DAY)


def only(card: ResolvedCard) -> ResolvedLine:
    (found,) = card.lines
    return found


def params(resolved: ResolvedLine, code: str) -> dict[str, str]:
    return next(dict(step.params) for step in resolved.trace if step.code == code)


def test_swap_without_a_listed_one_keeps_the_pattern_and_says_what_differs() -> None:
    found = only(on_the_road(line("5 @ 60 kg")))
    assert found.exercise == BODY_SQUAT
    assert params(found, "swapped") == {"written": "Front squat", "to": "Squat to a box"}
    assert params(found, "swap_keeps") == {"keeps": "pattern,direction,sides"}
    assert params(found, "swap_differs") == {"differs": "load"}
    assert params(found, "swap_close") == {"names": "Single-leg squat, Squat jump"}


def test_swap_listed_by_the_coach_goes_first_across_pattern() -> None:
    found = only(on_the_road(line("5 @ 60 kg", swaps=(BRIDGE.id,))))
    assert (found.exercise, codes(found)[-1]) == (BRIDGE, "pattern_lost")
    assert params(found, "pattern_lost") == {"pattern": "squat"}


def test_swap_listed_by_the_library_goes_before_the_ranked() -> None:
    exercises = {one.id: one for one in LIBRARY}
    listed = {SQUAT.id: (ListedSwap(SQUAT_JUMP.id, "harder"), ListedSwap(PISTOL.id, "equipment"))}
    found = only(on_the_road(line("5 @ 60 kg"), exercises=exercises, listed=listed))
    assert (found.exercise, found.dose.per) == (PISTOL, "side")
    assert "swap_from_library" in codes(found)


def test_swap_listed_to_spare_another_region_does_not_serve() -> None:
    exercises = {one.id: one for one in LIBRARY}
    listed = {SQUAT.id: (ListedSwap(HIP_HINGE.id, "spares", "shoulder"),)}
    athlete = replace(ADULT, restrictions=(RestrictionFacts(1, "region", region="knee"),))
    written = replace(session(line("5 @ 60 kg"), exercises=exercises), listed=listed)
    assert only(resolve(written, athlete, GYM, DAY)).status == "dropped"


def test_swap_to_a_harder_one_of_the_family_is_never_found() -> None:
    easy = replace(SQUAT, family="squat", family_rank=2)
    harder, easier = (replace(BODY_SQUAT, id=30 + n, family="squat", family_rank=n) for n in (3, 1))
    assert alternatives((harder, easier), line("5"), easy, frozenset()) == (easier,)


def test_swap_that_wants_a_spotter_never_stands_in_for_one_that_wants_none() -> None:
    spotted = replace(SQUAT, id=20, spotting="safety_arms")
    assert alternatives((spotted,), line("8", BODY_SQUAT), BODY_SQUAT, frozenset()) == ()
    assert alternatives((BODY_SQUAT,), line("8", spotted), spotted, frozenset()) == (BODY_SQUAT,)


def test_swap_never_inherits_the_load() -> None:
    found = only(on_the_road(line("5 @ 60 kg")))
    assert (found.load, found.load_high) == (None, None)


def test_card_with_nothing_left_for_a_pattern_says_so() -> None:
    card = on_the_road(line("5 @ 60 kg", HIP_HINGE), library=(SQUAT, BODY_SQUAT))
    assert codes(only(card)) == ["no_equipment", "dropped", "pattern_lost"]
    assert params(only(card), "pattern_lost") == {"pattern": "hinge"}


# Properties, over libraries, athletes and venues drawn at random.

REGIONS = ("knee", "hip", "low_back", "shoulder")
KINDS = ("barbell", "rack", "dumbbell", "mini_band")
PATTERNS = ("squat", "hinge", "push", "pull")


@st.composite
def exercises(draw: st.DrawFn) -> tuple[ExerciseFacts, ...]:
    def one(number: int) -> ExerciseFacts:
        return ExerciseFacts(
            id=number,
            name=f"Exercise {number}",
            patterns=tuple(draw(st.lists(st.sampled_from(PATTERNS), min_size=1, max_size=2, unique=True))),
            measure="reps",
            load_meaning=draw(st.sampled_from(("none", "bar_total", "per_hand"))),
            laterality=draw(st.sampled_from(("bilateral", "unilateral"))),
            regions=tuple(RegionLoad(r, "both") for r in draw(st.lists(st.sampled_from(REGIONS), unique=True))),
            is_regions_reviewed=draw(st.booleans()),
            is_impact=draw(st.booleans()),
            needs_supervision=draw(st.booleans()),
            needs=tuple((kind,) for kind in draw(st.lists(st.sampled_from(KINDS), max_size=2, unique=True))),
            family=draw(st.sampled_from(("", "a"))),
            family_rank=number,
        )

    return tuple(one(number) for number in range(1, draw(st.integers(2, 10))))


@st.composite
def cases(draw: st.DrawFn) -> tuple[SessionFacts, AthleteFacts, VenueFacts]:
    library = draw(exercises())
    chosen = draw(st.lists(st.sampled_from(library), min_size=1, max_size=4, unique=True))
    lines = tuple(LineFacts(f"p{one.id}", one.id, parse("5"), 3) for one in chosen)
    group = GroupFacts("g1", "A", "strength", None, False, 3, 3, 120, 150, "", None, "", lines)
    athlete = replace(
        draw(st.sampled_from((ADULT, MINOR))),
        restrictions=tuple(
            RestrictionFacts(n, "region", region=region)
            for n, region in enumerate(draw(st.lists(st.sampled_from(REGIONS), max_size=2, unique=True)))
        ),
        pains=tuple(
            PainFacts(n, region, "both", draw(st.integers(0, 10)), False)
            for n, region in enumerate(draw(st.lists(st.sampled_from(REGIONS), max_size=1)))
        ),
    )
    kinds = frozenset(draw(st.lists(st.sampled_from(KINDS), unique=True)))
    venue = VenueFacts(3, draw(st.booleans()), "kg", kinds, Stock("kg"))
    by_id = {one.id: one for one in library}
    return SessionFacts(1, 1, "Any", (group,), by_id, library=library), athlete, venue


@settings(max_examples=300)
@given(cases())
def test_what_stands_in_is_never_restricted_unreviewed_or_without_equipment(
    case: tuple[SessionFacts, AthleteFacts, VenueFacts],
) -> None:
    written, athlete, venue = case
    for resolved in resolve(written, athlete, venue, DAY).lines:
        if resolved.status == "planned":
            assert obstacles(resolved.exercise, resolved.dose, athlete, venue) == ()
            assert resolved.exercise.is_regions_reviewed or resolved.exercise.id == resolved.written_id


@settings(max_examples=300)
@given(cases())
def test_no_exercise_stands_twice_on_a_card(case: tuple[SessionFacts, AthleteFacts, VenueFacts]) -> None:
    planned = [one.exercise.id for one in resolve(*case, DAY).lines if one.status == "planned"]
    assert len(planned) == len(set(planned))


@settings(max_examples=300)
@given(cases())
def test_resolving_what_was_chosen_chooses_it_again(case: tuple[SessionFacts, AthleteFacts, VenueFacts]) -> None:
    written, athlete, venue = case
    card = resolve(written, athlete, venue, DAY)
    (group,) = written.groups
    planned = [one for one in card.lines if one.status == "planned"]
    lines = tuple(replace(one.line, exercise_id=one.exercise.id) for one in planned)
    again = resolve(replace(written, groups=(replace(group, lines=lines),)), athlete, venue, DAY)
    assert [one.exercise.id for one in again.lines] == [one.exercise.id for one in planned]


@settings(max_examples=100)
@given(cases(), st.randoms())
def test_order_of_the_library_changes_no_card(
    case: tuple[SessionFacts, AthleteFacts, VenueFacts], random: object
) -> None:
    written, athlete, venue = case
    shuffled = list(written.library)
    random.shuffle(shuffled)  # type: ignore[attr-defined]
    assert resolve(replace(written, library=tuple(shuffled)), athlete, venue, DAY) == resolve(
        written, athlete, venue, DAY
    )
