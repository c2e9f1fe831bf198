"""Those who see less: another squad's coach, who tries the addresses, and the head coach."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from coachhub.people.models import Restriction, Squad
from tests.e2e.evening.conftest import Desk
from tests.e2e.evening.doors import athlete, card_of, go, tonight

OF_THE_SESSION = ("", "floor/", "door/", "table/", "table.xlsx", "cards/", "floor/guest/", "partners/")
OF_THE_ATHLETE = ("", "health/", "history/", "bests/", "code/", "restrict/")


@pytest.fixture
def seniors(club: object) -> list[str]:
    """Where the Seniors' evening, and one of them, are found."""
    session, one, squad = tonight("Seniors").pk, athlete("Teodora").pk, Squad.objects.get(name="Seniors").pk
    return [
        *[f"/assignments/{session}/{page}" for page in OF_THE_SESSION],
        *[f"/athletes/{one}/{page}" for page in OF_THE_ATHLETE],
        f"/squads/{squad}/",
        f"/squads/{squad}/sets.xlsx",
        f"/g/cards/{card_of('Teodora').pk}",
        f"/print/assignments/{session}",
    ]


def test_coach_of_another_squad_finds_nothing_of_the_seniors(desk_of: Desk, server: str, seniors: list[str]) -> None:
    page = desk_of("juniorcoach")
    expect(page.get_by_role("main")).to_contain_text("Under-15")
    expect(page.get_by_role("main")).not_to_contain_text("Seniors")
    go(page, "Athletes")
    expect(page.get_by_text("14 athletes")).to_be_visible()
    expect(page.get_by_text("Vukelaš")).to_have_count(0)

    assert {address: page.request.get(server + address).status for address in seniors} == dict.fromkeys(seniors, 404)


def test_head_coach_reads_who_can_do_what_and_nothing_else(desk_of: Desk, server: str, seniors: list[str]) -> None:
    page = desk_of("headcoach")
    expect(page.get_by_role("heading", level=1)).to_have_text("Availability")
    row = page.get_by_role("listitem").filter(has_text="Teodora Vukelaš")
    expect(row).to_contain_text("modified")
    expect(row).to_contain_text("can do: Everything below shoulder height.")
    text = page.content()
    told = Restriction.objects.exclude(diagnosis="").values_list("diagnosis", flat=True)
    assert len(told) >= 5
    assert [diagnosis for diagnosis in told if diagnosis in text] == []

    closed = [address for address in seniors if address.startswith(("/assignments/", "/g/", "/print/"))]
    assert {page.request.get(server + address).status for address in closed} <= {403, 404}
