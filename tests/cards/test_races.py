"""Two requests at the same moment, each on its own connection. That one waits is read from the database, not timed."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import replace
from decimal import Decimal
from threading import Barrier
from typing import Any, TypeVar
from uuid import UUID, uuid4

import pytest
from django.conf import settings
from django.db import connection, transaction

from coachhub.base.clock import now
from coachhub.cards.actions import (
    EntryDraft,
    Outcome,
    log_entries,
    log_round_as_planned,
    renew_card,
    renew_stale,
    report_pain,
    report_red_flag,
)
from coachhub.cards.models import CardLine, CardRevision, SetEntry
from coachhub.coaching.facts import Mass
from coachhub.people.models import PainReport, RedFlag, RedFlagKind
from tests.cards.conftest import Evening, tap

pytestmark = [
    pytest.mark.django_db(transaction=True),
    pytest.mark.skipif(
        settings.DATABASES["default"]["ENGINE"].endswith("sqlite3"),
        reason="SQLite lets one writer in at a time: races are tried on PostgreSQL",
    ),
]

T = TypeVar("T")
MANY = 6


def on_own_connection(call: Callable[[], T]) -> T:
    try:
        return call()
    finally:
        connection.close()


def at_once(*calls: Callable[[], T]) -> list[T]:
    """Start all of them in the same moment, and return what each of them returned."""
    start = Barrier(len(calls))

    def run(call: Callable[[], T]) -> T:
        start.wait()
        return on_own_connection(call)

    with ThreadPoolExecutor(len(calls)) as pool:
        return list(pool.map(run, calls))


def meanwhile(first: Callable[[], object], second: Callable[[], T], *, is_kept: bool = True) -> T:
    """Let `second` run into the locks of `first`, which then commits (or does not); return what `second` says."""
    with ThreadPoolExecutor(1) as pool:
        with transaction.atomic():
            first()
            answer = pool.submit(on_own_connection, second)
            until_it_waits(answer)
            transaction.set_rollback(not is_kept)
        return answer.result()


def until_it_waits(answer: Future[Any]) -> None:
    """Ask PostgreSQL until the other connection waits for this one; if it ended without waiting, there was no race."""
    with connection.cursor() as cursor:
        is_waiting = False
        while not is_waiting:
            assert not answer.done(), "it did not wait"
            # pg_stat_activity would keep its first answer until the end of this transaction; pg_locks looks again.
            cursor.execute(
                "SELECT count(*) > 0 FROM pg_locks WHERE NOT granted AND pg_backend_pid() = ANY(pg_blocking_pids(pid))"
            )
            (is_waiting,) = cursor.fetchone()


def draft(evening: Evening, uuid: UUID, **changes: object) -> EntryDraft:
    seen = evening.line(evening.squat).pk
    made = EntryDraft(uuid, evening.squat.line_key, 1, now(), reps=5, load=Mass(Decimal(60), "kg"), line_pk=seen)
    return replace(made, **changes)  # type: ignore[arg-type]


def logging(evening: Evening, made: EntryDraft) -> Callable[[], Outcome]:
    card, phone = evening.card(), evening.phone
    return lambda: log_entries(actor=phone, card=card, drafts=[made])[0].outcome


def renewing(evening: Evening) -> Callable[[], bool]:
    card, coach = evening.card(), evening.coach
    return lambda: renew_card(actor=coach, card=card)


def write_heavier(evening: Evening) -> None:
    evening.squat.load = Decimal(70)
    evening.squat.save()
    evening.session.revision += 1
    evening.session.save()


def planned(evening: Evening, number: int) -> list[dict[str, Any]]:
    """Every column of the card's planned lines on that revision."""
    lines = CardLine.objects.filter(revision__card=evening.card(), revision__number=number)
    return [dict(row) for row in lines.order_by("pk").values()]


def test_same_uuid_at_once_stores_one_row_and_answers_both(evening: Evening) -> None:
    made = draft(evening, uuid4())
    said = at_once(*(logging(evening, made) for _ in range(MANY)))
    assert sorted(said) == [Outcome.REPEAT] * (MANY - 1) + [Outcome.STORED]
    assert SetEntry.objects.count() == 1


def test_repeat_that_waits_for_the_first_is_answered_with_it(evening: Evening) -> None:
    made = draft(evening, uuid4())
    assert meanwhile(logging(evening, made), logging(evening, made)) == Outcome.REPEAT
    assert SetEntry.objects.count() == 1


