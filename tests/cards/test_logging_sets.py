from __future__ import annotations

import random
from dataclasses import replace
from decimal import Decimal
from uuid import UUID, uuid4, uuid5

import pytest
from django.core.exceptions import PermissionDenied

from coachhub.base.clock import now
from coachhub.cards.actions import (
    EntryDraft,
    Outcome,
    log_entries,
    log_round_as_planned,
    log_squad_round,
    mark_round,
    note_attendance,
)
from coachhub.cards.models import AttendanceStatus, Card, SetEntry, SetQuality
from coachhub.cards.queries import load_sheets
from coachhub.coaching.facts import Mass
from tests.cards.conftest import Evening, tap
from tests.cast import Role


def draft(evening: Evening, uuid: UUID | None = None, **changes: object) -> EntryDraft:
    """One front squat set as planned, unless said otherwise."""
    made = EntryDraft(uuid or uuid4(), evening.squat.line_key, 1, now(), reps=5, load=Mass(Decimal(60), "kg"))
    return replace(made, **changes)  # type: ignore[arg-type]


def do_round(evening: Evening, block: int = 0, number: int = 1, uuid: UUID | None = None) -> tuple[object, ...]:
    sheet = evening.sheet()
    return log_round_as_planned(
        actor=evening.phone,
        card=evening.card(),
        sheet=sheet,
        group_key=sheet.blocks[block].key,
        tap=tap(number, sheet.next_seq, uuid),
    )


def test_round_as_planned_writes_every_line_and_both_sides(evening: Evening) -> None:
    do_round(evening)
    rows = SetEntry.objects.order_by("line_key", "side").values_list("line_key", "side", "reps", "load_value")
    squat, split = evening.squat.line_key, evening.split.line_key
    assert list(rows) == [(squat, "both", 5, 60), (split, "left", 8, None), (split, "right", 8, None)]
    assert [r.is_open for r in evening.sheet().blocks[0].rounds] == [False, True, True, True]


def test_seven_taps_for_a_four_and_a_three_round_block(evening: Evening) -> None:
    taps = [do_round(evening, block, number) for block, rounds in ((0, 4), (1, 3)) for number in range(1, rounds + 1)]
    assert (len(taps), all(block.is_done for block in evening.sheet().blocks)) == (7, True)


def test_same_tap_twice_changes_nothing(evening: Evening) -> None:
    uuid = uuid4()
    do_round(evening, uuid=uuid)
    stored = do_round(evening, uuid=uuid)
    assert ({row.outcome for row in stored}, SetEntry.objects.count()) == ({Outcome.REPEAT}, 3)  # type: ignore[attr-defined]


def test_single_tick_leaves_the_rest_of_the_round_open(evening: Evening) -> None:
    log_entries(actor=evening.phone, card=evening.card(), drafts=[draft(evening, reps=4)])
    do_round(evening)
    squat = SetEntry.objects.filter(line_key=evening.squat.line_key)
    assert [(entry.reps) for entry in squat] == [4]


def test_same_uuid_with_other_content_is_a_conflict_and_the_first_stays(evening: Evening) -> None:
    uuid = uuid4()
    log_entries(actor=evening.phone, card=evening.card(), drafts=[draft(evening, uuid)])
    (answer,) = log_entries(actor=evening.phone, card=evening.card(), drafts=[draft(evening, uuid, reps=6)])
    assert (answer.outcome, answer.entry.reps, SetEntry.objects.count()) == (Outcome.CONFLICT, 5, 1)


def test_correction_supersedes_and_the_old_one_stays(evening: Evening) -> None:
    old = draft(evening)
    new = draft(evening, reps=3, seq=2, supersedes_uuid=old.uuid)
    log_entries(actor=evening.phone, card=evening.card(), drafts=[old, new])
    cell = evening.line(evening.squat).cells[0]
    assert ([e.fact.reps for e in cell.entries], SetEntry.objects.count()) == ([3], 2)


