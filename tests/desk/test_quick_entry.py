"""Paper cards typed in: what a box takes, what it refuses, and that nothing is lost or doubled."""

from __future__ import annotations

import re
from datetime import date
from decimal import Decimal
from typing import Any
from uuid import UUID, uuid4

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.base.clock import now
from coachhub.cards.actions import EntryDraft, log_entries, renew_stale
from coachhub.cards.models import SetEntry
from coachhub.coaching.facts import Mass
from coachhub.people.models import Athlete
from coachhub.plans.models import Prescription
from tests.cards.conftest import Evening
from tests.cast import Role
from tests.desk.evening import restrict_knee, tap_round
from tests.factories import AssignmentFactory, AthleteFactory


@pytest.fixture
def coach(evening: Evening) -> Client:
    return evening.cast.client_of(Role.COACH)


def url(evening: Evening) -> str:
    return reverse("desk:quick_entry", kwargs={"pk": evening.assignment.pk})


def shown(client: Client, evening: Evening) -> dict[str, str]:
    """The fields of the form as the page has them: name -> value."""
    return fields(client.get(url(evening)).content.decode())


def fields(html: str) -> dict[str, str]:
    found = dict(re.findall(r'<input (?:type="hidden" )?name="((?:c:|r:|uuid)[^"]*)" value="([^"]*)"', html))
    assert found["uuid"]
    return found


def name_of(page: dict[str, str], evening: Evening, line: Prescription, number: int, who: Athlete | None = None) -> str:
    start = f"c:{evening.card(who).pk}:{line.line_key}:{number}"
    (name,) = [name for name in page if name == start or name.startswith(f"{start}:")]
    return name


def typed(client: Client, evening: Evening, *sets: tuple[Prescription, int, str]) -> dict[str, str]:
    page = shown(client, evening)
    return page | {name_of(page, evening, line, number): text for line, number, text in sets}


def facts(evening: Evening, who: Athlete | None = None) -> list[tuple[Any, ...]]:
    rows = SetEntry.objects.filter(card=evening.card(who)).order_by("pk")
    return [(r.line.label, r.round, r.side, r.kind, r.load_value, r.load_unit, r.reps) for r in rows]


def test_boxes_are_written_as_facts(evening: Evening, coach: Client) -> None:
    data = typed(coach, evening, (evening.squat, 1, "62.5x4"), (evening.split, 1, "8|7"), (evening.hinge, 3, "="))
    data = data | {name_of(data, evening, evening.squat, 2): "-"}
    assert coach.post(url(evening), data).status_code == 302
    assert sorted(facts(evening)) == [
        ("A1", 1, "both", "done", Decimal("62.5"), "kg", 4),
        ("A1", 2, "both", "skipped", None, "", None),
        ("A2", 1, "left", "done", None, "", 8),
        ("A2", 1, "right", "done", None, "", 7),
        ("B1", 3, "both", "done", Decimal(60), "kg", 5),
    ]
    assert facts(evening, evening.cast.team_mate) == []
    author = SetEntry.objects.filter(card=evening.card()).first()
    assert author is not None
    assert author.author_id == evening.coach.user_id


def test_same_sending_again_changes_nothing(evening: Evening, coach: Client) -> None:
    data = typed(coach, evening, (evening.squat, 1, "62.5x4"), (evening.split, 1, "8"))
    answers = [coach.post(url(evening), data, follow=True) for _ in range(2)]
    assert ["3 sets written." in a.content.decode() for a in answers] == [True, False]
    assert "Nothing new: all of this is written already." in answers[1].content.decode()
    assert len(facts(evening)) == 3


def test_written_set_is_shown_and_corrected_beside_the_old_one(evening: Evening, coach: Client) -> None:
    (first, *_others) = tap_round(evening, evening.athlete)
    page = shown(coach, evening)
    name = name_of(page, evening, evening.squat, 1)
    assert page[name] == "60x5"
    coach.post(url(evening), page | {name: "60x3"})
    new = SetEntry.objects.get(supersedes_uuid=first.uuid)
    assert (new.reps, new.seq > first.seq, SetEntry.objects.filter(card=evening.card()).count()) == (3, True, 4)
    assert shown(coach, evening)[name_of(shown(coach, evening), evening, evening.squat, 1)] == "60x3"