def test_repeat_is_stored_where_the_first_came_to_nothing(evening: Evening) -> None:
    made = draft(evening, uuid4())
    assert meanwhile(logging(evening, made), logging(evening, made), is_kept=False) == Outcome.STORED
    assert SetEntry.objects.count() == 1


def test_other_content_under_the_same_uuid_is_a_conflict_for_whoever_is_later(evening: Evening) -> None:
    made = draft(evening, uuid4())
    assert meanwhile(logging(evening, made), logging(evening, replace(made, reps=6))) == Outcome.CONFLICT
    assert SetEntry.objects.get().reps == 5


def test_two_phones_on_one_set_lose_nothing(evening: Evening) -> None:
    said = at_once(logging(evening, draft(evening, uuid4())), logging(evening, draft(evening, uuid4(), reps=6)))
    assert said == [Outcome.STORED, Outcome.STORED]
    assert set(SetEntry.objects.values_list("reps", flat=True)) == {5, 6}


def test_same_round_tapped_at_once_is_written_once(evening: Evening) -> None:
    card, phone, sheet, same = evening.card(), evening.phone, evening.sheet(), tap()
    key = sheet.blocks[0].key
    at_once(*(lambda: log_round_as_planned(actor=phone, card=card, sheet=sheet, group_key=key, tap=same) for _ in "ab"))
    assert SetEntry.objects.count() == 3


def test_card_begun_first_is_not_renewed(evening: Evening) -> None:
    write_heavier(evening)
    before = planned(evening, 1)
    assert meanwhile(logging(evening, draft(evening, uuid4())), renewing(evening)) is False
    assert (evening.card().revision_number, evening.sheet().is_started) == (1, True)
    assert (planned(evening, 1), SetEntry.objects.get().line.load_value) == (before, Decimal(60))


def test_card_renewed_first_keeps_the_line_the_athlete_saw(evening: Evening) -> None:
    write_heavier(evening)
    before = planned(evening, 1)
    assert meanwhile(renewing(evening), logging(evening, draft(evening, uuid4()))) == Outcome.STORED
    entry = SetEntry.objects.get()
    assert (entry.line.revision.number, entry.line.load_value, planned(evening, 1)) == (1, Decimal(60), before)
    assert (evening.card().revision_number, evening.line(evening.squat).load) == (2, Mass(Decimal(70), "kg"))


@pytest.mark.parametrize("attempt", range(3))
def test_renewing_and_logging_at_once_end_in_one_of_the_two_orders(evening: Evening, attempt: int) -> None:
    write_heavier(evening)
    before = planned(evening, 1)
    at_once(logging(evening, draft(evening, uuid4())), renewing(evening))
    card, entry = evening.card(), SetEntry.objects.get()
    numbers = list(CardRevision.objects.filter(card=card).values_list("number", flat=True))
    assert (planned(evening, 1), entry.line_id, card.started_at is None) == (before, before[0]["id"], False)
    assert numbers == list(range(1, card.revision_number + 1))
    assert renew_card(actor=evening.coach, card=card) is False


def test_two_coaches_renewing_at_once_make_whole_revisions(evening: Evening) -> None:
    write_heavier(evening)
    coach, assignment = evening.coach, evening.assignment
    at_once(*(lambda: renew_stale(actor=coach, assignment=assignment) for _ in "ab"))
    number = evening.card().revision_number
    assert [len(planned(evening, n)) for n in range(1, number + 1)] == [3] * number


def test_pain_reported_twice_at_once_is_stored_once_and_reaches_the_card_once(evening: Evening) -> None:
    phone, athlete, uuid = evening.phone, evening.athlete, uuid4()
    said = at_once(
        *(
            lambda: report_pain(actor=phone, athlete=athlete, uuid=uuid, region="knee", side="left", score=8).pk
            for _ in "ab"
        )
    )
    assert set(said) == {PainReport.objects.get().pk}
    assert evening.card().revision_number == 2


def test_red_flag_reported_twice_at_once_is_stored_once(evening: Evening) -> None:
    phone, athlete, uuid = evening.phone, evening.athlete, uuid4()
    said = at_once(
        *(lambda: report_red_flag(actor=phone, athlete=athlete, uuid=uuid, kind=RedFlagKind.POP).pk for _ in "ab")
    )
    assert set(said) == {RedFlag.objects.get().pk}
