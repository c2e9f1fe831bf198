"""An athlete's own activation work on the card."""

from __future__ import annotations

from dataclasses import replace

from coachhub.coaching.facts import AthleteFacts, ExerciseFacts, OwnItem, RegionLoad, RestrictionFacts, SessionFacts
from coachhub.coaching.notation import parse
from coachhub.coaching.own_work import item_seconds, with_own_work
from coachhub.coaching.resolve import resolve
from tests.coaching.samples import ADULT, DAY, GYM, SQUAT, line, session


def exercise(number: int, region: str = "ankle", *needs: str) -> ExerciseFacts:
    return ExerciseFacts(
        number, f"Own {number}", ("ankle",), "reps", "none", "bilateral", regions=(RegionLoad(region, "both"),),
        is_regions_reviewed=True, needs=tuple((kind,) for kind in needs), needs_supervision=False,
    )  # fmt: skip


def item(number: int, dose: str = "10", sets: int = 2, **more: str) -> OwnItem:
    return OwnItem(f"o{number}", exercise(number, **more), parse(dose), sets)


def athlete(*items: OwnItem) -> AthleteFacts:
    return replace(ADULT, own_work=items)


def with_activation(minutes: int | None) -> SessionFacts:
    """A warm-up, an activation of one exercise (2 rounds of 10: 30 s to start, 2 x 30 s, 15 s of way), a squat."""
    (strength,) = session(line("5 @ 60 kg")).groups
    warm, quiet = exercise(90), exercise(91)
    groups = (
        replace(strength, key="g8", label="", segment="warm_up", lines=(line("10", warm),)),
        replace(
            strength, key="g9", label="", segment="activation", segment_minutes=minutes, rounds_min=2, rounds_max=2,
            rest_min_s=None, rest_max_s=None, lines=(replace(line("10", quiet), sets=2),),
        ),
        strength,
    )  # fmt: skip
    return SessionFacts(1, 1, "All parts", groups, {SQUAT.id: SQUAT, 90: warm, 91: quiet})


def keys(written: SessionFacts, *items: OwnItem) -> list[tuple[str, tuple[str, ...]]]:
    groups = with_own_work(written.groups, items)
    return [(group.key, tuple(one.key for one in group.lines)) for group in groups if group.key.startswith("own")]


def test_own_work_follows_the_written_activation() -> None:
    order = [group.key for group in with_own_work(with_activation(8).groups, [item(50)])]
    assert order == ["g8", "g9", "own", "g1"]


def test_own_work_without_an_activation_follows_the_warm_up() -> None:
    groups = tuple(group for group in with_activation(8).groups if group.segment != "activation")
    assert [group.key for group in with_own_work(groups, [item(50)])] == ["g8", "own", "g1"]


def test_own_work_of_a_session_of_strength_alone_comes_first() -> None:
    assert [group.key for group in with_own_work(session(line("5")).groups, [item(50)])] == ["own", "g1"]


def test_own_work_beyond_the_minutes_of_the_part_is_for_if_time() -> None:
    # 2 x (10 x 3 s + 15 s) = 90 s an item; 5 minutes less the written 90 s leave room for two.
    items = [item(50), item(51), item(52)]
    assert [item_seconds(one) for one in items] == [90, 90, 90]
    assert keys(with_activation(5), *items) == [("own", ("o50", "o51")), ("own_if_time", ("o52",))]
    assert keys(with_activation(6), *items) == [("own", ("o50", "o51", "o52"))]


def test_own_work_keeps_its_first_item_in_a_part_that_is_full() -> None:
    assert keys(with_activation(1), item(50), item(51)) == [("own", ("o50",)), ("own_if_time", ("o51",))]


def test_own_work_after_one_that_is_too_long_waits_even_where_it_would_fit() -> None:
    long, short = item(50, "100", 3), item(51)
    assert keys(with_activation(5), short, long, item(52)) == [("own", ("o51",)), ("own_if_time", ("o50", "o52"))]


def test_own_work_that_the_session_has_already_is_not_asked_for_twice() -> None:
    assert keys(with_activation(8), item(91), item(50)) == [("own", ("o50",))]


def test_own_work_is_resolved_against_restrictions_and_venue_like_any_line() -> None:
    person = athlete(item(50, region="knee"), OwnItem("o51", exercise(51, "ankle", "cable"), parse("10"), 1), item(52))
    person = replace(person, restrictions=(RestrictionFacts(1, "region", region="knee"),))
    own = [one for one in resolve(with_activation(8), person, GYM, DAY).lines if one.line.key.startswith("o")]
    assert [(one.line.key, one.status, one.trace[0].code if one.trace else "") for one in own] == [
        ("o50", "dropped", "restricted"),
        ("o51", "dropped", "no_equipment"),
        ("o52", "planned", ""),
    ]
