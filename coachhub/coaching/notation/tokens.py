"""The words, numbers and signs of a notation, each with its place in the text."""

import re
from dataclasses import dataclass
from typing import Literal

from coachhub.coaching.notation.dose import QUOTES
from coachhub.coaching.notation.errors import NotationError

LONGEST = 240

TokenKind = Literal["number", "word", "sign", "quote", "tempo", "end"]

_TOKEN = re.compile(
    rf"""
      (?P<space>   [\s,]+ )
    | (?P<quote>   [{QUOTES}] (?P<quoted> [^{QUOTES}]* ) (?P<closing> [{QUOTES}]? ) )
    | (?P<tempo>   (?: tempo\s* (?=[0-9x]) | t\s* (?=[0-9]|x[0-9]) ) [0-9x]+ (?![^\W_]) )
    | (?P<number>  [0-9]+ (?: [.,][0-9]+ )? )
    | (?P<word>    [^\W\d_]+ )
    | (?P<sign>    [-–—@/%×] )
    """,
    re.VERBOSE | re.IGNORECASE,
)
_SAME_SIGN = {"–": "-", "—": "-", "×": "x"}


@dataclass(frozen=True, slots=True)
class Token:
    """A piece of the text: `text` is in small letters with one spelling of each sign."""

    kind: TokenKind
    text: str
    start: int
    end: int


def tokenize(text: str) -> list[Token]:
    """Cut `text` up, an end token last; NotationError for a sign that means nothing here."""
    if len(text) > LONGEST:
        raise NotationError("too_long", LONGEST, len(text), high=LONGEST)
    tokens: list[Token] = []
    place = 0
    while place < len(text):
        found = _TOKEN.match(text, place)
        if found is None:
            raise NotationError("unexpected", place, place + 1, text=text[place])
        if found.lastgroup != "space":
            tokens.append(_token(found))
        place = found.end()
    end = tokens[-1].end if tokens else 0
    return [*tokens, Token("end", "", end, end)]


def _token(found: re.Match[str]) -> Token:
    start, end = found.span()
    if found["quote"]:
        if not found["closing"]:
            raise NotationError("quote_missing", start, end)
        return Token("quote", found["quoted"], start, end)
    text = found.group().lower()
    if found["tempo"]:
        return Token("tempo", re.sub(r"t(empo)?\s*", "", text).upper(), start, end)
    if found["number"]:
        return Token("number", text.replace(",", "."), start, end)
    return Token("sign" if found["sign"] else "word", _SAME_SIGN.get(text, text), start, end)
