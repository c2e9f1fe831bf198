"""The floor: rounds by block, what hurts on top, polling, and the taps."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from uuid import UUID, uuid4

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.base.clock import now
from coachhub.cards.actions import EntryDraft, clear_pain, log_entries, note_attendance, report_red_flag
from coachhub.cards.models import Assignment, Attendance, AttendanceStatus, SetEntry, SetMark
from coachhub.cards.queries import read_pulse
from coachhub.coaching.facts import Mass
from coachhub.desk.pages.cards_floor import FloorLine, FloorPage, find_pulse
from coachhub.people.models import Athlete, RedFlagKind
from tests.cards.conftest import Evening
from tests.cast import Role
from tests.desk.evening import restrict_knee, tap_round
from tests.factories import AssignmentFactory, AthleteFactory, CardFactory, PainReportFactory, RedFlagFactory

HTMX = {"HX-Request": "true"}
UUID_ONE = UUID("00000000-0000-4000-8000-000000000001")


def address(name: str, evening: Evening) -> str:
    return reverse(f"desk:{name}", kwargs={"pk": evening.assignment.pk})


def page_of(evening: Evening) -> FloorPage:
    return FloorPage.of(evening.coach, find_pulse(evening.coach, evening.assignment.pk))


def line_of(evening: Evening, athlete: Athlete) -> FloorLine:
    (line,) = [line for line in page_of(evening).lines if line.row.athlete == athlete]
    return line


def rounds(line: FloorLine) -> list[tuple[str, int, int]]:
    return [(cell.label, cell.rounds_done, cell.rounds_min) for cell in line.row.cells]


def log(evening: Evening, load: int, *, number: int = 1, seq: int = 1) -> SetEntry:
    """One set of A1 by the athlete's own phone."""
    draft = EntryDraft(uuid4(), evening.squat.line_key, number, now(), seq=seq, reps=5, load=Mass(Decimal(load), "kg"))
    return log_entries(actor=evening.phone, card=evening.card(), drafts=[draft])[0].entry


def poll(client: Client, evening: Evening, since: str) -> int:
    return client.get(address("floor", evening), {"since": since}, headers=HTMX).status_code


@pytest.fixture
def coach(evening: Evening) -> Client:
    return evening.cast.client_of("coach")


def test_rounds_count_when_every_line_and_side_is_written(evening: Evening) -> None:
    log(evening, 60)
    assert rounds(line_of(evening, evening.athlete)) == [("A", 0, 4), ("B", 0, 3)]

    tap_round(evening, evening.athlete)
    tap_round(evening, evening.athlete, "B")

    assert rounds(line_of(evening, evening.athlete)) == [("A", 1, 4), ("B", 1, 3)]
    assert rounds(line_of(evening, evening.cast.team_mate)) == [("A", 0, 4), ("B", 0, 3)]


def test_last_set_is_told(evening: Evening) -> None:
    log(evening, 62)

    block_a, block_b = line_of(evening, evening.athlete).cells

    assert [cell and (cell.title, cell.progress, cell.last) for cell in (block_a, block_b)] == [
        ("Block A", "0/4", "A1: 62 kg × 5, planned 60 kg"),
        ("Block B", "0/3", ""),
    ]


def test_two_versions_of_a_set_are_both_shown(evening: Evening, coach: Client) -> None:
    log(evening, 60, seq=1)
    log(evening, 65, seq=2)

    (block, _b) = line_of(evening, evening.athlete).cells

    assert block is not None
    assert block.versions == ("A1, round 1: 65 kg × 5 counts; also written: 60 kg × 5.",)
    assert "two versions" in coach.get(address("floor", evening)).content.decode()


def test_set_done_against_a_restriction_is_kept_and_stands_on_top(evening: Evening, coach: Client) -> None:
    restrict_knee(evening, evening.athlete)
    draft = EntryDraft(uuid4(), evening.split.line_key, 1, now(), side="left", reps=8)
    log_entries(actor=evening.phone, card=evening.card(), drafts=[draft])

    assert [(one.athlete, one.words.name) for one in page_of(evening).flagged] == [(evening.athlete, "Split squat")]
    text = coach.get(address("floor", evening)).content.decode()
    assert text.index("against what stands") < text.index("Block A")


