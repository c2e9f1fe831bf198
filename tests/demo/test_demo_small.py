"""The small story, told afresh in each test."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from django.db import transaction
from django.utils import timezone

from coachhub.base.clock import today
from coachhub.cards.models import Assignment, SetEntry, SetMark
from coachhub.cards.queries.athlete_facts import athlete_facts
from coachhub.demo.data import Scale, small
from coachhub.demo.generate import load_demo_club, tell
from coachhub.people.models import Athlete, Squad, Staff

pytestmark = pytest.mark.usefixtures("empty")


def test_small_demo_is_one_squad_with_a_week_behind_it() -> None:
    load_demo_club(scale=small())

    assert list(Squad.objects.values_list("name", flat=True)) == ["Under-18"]
    assert (Athlete.objects.count(), Assignment.objects.count(), Staff.objects.count()) == (16, 3, 5)
    assert Assignment.objects.get(on_date=today()).week == 1


def test_log_in_hand_is_what_the_database_says() -> None:
    """Cards of the past were made from the log: it must know the very facts that the pages would load."""
    with timezone.override("Europe/London"):
        stage = tell(small())[0]
        athletes = [
            member.athlete for member in stage.members.values() if member.person.name[0] not in stage.story.today
        ]
        exercises = set(stage.lifts)

        from_log = stage.log.facts(athletes, exercises, today())
        # What is their own begins today.
        stored = {
            pk: replace(own, own_work=(), levels={}) for pk, own in athlete_facts(athletes, exercises, today()).items()
        }

    assert from_log == stored
    assert sum(len(facts.history) for facts in stored.values()) > 60


def told_once(scale: Scale) -> list[Any]:
    with transaction.atomic(), timezone.override("Europe/London"):
        tell(scale)
        entry = ("uuid", "supersedes_uuid", "kind", "round", "side", "reps", "load_value", "rir_half", "client_at")
        past = SetEntry.objects.filter(on_date__lt=today())
        sets = list(past.order_by("uuid").values_list(*entry, "athlete__given_name", "exercise__origin_key"))
        marks = SetMark.objects.filter(entry__on_date__lt=today()).order_by("entry__uuid")
        told = [sets, list(marks.values_list("entry__uuid", "quality"))]
        transaction.set_rollback(True)
    return told


def test_same_day_tells_the_same_story() -> None:
    first, again = told_once(small()), told_once(small())

    assert first == again
    assert len(first[0]) > 500


def test_what_one_squad_did_hangs_on_no_other() -> None:
    alone = told_once(Scale(("under_15",), 22))
    together = told_once(Scale(("under_18", "under_15"), 22))

    assert set(alone[0]) <= set(together[0])
    assert len(alone[0]) > 300
