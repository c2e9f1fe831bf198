"""Keys for searching, and numbers to call."""

from __future__ import annotations

import pytest

from coachhub.base.text import fold, tel_address


@pytest.mark.parametrize(
    ("text", "address"),
    [
        ("01632 960123", "tel:01632960123"),
        ("+44 (0)1632 960 123", "tel:+441632960123"),
        ("Wren Reed (mother), 01632-960.123, evenings", "tel:01632960123"),
        ("07700 900123 / 01632 960123", "tel:07700900123"),
        ("(01632) 960123", "tel:01632960123"),
        ("ask at the office", ""),
        ("", ""),
    ],
)
def test_first_number_in_a_note_can_be_called(text: str, address: str) -> None:
    assert tel_address(text) == address


def test_key_ignores_accents_case_and_spaces() -> None:
    assert fold("Łukasz  Ørsted") == "lukasz orsted"
