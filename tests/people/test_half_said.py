"""A restriction or clearance that says only half of what it must say is refused.

A comparison with an empty column is neither true nor false, and a check lets it pass: each half is tried for itself.
"""

from __future__ import annotations

import pytest

from coachhub.base.clock import now
from coachhub.people.models import RestrictionException
from tests.constraints import Break, check, refusal
from tests.factories import ExerciseFactory, RedFlagFactory, RestrictionFactory

pytestmark = pytest.mark.django_db

restriction = RestrictionFactory.create


def exception() -> RestrictionException:
    return RestrictionException.objects.create(
        restriction=restriction(), exercise=ExerciseFactory.create(), on_word_of="Dr Alder", added_at=now()
    )


HALVES: dict[str, Break] = {
    "a region and a pattern at once": check(restriction, pattern="squat"),
    "a pattern without one": check(restriction, kind="pattern", region=""),
    "an exercise without one": check(restriction, kind="exercise", region=""),
    "a load cap without a load": check(restriction, kind="load_cap", region="", cap_unit="kg"),
    "a load cap of nothing": check(restriction, kind="load_cap", region="", cap_value=0, cap_unit="kg"),
    "a load cap without a unit": check(restriction, kind="load_cap", region="", cap_value=20),
    "an exception's unit without a load": check(exception, cap_unit="kg"),
    "cleared by name only": check(RedFlagFactory.create, cleared_by_name="Dr Alder"),
}


@pytest.mark.parametrize("name", HALVES)
def test_half_said_row_is_refused(name: str) -> None:
    assert "check constraint" in refusal(HALVES[name]).lower()


def test_lifting_wants_a_word() -> None:
    row = restriction()
    assert "restriction_lifted_on_word" in refusal(
        check(lambda: row, lifted_at=now(), lifted_by=row.set_by, lifted_on_word_of="")
    )