def test_correction_keeps_note_and_reserve(evening: Evening, coach: Client) -> None:
    load = Mass(Decimal(60), "kg")
    draft = EntryDraft(uuid4(), evening.squat.line_key, 1, now(), reps=5, load=load, rir_half=4, note="slow")
    log_entries(actor=evening.phone, card=evening.card(), drafts=[draft])
    coach.post(url(evening), typed(coach, evening, (evening.squat, 1, "60x6")))
    new = SetEntry.objects.get(supersedes_uuid=draft.uuid)
    assert (new.reps, new.rir_half, new.note) == (6, 4, "slow")


def test_emptied_box_takes_the_set_back(evening: Evening, coach: Client) -> None:
    tap_round(evening, evening.athlete, "B")
    coach.post(url(evening), typed(coach, evening, (evening.hinge, 1, "")))
    assert [row[3] for row in facts(evening)] == ["done", "void"]
    page = shown(coach, evening)
    assert page[name_of(page, evening, evening.hinge, 1)] == ""


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("60", "Is 60 the load or the reps? Write 62.5x8, or x8 for the planned load."),
        ("done", "“done” cannot be read. Write 62.5x8, x8, 8 or - for skipped."),
        ("900x5", "900 cannot be."),
        ("0x0", "0x0 says nothing: write - if it was not done."),
        ("=1+1", "“=1+1” cannot be read. Write 62.5x8, x8, 8 or - for skipped."),
    ],
)
def test_bad_box_is_told_beside_it_and_the_rest_is_kept(evening: Evening, coach: Client, text: str, why: str) -> None:
    data = typed(coach, evening, (evening.squat, 1, text), (evening.hinge, 2, "55x5"))
    response = coach.post(url(evening), data)
    html = response.content.decode()
    assert (response.status_code, facts(evening)) == (422, [])
    assert re.findall(r'<span class="err"[^>]*>([^<]*)</span>', html) == [why]
    again = fields(html)
    assert again[name_of(again, evening, evening.squat, 1)] == text
    assert again[name_of(again, evening, evening.hinge, 2)] == "55x5"
    assert again["uuid"] != data["uuid"]


def test_set_that_a_phone_wrote_meanwhile_is_not_overwritten_unseen(evening: Evening, coach: Client) -> None:
    data = typed(coach, evening, (evening.hinge, 1, "62.5x5"))
    (stored,) = tap_round(evening, evening.athlete, "B")
    html = coach.post(url(evening), data).content.decode()
    assert "Written meanwhile: 60x5. Save again to put yours in its place." in html
    assert len(facts(evening)) == 1
    coach.post(url(evening), fields(html))
    assert SetEntry.objects.get(supersedes_uuid=stored.uuid).load_value == Decimal("62.5")


def test_same_set_from_a_phone_meanwhile_is_one_set(evening: Evening, coach: Client) -> None:
    data = typed(coach, evening, (evening.hinge, 1, "60x5"))
    tap_round(evening, evening.athlete, "B")
    assert coach.post(url(evening), data).status_code == 302
    assert len(facts(evening)) == 1


def test_box_left_empty_never_takes_back_what_a_phone_wrote_meanwhile(evening: Evening, coach: Client) -> None:
    data = typed(coach, evening, (evening.hinge, 1, "nonsense"))
    tap_round(evening, evening.athlete)
    again = fields(coach.post(url(evening), data).content.decode())
    again[name_of(again, evening, evening.hinge, 1)] = "60x5"
    coach.post(url(evening), again)
    assert sorted(row[:4] for row in facts(evening)) == [
        ("A1", 1, "both", "done"),
        ("A2", 1, "left", "done"),
        ("A2", 1, "right", "done"),
        ("B1", 1, "both", "done"),
    ]