def test_red_flags_and_pain_stand_on_top(evening: Evening, coach: Client) -> None:
    PainReportFactory.create(athlete=evening.cast.team_mate, side="left", score=3)
    RedFlagFactory.create(athlete=evening.athlete)

    text = coach.get(address("floor", evening)).content.decode()

    order = ("Ingrid Moss: a knock to the head", "Petra Vane: left knee, 3 of 10", "Block A")
    places = [text.index(words) for words in order]
    assert places == sorted(places)


def test_assistant_sees_that_it_hurts_without_note_or_clearance(evening: Evening) -> None:
    PainReportFactory.create(athlete=evening.athlete, note="since Sunday's fall")
    RedFlagFactory.create(athlete=evening.athlete)

    text = evening.cast.client_of("assistant").get(address("floor", evening)).content.decode()

    assert "knee, 4 of 10" in text
    assert [word for word in ("since Sunday", "Record the clearance") if word in text] == []


def test_emergency_contact_is_one_tap_away(evening: Evening) -> None:
    Athlete.objects.filter(pk=evening.athlete.pk).update(
        emergency_contact="Runa Moss 555 0101", health_alert="asthma, inhaler in bag"
    )

    for role in ("coach", "assistant", "clinician"):
        text = evening.cast.client_of(role).get(address("floor", evening)).content.decode()
        assert [word in text for word in ("Runa Moss 555 0101", "asthma, inhaler in bag")] == [True, True]


def test_poll_answers_204_until_something_is_new(evening: Evening, coach: Client) -> None:
    token = page_of(evening).token
    assert poll(coach, evening, token) == 204

    tap_round(evening, evening.athlete)

    assert poll(coach, evening, token) == 200
    assert poll(coach, evening, page_of(evening).token) == 204


def test_every_kind_of_news_ends_the_204(evening: Evening) -> None:
    pain = PainReportFactory.create(athlete=evening.athlete)
    card = evening.card()
    news: list[Callable[[], object]] = [
        lambda: log(evening, 60),
        lambda: report_red_flag(actor=evening.phone, athlete=evening.athlete, uuid=uuid4(), kind=RedFlagKind.POP),
        lambda: clear_pain(actor=evening.coach, report=pain),
        lambda: restrict_knee(evening, evening.athlete),
        lambda: note_attendance(actor=evening.coach, card=card, status=AttendanceStatus.ABSENT),
        lambda: SetMark.objects.create(
            entry=SetEntry.objects.get(), quality="clean", marked_at=now(), marked_by_id=evening.coach.require_user_id()
        ),
    ]
    tokens = [page_of(evening).token]
    for happens in news:
        happens()
        tokens.append(page_of(evening).token)

    assert len(set(tokens)) == len(news) + 1


def test_plain_reload_works_with_an_old_token(evening: Evening, coach: Client) -> None:
    response = coach.get(address("floor", evening), {"since": page_of(evening).token})

    assert response.status_code == 200
    assert b"<html" in response.content


def test_unchanged_poll_costs_one_query_beside_who_asks(evening: Evening, coach: Client) -> None:
    token = page_of(evening).token

    with CaptureQueriesContext(connection) as queries:
        poll(coach, evening, token)

    # Login, user, staff and club; then one for all that could be new.
    assert len(queries) == 5


@pytest.mark.parametrize("count", [1, 60])
def test_page_costs_ten_queries_however_many_athletes(evening: Evening, coach: Client, count: int) -> None:
    athletes = [AthleteFactory.create(squad=evening.cast.squad) for _ in range(count)]
    evening.assignment = evening.assign(*athletes, in_days=1)
    for athlete in athletes:
        PainReportFactory.create(athlete=athlete, score=1)
    tap_round(evening, athletes[0])

    with CaptureQueriesContext(connection) as queries:
        coach.get(address("floor", evening))

    assert len(queries) == 10


