"""A stage on the way back: set by a coach or clinician, kept as history; coming cards are then behind."""

from __future__ import annotations

import pytest
from django.core.exceptions import PermissionDenied

from coachhub.base.clock import today
from coachhub.cards.actions import restrict_athlete
from coachhub.cards.actions.coming_back import set_return_stage
from coachhub.cards.words_health import stage_text
from coachhub.coaching.easing import STAGES
from coachhub.people.models import Restriction, ReturnStage
from tests.cards.conftest import Evening
from tests.cast import Role
from tests.desk.evening import tap_round

pytestmark = pytest.mark.django_db


def set_stage(evening: Evening, stage: int, *, word: str = "Dr Hale", role: Role = Role.COACH) -> int:
    actor = evening.cast.actor_of(role)
    return set_return_stage(actor=actor, athlete=evening.athlete, stage=stage, on_word_of=word)


def kept() -> list[tuple[int, str]]:
    return list(ReturnStage.objects.order_by("pk").values_list("stage", "on_word_of"))


def test_coming_card_is_behind_and_a_begun_one_stays(evening: Evening) -> None:
    tap_round(evening, evening.athlete)
    later = evening.assign(evening.athlete, evening.cast.team_mate, in_days=2)
    assert set_stage(evening, 1) == 1
    behind = later.cards.filter(is_behind=True).values_list("athlete", flat=True)
    assert (list(behind), evening.card().is_behind) == ([evening.athlete.pk], False)
    row = ReturnStage.objects.get()
    assert (row.stage, row.from_on, row.on_word_of, row.set_by_id) == (1, today(), "Dr Hale", evening.coach.user_id)


def test_stages_before_are_kept_and_the_same_twice_is_one(evening: Evening) -> None:
    assert [set_stage(evening, stage) for stage in (1, 1, 2, 0, 0)] == [1, 0, 1, 1, 0]
    assert kept() == [(1, "Dr Hale"), (2, "Dr Hale"), (0, "Dr Hale")]


def test_same_stage_on_another_word_is_kept_and_leaves_cards_alone(evening: Evening) -> None:
    assert [set_stage(evening, 2), set_stage(evening, 2, word="Nils Reef")] == [1, 0]
    assert kept() == [(2, "Dr Hale"), (2, "Nils Reef")]


def test_back_in_full_lifts_no_restriction(evening: Evening) -> None:
    fields = {"kind": "region", "region": "knee", "on_word_of": "Dr Hale", "starts_on": today()}
    restrict_athlete(actor=evening.coach, athlete=evening.athlete, **fields)
    set_stage(evening, 1)
    set_stage(evening, 0)
    assert Restriction.objects.standing().count() == 1


@pytest.mark.parametrize("role", [Role.ASSISTANT, Role.HEAD_COACH, Role.OTHER_COACH, Role.ATHLETE, Role.OUTSIDER])
def test_nobody_else_sets_a_stage(evening: Evening, role: Role) -> None:
    with pytest.raises(PermissionDenied):
        set_stage(evening, 0, role=role)
    assert kept() == []


def test_stage_that_does_not_exist_is_refused(evening: Evening) -> None:
    with pytest.raises(ValueError, match="no such stage"):
        set_stage(evening, 4)


def test_each_stage_reads_as_it_eases() -> None:
    assert [stage_text(stage) for stage in (*STAGES, 0)] == [
        "stage 1: half of the sets, 70 % of the load",
        "stage 2: three quarters of the sets, 80 % of the load",
        "stage 3: all sets, 90 % of the load",
        "back in full: nothing is eased",
    ]
