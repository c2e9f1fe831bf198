"""Who shares a station: everybody once, in twos and threes, wishes before plates. Costs: common practice."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from coachhub.coaching.partners import Lifter, Wishes, partners, spread

Groups = tuple[tuple[int, ...], ...]


def lifters(*loads: int) -> list[Lifter]:
    return [Lifter(place, 1, Decimal(load)) for place, load in enumerate(loads)]


def pairs(*wanted: tuple[int, int]) -> frozenset[frozenset[int]]:
    return frozenset(frozenset(pair) for pair in wanted)


def broken(groups: Groups, wishes: Wishes) -> int:
    return sum(pair <= set(group) for group in groups for pair in wishes.apart)


def partitions(ids: tuple[int, ...]) -> Iterator[Groups]:
    """Every way to share out these people in twos and threes."""
    if not ids:
        yield ()
    for size in (1, 2):
        for others in combinations(ids[1:], size) if len(ids) > size else ():
            group = (ids[0], *others)
            for rest in partitions(tuple(pk for pk in ids if pk not in group)):
                yield (group, *rest)


def with_one_three(ids: tuple[int, ...]) -> list[Groups]:
    return [groups for groups in partitions(ids) if sum(len(g) == 3 for g in groups) == len(ids) % 2]


def kilograms(groups: Groups, people: list[Lifter]) -> Decimal:
    by_id = {one.id: one for one in people}
    return sum((spread([by_id[pk] for pk in group]) for group in groups), Decimal(0))


people = st.lists(
    st.builds(
        Lifter,
        id=st.integers(1, 99),
        exercise_id=st.sampled_from([None, 1, 2]),
        load_kg=st.none() | st.integers(8, 60).map(lambda n: Decimal(n) * Decimal("2.5")),
        hole=st.none() | st.integers(1, 20),
    ),
    max_size=16,
    unique_by=lambda one: one.id,
)


def test_nearest_loads_share_a_station() -> None:
    assert partners(lifters(60, 100, 62, 97)) == ((0, 2), (3, 1))


def test_odd_number_makes_one_three() -> None:
    assert partners(lifters(60, 100, 62, 97, 95)) == ((0, 2), (4, 3, 1))


def test_nobody_one_and_three() -> None:
    assert (partners([]), partners(lifters(50)), partners(lifters(50, 60, 70))) == ((), ((0,),), ((0, 1, 2),))


def test_same_hole_goes_before_a_few_kilograms() -> None:
    group = [Lifter(1, 1, Decimal(60), 9), Lifter(2, 1, Decimal(60), 14), Lifter(3, 1, Decimal(65), 9),
             Lifter(4, 1, Decimal(65), 14)]  # fmt: skip

    assert partners(group) == ((1, 3), (2, 4))


def test_another_exercise_is_another_station() -> None:
    group = [Lifter(1, 1, Decimal(60)), Lifter(2, 2, Decimal(60)), Lifter(3, 1, Decimal(90)), Lifter(4, 2, Decimal(90))]

    assert partners(group) == ((1, 3), (2, 4))


def test_wishes_go_before_plates() -> None:
    four = lifters(60, 61, 90, 91)

    assert partners(four, Wishes(together=pairs((0, 3)))) == ((0, 3), (1, 2))
    assert partners(four, Wishes(apart=pairs((0, 1)))) == ((0, 2), (1, 3))


def test_three_who_belong_together_stay_together_far_apart_in_load() -> None:
    many = lifters(*range(20, 160, 10))

    groups = partners(many, Wishes(together=pairs((0, 9), (9, 13))))

    assert [group for group in groups if 0 in group] == [(0, 9, 13)]


def test_apart_goes_before_together() -> None:
    wishes = Wishes(together=pairs((0, 1)), apart=pairs((0, 1)))

    assert broken(partners(lifters(60, 61, 62, 63), wishes), wishes) == 0


@settings(max_examples=60)
@given(people)
def test_everybody_is_in_one_group_of_two_or_three(group: list[Lifter]) -> None:
    groups = partners(group)

    assert sorted(pk for own in groups for pk in own) == sorted(one.id for one in group)
    if len(group) > 1:
        assert [len(own) for own in groups if len(own) != 2] == [3] * (len(group) % 2)


@settings(max_examples=60)
@given(people, st.integers(1, 9))
def test_groups_stand_at_the_stations_where_threes_can(group: list[Lifter], stations: int) -> None:
    groups = partners(group, None, stations)

    assert sorted(pk for own in groups for pk in own) == sorted(one.id for one in group)
    assert len(groups) <= max(stations, -(-len(group) // 3))
    if 1 < len(group) <= stations * 2:
        assert groups == partners(group)


@settings(max_examples=60)
@given(st.lists(st.integers(20, 100), min_size=2, max_size=6), st.integers(1, 3))
def test_few_people_at_few_stations_get_the_best_of_all_ways(loads: list[int], stations: int) -> None:
    group, most = lifters(*loads), max(stations, -(-len(loads) // 3))
    ways = [way for way in partitions(tuple(range(len(loads)))) if len(way) <= most]
    fewest_threes = max(len(way) for way in ways)

    best = min(kilograms(way, group) for way in ways if len(way) == fewest_threes)
    assert kilograms(partners(group, None, stations), group) == best


@settings(max_examples=40)
@given(people, st.randoms(use_true_random=False), st.sets(st.tuples(st.integers(1, 99), st.integers(1, 99))))
def test_order_of_the_list_makes_no_difference(
    group: list[Lifter], random: object, apart: set[tuple[int, int]]
) -> None:
    wishes = Wishes(apart=frozenset(frozenset(pair) for pair in apart if pair[0] != pair[1]))
    other = list(group)
    random.shuffle(other)  # type: ignore[attr-defined]

    assert partners(other, wishes) == partners(group, wishes)


@settings(max_examples=60)
@given(st.lists(st.integers(20, 100), min_size=2, max_size=6), st.data())
def test_few_people_get_the_best_of_all_ways(loads: list[int], data: st.DataObject) -> None:
    group = lifters(*loads)
    ids = tuple(range(len(loads)))
    apart = data.draw(st.sets(st.sampled_from(list(combinations(ids, 2))), max_size=8))
    wishes = Wishes(apart=pairs(*apart))

    groups = partners(group, wishes)

    ways = [(broken(way, wishes), kilograms(way, group)) for way in with_one_three(ids)]
    assert (broken(groups, wishes), kilograms(groups, group)) == min(ways)


@settings(max_examples=40)
@given(st.integers(8, 20), st.data())
def test_apart_is_kept_in_a_whole_squad(size: int, data: st.DataObject) -> None:
    ids = range(size)
    apart = data.draw(st.sets(st.tuples(st.sampled_from(ids), st.sampled_from(ids)), max_size=6))
    wishes = Wishes(apart=pairs(*[pair for pair in apart if pair[0] != pair[1]]))

    assert broken(partners(lifters(*range(40, 40 + size)), wishes), wishes) == 0
