"""Keys for searching and sorting that work alike on SQLite and PostgreSQL."""

from __future__ import annotations

import unicodedata

_LETTERS = str.maketrans({"ł": "l", "ø": "o", "đ": "d", "ð": "d", "þ": "th", "æ": "ae", "œ": "oe", "ı": "i"})


def fold(text: str) -> str:
    """Casefold, strip accents, squeeze white space: 'Łukasz  Ørsted' -> 'lukasz orsted'."""
    plain = unicodedata.normalize("NFKD", text.casefold().translate(_LETTERS))
    kept = "".join(c for c in plain if not unicodedata.combining(c))
    return " ".join(kept.casefold().translate(_LETTERS).split())
