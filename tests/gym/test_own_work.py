"""Own activation work on the phone: a part of its own, done by one tap like other preparation."""

from __future__ import annotations

from coachhub.cards.actions import renew_card
from coachhub.cards.models import SetEntry
from tests.factories import OwnItemFactory
from tests.gym.conftest import Evening


def given(evening: Evening, *names: str, **values: object) -> None:
    for name in names:
        OwnItemFactory.create(athlete=evening.cast.athlete, exercise__name=name, **values)
    renew_card(actor=evening.coach, card=evening.card())


def done() -> list[tuple[str, int, int | None]]:
    rows = SetEntry.objects.filter(exercise__segment="activation").order_by("pk")
    return [(row.exercise.name, row.round, row.reps) for row in rows.select_related("exercise")]


def test_one_tap_writes_all_of_the_own_activation(evening: Evening) -> None:
    given(evening, "Bridge", "Clamshell", sets=2)
    page = evening.do("Own activation done")
    assert done() == [("Bridge", 1, 10), ("Clamshell", 1, 10), ("Bridge", 2, 10), ("Clamshell", 2, 10)]
    assert "Own activation done" not in page.buttons


def test_what_is_if_time_waits_to_be_done_or_left(evening: Evening) -> None:
    given(evening, "Bridge", "Clamshell", "Prone raise", sets=3, low=20)
    page = evening.open()
    assert [words for words in page.buttons if "Own activation" in words] == [
        "Own activation done",
        "Own activation, if time done",
    ]
    page = evening.do("Own activation, if time done")
    assert [words for words in page.buttons if "if time" in words] == []
    assert "Own activation done" in page.buttons
