"""A place in the tokens of one text, and the errors that point into it."""

from dataclasses import dataclass
from decimal import Decimal
from typing import NoReturn

from coachhub.coaching.notation.errors import NotationError
from coachhub.coaching.notation.tokens import Token, tokenize


@dataclass(frozen=True, slots=True)
class Figures:
    """One number or a range, with the tokens that it came from."""

    first: Token
    last: Token

    @property
    def low(self) -> Decimal:
        return Decimal(self.first.text)

    @property
    def high(self) -> Decimal | None:
        high = Decimal(self.last.text)
        return None if high == self.low else high

    @property
    def numbers(self) -> tuple[Token, ...]:
        return (self.first,) if self.first is self.last else (self.first, self.last)


class Cursor:
    """Reads a text token by token; nothing is ever read twice."""

    def __init__(self, text: str) -> None:
        self._text = text
        self._tokens = tokenize(text)
        self._index = 0

    def peek(self, offset: int = 0) -> Token:
        return self._tokens[min(self._index + offset, len(self._tokens) - 1)]

    def take(self) -> Token:
        token = self.peek()
        self._index += 1
        return token

    def at(self, *texts: str, offset: int = 0) -> bool:
        """Whether one of these words or signs stands here."""
        token = self.peek(offset)
        return token.kind in {"word", "sign"} and token.text in texts

    def at_kind(self, *kinds: str, offset: int = 0) -> bool:
        return self.peek(offset).kind in kinds

    def accept(self, *texts: str) -> Token | None:
        return self.take() if self.at(*texts) else None

    def figures(self, code_if_none: str = "number_missing") -> Figures:
        """Read a number or a range, the smaller number first."""
        first = self._number(code_if_none)
        last = self._number("number_missing") if self.accept("-") else first
        figures = Figures(first, last)
        if Decimal(last.text) < figures.low:
            self.fail("range_reversed", first, last)
        return figures

    def _number(self, code_if_none: str) -> Token:
        if not self.at_kind("number"):
            self.fail(code_if_none, self.peek())
        number = self.take()
        # Zeros count too: who types 10,000 kg means ten thousand, which must not become 10.
        if len(number.text.partition(".")[2]) > 2:
            self.fail("too_precise", number)
        return number

    def require_within(self, code: str, number: Token, value: Decimal, lowest: int, most: int) -> None:
        if not lowest <= value <= most:
            self.fail(code, number, low=lowest, high=most)

    def require_whole(self, number: Token, value: Decimal) -> None:
        if value != value.to_integral_value():
            self.fail("whole_number", number)

    def fail(self, code: str, first: Token, last: Token | None = None, **params: str | int) -> NoReturn:
        """Raise a NotationError from the first token to the last, quoting the text as typed."""
        end = (last or first).end
        raise NotationError(code, first.start, end, text=self._text[first.start : end], **params)