def test_squad_round_writes_for_those_present_and_says_who_is_left_out(evening: Evening, coach: Client) -> None:
    RedFlagFactory.create(athlete=evening.athlete)

    sent = {"uuid": UUID_ONE, "label": "A", "number": 1}
    response = coach.post(address("floor_round", evening), sent, follow=True)

    told = [str(message) for message in response.context["messages"]]
    assert told == ["Round 1 of block A: 3 sets written as planned. Left out: Ingrid Moss (waits for a clearance)."]
    assert {entry.athlete for entry in SetEntry.objects.all()} == {evening.cast.team_mate}


def test_squad_round_sent_twice_writes_once(evening: Evening, coach: Client) -> None:
    sent = {"uuid": UUID_ONE, "label": "A", "number": 1}

    for _ in range(2):
        coach.post(address("floor_round", evening), sent)

    assert SetEntry.objects.count() == 6


def test_squad_round_beyond_the_block_is_refused_beside_the_field(evening: Evening, coach: Client) -> None:
    response = coach.post(address("floor_round", evening), {"uuid": UUID_ONE, "label": "A", "number": 9})

    assert response.status_code == 422
    assert response.context["form"].errors == {"number": ["Block A has 4 rounds."]}
    assert SetEntry.objects.count() == 0


def test_form_offers_the_round_that_most_are_in(evening: Evening) -> None:
    for athlete in (evening.athlete, evening.cast.team_mate):
        tap_round(evening, athlete)

    offered = page_of(evening).next_round

    assert (offered["label"], offered["number"]) == ("A", 2)


@pytest.mark.parametrize("quality", ["clean", "shaky"])
def test_mark_goes_to_every_done_set_of_the_round(evening: Evening, coach: Client, quality: str) -> None:
    tap_round(evening, evening.athlete)
    (block, _b) = line_of(evening, evening.athlete).cells
    assert block is not None

    coach.post(address("floor_mark", evening), {"mark": f"{block.mark}{quality}"})

    assert list(SetMark.objects.values_list("quality", flat=True)) == [quality] * 3
    (block, _b) = line_of(evening, evening.athlete).cells
    assert block is not None
    assert block.quality == quality


def test_absent_and_present_again(evening: Evening, coach: Client) -> None:
    card = evening.card()

    coach.post(address("floor_attendance", evening), {"attendance": f"{card.pk} absent"})
    assert line_of(evening, evening.athlete).row.is_absent
    coach.post(address("floor_attendance", evening), {"attendance": f"{card.pk} present"})

    assert not line_of(evening, evening.athlete).row.is_absent
    assert Attendance.objects.count() == 2


def test_card_of_another_assignment_is_not_touched_from_here(evening: Evening, coach: Client) -> None:
    other = evening.assign(evening.athlete, in_days=1).cards.get()

    answers = [
        coach.post(address("floor_attendance", evening), {"attendance": f"{other.pk} absent"}).status_code,
        coach.post(address("floor_mark", evening), {"mark": f"{other.pk} g1 1 clean"}).status_code,
    ]

    assert answers == [404, 404]
    assert Attendance.objects.count() == 0


def test_clinician_reads_the_floor_and_is_offered_no_tap(evening: Evening) -> None:
    tap_round(evening, evening.athlete)

    text = evening.cast.client_of(Role.CLINICIAN).get(address("floor", evening)).content.decode()

    assert [word for word in ("Whole squad", ">Clean<", ">Absent<") if word in text] == []


@pytest.mark.parametrize("role", sorted(set(Role) - {Role.OUTSIDER}))
def test_quick_check_of_access_agrees_with_the_queryset(evening: Evening, role: Role) -> None:
    actor = evening.cast.actor_of(role)
    single = AssignmentFactory.create(session=evening.session, squad=None)
    CardFactory.create(assignment=single, athlete=evening.athlete)
    cancelled = AssignmentFactory.create(session=evening.session, squad=evening.cast.squad, cancelled_at=now())

    rows = (evening.assignment, single, cancelled)
    seen = [row.pk for row in rows if read_pulse(actor, row.pk)]

    assert seen == list(Assignment.objects.visible_to(actor).live().order_by("pk").values_list("pk", flat=True))
