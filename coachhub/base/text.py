"""Keys for searching and sorting that work alike on SQLite and PostgreSQL; a phone number as an address to call."""

from __future__ import annotations

import re
import unicodedata
from typing import Final

# The first number in a note such as "Wren Reed (mother), 01632 960 123"; a slash parts two numbers.
_PHONE: Final = re.compile(r"\+?\d[\d\s().–-]+\d")

_LETTERS = str.maketrans({"ł": "l", "ø": "o", "đ": "d", "ð": "d", "þ": "th", "æ": "ae", "œ": "oe", "ı": "i"})


def fold(text: str) -> str:
    """Casefold, strip accents, squeeze white space: 'Łukasz  Ørsted' -> 'lukasz orsted'."""
    plain = unicodedata.normalize("NFKD", text.casefold().translate(_LETTERS))
    kept = "".join(c for c in plain if not unicodedata.combining(c))
    return " ".join(kept.casefold().translate(_LETTERS).split())


def tel_address(text: str) -> str:
    """What a link that calls points to: "tel:" and the first number in `text`; empty where there is none."""
    found = _PHONE.search(text)
    if found is None:
        return ""
    number = found.group().replace("(0)", "") if found.group().startswith("+") else found.group()
    return "tel:" + "".join(c for c in number if c.isdigit() or c == "+")
