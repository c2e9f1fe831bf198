"""A fact is written once: whatever happens on a card afterwards, earlier rows stay as they were, column by column."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any
from uuid import UUID, uuid4

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from coachhub.base.clock import now, today
from coachhub.cards.actions import (
    EntryDraft,
    cancel_assignment,
    log_entries,
    log_round_as_planned,
    mark_set,
    renew_card,
    report_pain,
    report_red_flag,
    restrict_athlete,
)
from coachhub.cards.models import SetEntry, SetQuality
from coachhub.coaching.facts import Mass
from coachhub.people.models import RedFlagKind
from tests.cards.conftest import Evening, tap

FIRST = UUID(int=1)


def draft(evening: Evening, uuid: UUID, **changes: object) -> EntryDraft:
    made = EntryDraft(uuid, evening.squat.line_key, 1, now(), reps=5, load=Mass(evening.squat.load or 0, "kg"))  # type: ignore[arg-type]
    return replace(made, **changes)  # type: ignore[arg-type]


def send(evening: Evening, **changes: object) -> None:
    uuid = changes.pop("uuid", uuid4())
    assert isinstance(uuid, UUID)
    log_entries(actor=evening.phone, card=evening.card(), drafts=[draft(evening, uuid, **changes)])


def do_round(evening: Evening) -> None:
    sheet = evening.sheet()
    log_round_as_planned(
        actor=evening.phone, card=evening.card(), sheet=sheet, group_key=sheet.blocks[0].key, tap=tap(1, sheet.next_seq)
    )


def restrict(evening: Evening) -> None:
    restrict_athlete(
        actor=evening.coach,
        athlete=evening.athlete,
        kind="region",
        region="knee",
        on_word_of="Dr Alder",
        starts_on=today(),
    )


def hurts(evening: Evening) -> None:
    report_pain(actor=evening.phone, athlete=evening.athlete, uuid=uuid4(), region="knee", side="left", score=8)


def knock(evening: Evening) -> None:
    report_red_flag(actor=evening.phone, athlete=evening.athlete, uuid=uuid4(), kind=RedFlagKind.HEAD_KNOCK)


def mark(evening: Evening) -> None:
    mark_set(actor=evening.coach, entry=SetEntry.objects.get(uuid=FIRST), quality=SetQuality.SHAKY)


LATER: dict[str, Callable[[Evening], object]] = {
    "the same sent again": lambda e: send(e, uuid=FIRST, note="as felt"),
    "other content under its uuid": lambda e: send(e, uuid=FIRST, reps=9),
    "a correction": lambda e: send(e, reps=4, seq=2, supersedes_uuid=FIRST),
    "taken back": lambda e: send(e, kind="void", reps=None, load=None, seq=2, supersedes_uuid=FIRST),
    "another's word on the same set": lambda e: log_entries(
        actor=e.coach, card=e.card(), drafts=[draft(e, uuid4(), reps=6, seq=2)]
    ),
    "the round as planned": do_round,
    "a mark": mark,
    "a restriction": restrict,
    "pain": hurts,
    "a red flag": knock,
    "the card renewed": lambda e: renew_card(actor=e.coach, card=e.card()),
    "the session taken back": lambda e: cancel_assignment(actor=e.coach, assignment=e.assignment),
}


def rows(evening: Evening) -> dict[UUID, dict[str, Any]]:
    return {row["uuid"]: dict(row) for row in SetEntry.objects.values()}


@pytest.mark.parametrize("happening", LATER)
def test_earlier_facts_stay_whatever_happens(evening: Evening, happening: str) -> None:
    send(evening, uuid=FIRST, note="as felt")
    before = rows(evening)
    with CaptureQueriesContext(connection) as queries:
        LATER[happening](evening)
    after = rows(evening)
    assert {uuid: after[uuid] for uuid in before} == before
    assert [q["sql"] for q in queries if changes_facts(q["sql"])] == []


def changes_facts(sql: str) -> bool:
    verb, _, rest = sql.partition(f'"{SetEntry._meta.db_table}"')
    return verb.strip() in ("UPDATE", "DELETE FROM") or (bool(rest) and "DO UPDATE" in rest)


def test_all_of_it_in_one_evening_leaves_every_row(evening: Evening) -> None:
    send(evening, uuid=FIRST, note="as felt")
    seen = rows(evening)
    for happens in LATER.values():
        happens(evening)
        now_there = rows(evening)
        assert {uuid: now_there[uuid] for uuid in seen} == seen
        seen = now_there
    assert seen[FIRST]["reps"] == 5
