"""Own activation work on paper, on every size."""

from __future__ import annotations

import pytest

from coachhub.paper.cards import cards_pdf
from coachhub.paper.sizes import SIZES
from tests.factories import OwnItemFactory
from tests.paper.conftest import AS_OF, Day, address_of, pages


@pytest.mark.parametrize("size", ["a5", "a4", "letter"])
def test_card_prints_own_activation_and_what_is_if_time(day: Day, size: str) -> None:
    for name in ("Bridge", "Clamshell", "Prone raise"):
        OwnItemFactory.create(athlete=day.cast.athlete, exercise__name=name, sets=3, low=20, goal=f"goal of {name}")
    pdf = cards_pdf(
        day.sheets(day.cast.athlete), as_of=AS_OF, address_of=address_of, with_health=True, size=SIZES[size]
    )
    text = " ".join(pages(pdf))
    places = [text.find(words) for words in ("Own activation", "Bridge", "Own activation, if time", "Prone raise")]
    assert places == sorted(places)
    assert -1 not in places