def test_card_renewed_meanwhile_takes_what_was_typed_by_the_old_one(evening: Evening, coach: Client) -> None:
    data = typed(coach, evening, (evening.hinge, 1, "x4"))
    Prescription.objects.filter(pk=evening.hinge.pk).update(load=Decimal(40))
    type(evening.session).objects.filter(pk=evening.session.pk).update(revision=9)
    assert renew_stale(actor=evening.coach, assignment=evening.assignment) == 2
    coach.post(url(evening), data)
    assert facts(evening) == [("B1", 1, "both", "done", Decimal(60), "kg", 4)]


def test_set_done_on_a_line_left_out_is_stored_and_flagged(evening: Evening, coach: Client) -> None:
    restrict_knee(evening, evening.athlete)
    html = coach.get(url(evening)).content.decode()
    assert "A2 left out" in html
    coach.post(url(evening), typed(coach, evening, (evening.split, 1, "8")))
    rows = SetEntry.objects.filter(card=evening.card())
    assert [(row.side, row.reps, row.is_flagged) for row in rows] == [("left", 8, True), ("right", 8, True)]


def test_card_that_is_gone_is_told_with_what_was_typed(evening: Evening, coach: Client) -> None:
    data = typed(coach, evening, (evening.hinge, 1, "60x4"))
    evening.athlete.memberships.update(started_on=date(2019, 1, 1), ended_on=date(2020, 1, 1))
    html = coach.post(url(evening), data).content.decode()
    assert "Typed for it, and not written: 60x4." in html
    assert SetEntry.objects.count() == 0


def test_damaged_sending_writes_nothing_and_keeps_the_boxes(evening: Evening, coach: Client) -> None:
    data = typed(coach, evening, (evening.hinge, 1, "60x4")) | {"uuid": "x"}
    response = coach.post(url(evening), data)
    again = fields(response.content.decode())
    assert (response.status_code, again[name_of(again, evening, evening.hinge, 1)]) == (422, "60x4")
    assert UUID(again["uuid"])


def test_one_block_is_asked_for(evening: Evening, coach: Client) -> None:
    key = evening.sheet().blocks[1].key
    page = fields(coach.get(url(evening), {"part": key}).content.decode())
    assert {name.split(":")[2] for name in page if name.startswith("c:")} == {evening.hinge.line_key}


def test_assistant_types_and_another_squad_finds_nothing(evening: Evening) -> None:
    assistant = evening.cast.client_of(Role.ASSISTANT)
    data = typed(assistant, evening, (evening.hinge, 1, "="))
    assert evening.cast.client_of(Role.OTHER_COACH).post(url(evening), data).status_code == 404
    assert evening.cast.client_of(Role.CLINICIAN).post(url(evening), data).status_code == 403
    assert facts(evening) == []
    assert assistant.post(url(evening), data).status_code == 302
    assert len(facts(evening)) == 1


def test_session_without_cards_says_so(evening: Evening, coach: Client) -> None:
    empty = AssignmentFactory.create(session=evening.session, squad=evening.cast.squad, venue=evening.cast.venue)
    html = coach.get(reverse("desk:quick_entry", kwargs={"pk": empty.pk})).content.decode()
    assert "Nobody you see holds a card of this session." in html


def test_page_costs_the_same_for_one_card_and_for_thirty(evening: Evening, coach: Client) -> None:
    counts, boxes = [], []
    for n in (1, 30):
        squad = [AthleteFactory.create(squad=evening.cast.squad) for _ in range(n)]
        address = reverse("desk:quick_entry", kwargs={"pk": evening.assign(*squad, in_days=1).pk})
        coach.get(address)
        with CaptureQueriesContext(connection) as queries:
            html = coach.get(address).content.decode()
        counts.append(len(queries))
        boxes.append(html.count('name="c:'))
    assert counts[0] == counts[1] <= 12
    assert boxes == [11, 330]


def test_more_boxes_than_a_page_holds_go_on_the_next(
    evening: Evening, coach: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("coachhub.desk.pages.quick_entry.MOST_BOXES", 12)
    first = fields(coach.get(url(evening)).content.decode())
    second = fields(coach.get(url(evening), {"page": "2"}).content.decode())
    cards = [{name for name in page if name.startswith("r:")} for page in (first, second)]
    assert cards == [{f"r:{evening.card().pk}"}, {f"r:{evening.card(evening.cast.team_mate).pk}"}]
