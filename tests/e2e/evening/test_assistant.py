"""The assistant on the floor: a round for the whole squad, a mark, an effort; and no word of what the doctor found."""

from __future__ import annotations

from decimal import Decimal

from playwright.sync_api import Page, expect

from coachhub.cards.models import SetEntry, SetMark
from coachhub.insight.models import EffortLoad
from coachhub.people.models import PainReport, Restriction
from tests.e2e.evening.conftest import Desk
from tests.e2e.evening.doors import athlete, card_of, go, on_floor, open_floor, tonight


def medical_notes() -> set[str]:
    told = set(Restriction.objects.exclude(diagnosis="").values_list("diagnosis", flat=True))
    return told | set(PainReport.objects.exclude(note="").values_list("note", flat=True))


def open_card(page: Page, name: str) -> None:
    row = on_floor(page, name)
    row.get_by_role("group").locator("summary").click()
    row.get_by_role("link", name="Card", exact=True).click()


def test_assistant_logs_a_round_for_the_squad(desk_of: Desk) -> None:
    page = desk_of("assistant")
    open_floor(page, "Seniors")
    page.get_by_text("Whole squad: a round as planned").click()
    page.get_by_role("button", name="Write it for everyone present").click()
    expect(on_floor(page, "Dagny Ørsholt")).to_contain_text("1/4")

    written = SetEntry.objects.filter(card__assignment=tonight("Seniors"), line__label="A1", round=1)
    assert written.values("athlete").distinct().count() == 18
    dagny = SetEntry.objects.get(card=card_of("Dagny"), line__label="A1")
    assert (dagny.reps, dagny.load_kg) == (6, Decimal("77.5"))


def test_assistant_marks_a_set_clean_and_notes_an_effort(desk_of: Desk) -> None:
    page = desk_of("assistant")
    open_floor(page, "Seniors")
    row = on_floor(page, "Zsófia Kerekvári")
    row.locator("summary").click()
    row.get_by_role("button", name="Clean").first.click()
    expect(on_floor(page, "Zsófia Kerekvári")).to_contain_text("clean")
    mark = SetMark.objects.filter(entry__card=card_of("Zsófia")).latest("pk")
    assert (mark.quality, mark.marked_by.username) == ("clean", "assistant")

    open_card(page, "Zsófia Kerekvári")
    page.get_by_role("link", name="I am done").click()
    page.locator(".efforts label").filter(has_text="7").click()
    page.get_by_label("How many minutes").fill("50")
    page.get_by_role("button", name="Send to the coach").click()
    expect(page.get_by_text("Written: ")).to_be_visible()
    effort = EffortLoad.objects.filter(card=card_of("Zsófia")).latest("pk")
    assert (effort.effort, effort.minutes, effort.author and effort.author.username) == (7, 50, "assistant")


def test_assistant_reads_no_medical_note(desk_of: Desk, server: str) -> None:
    page = desk_of("assistant")
    notes = medical_notes()
    assert len(notes) >= 10
    session, one = tonight("Seniors").pk, athlete("Teodora").pk
    shown = ("/today/", f"/assignments/{session}/", f"/assignments/{session}/floor/", f"/athletes/{one}/")
    pages = {address: page.request.get(server + address) for address in (*shown, f"/g/cards/{card_of('Teodora').pk}")}

    assert {address: answer.status for address, answer in pages.items()} == dict.fromkeys(pages, 200)
    assert [note for note in notes for answer in pages.values() if note in answer.text()] == []
    closed = (f"/athletes/{one}/health/", f"/athletes/{one}/restrict/")
    assert {page.request.get(server + address).status for address in closed} <= {403, 404}
    go(page, "Athletes")
    expect(page.get_by_text("48 athletes")).to_be_visible()