def test_posts_twice_and_shuffled_end_in_the_same_state(evening: Evening) -> None:
    first = [draft(evening, round=number) for number in (1, 2, 3)]
    fixes = [draft(evening, round=d.round, reps=4, seq=2, supersedes_uuid=d.uuid) for d in first[:2]]
    back = draft(evening, round=3, kind="void", reps=None, load=None, seq=3, supersedes_uuid=first[2].uuid)
    posts = [*first, *fixes, back] * 2
    random.Random(7).shuffle(posts)
    for post in posts:
        log_entries(actor=evening.phone, card=evening.card(), drafts=[post])
    cells = evening.line(evening.squat).cells
    assert [[e.fact.reps for e in cell.entries] for cell in cells] == [[4], [4], [], []]
    assert SetEntry.objects.count() == 6


def test_two_phones_on_one_slot_lose_nothing(evening: Evening) -> None:
    log_entries(actor=evening.phone, card=evening.card(), drafts=[draft(evening, reps=5)])
    log_entries(actor=evening.coach, card=evening.card(), drafts=[draft(evening, reps=6, seq=2)])
    (entry,) = evening.line(evening.squat).cells[0].entries
    assert (entry.fact.reps, [r.reps for r in entry.rivals]) == (6, [5])


def test_fact_keeps_the_unit_it_was_seen_in(evening: Evening) -> None:
    (stored,) = log_entries(
        actor=evening.phone, card=evening.card(), drafts=[draft(evening, load=Mass(Decimal(135), "lb"))]
    )
    row = SetEntry.objects.get(pk=stored.entry.pk)
    assert (row.load_value, row.load_unit, round(float(row.load_kg or 0), 3)) == (Decimal(135), "lb", 61.235)


def test_first_entry_begins_the_card(evening: Evening) -> None:
    assert evening.card().started_at is None
    do_round(evening)
    assert evening.card().started_at is not None


@pytest.mark.parametrize("role", [Role.TEAM_MATE, Role.HEAD_COACH, Role.OTHER_COACH, Role.CLINICIAN, Role.GUARDIAN])
def test_nobody_else_writes_on_a_card(evening: Evening, role: Role) -> None:
    with pytest.raises(PermissionDenied):
        log_entries(actor=evening.cast.actor_of(role), card=evening.card(), drafts=[draft(evening)])


def test_line_of_another_card_is_refused(evening: Evening) -> None:
    with pytest.raises(KeyError):
        log_entries(actor=evening.phone, card=evening.card(), drafts=[draft(evening, line_key="p0")])


def test_whole_squads_round_skips_who_is_absent(evening: Evening) -> None:
    note_attendance(actor=evening.coach, card=evening.card(evening.cast.team_mate), status=AttendanceStatus.ABSENT)
    cards = {card.pk: card for card in evening.assignment.cards.all()}
    sheets = [(cards[s.card_id], s) for s in load_sheets(Card.objects.filter(assignment=evening.assignment))]
    uuid = uuid4()
    counts = [
        log_squad_round(actor=evening.coach, sheets=sheets, label="A", number=1, uuid=uuid, client_at=now())
        for _ in range(2)
    ]
    assert (counts[0], set(SetEntry.objects.values_list("athlete", flat=True))) == (3, {evening.athlete.pk})
    assert SetEntry.objects.count() == 3


def test_assistant_marks_a_round_shaky(evening: Evening) -> None:
    do_round(evening)
    sheet = evening.sheet()
    count = mark_round(
        actor=evening.cast.actor_of(Role.ASSISTANT),
        card=evening.card(),
        sheet=sheet,
        group_key=sheet.blocks[0].key,
        number=1,
        quality=SetQuality.SHAKY,
    )
    marks = [e.quality for line in evening.sheet().blocks[0].lines for e in line.cells[0].entries]
    assert (count, marks) == (3, ["shaky"] * 3)


def test_athlete_marks_nothing(evening: Evening) -> None:
    do_round(evening)
    sheet = evening.sheet()
    with pytest.raises(PermissionDenied):
        mark_round(
            actor=evening.phone,
            card=evening.card(),
            sheet=sheet,
            group_key=sheet.blocks[0].key,
            number=1,
            quality=SetQuality.CLEAN,
        )


def test_entry_uuids_of_one_tap_are_its_own(evening: Evening) -> None:
    uuid = uuid4()
    do_round(evening, uuid=uuid)
    assert SetEntry.objects.filter(uuid=uuid5(uuid, f"{evening.squat.line_key}:1:both")).count() == 1
