"""What a typed line comes to: the dose, or what is wrong with it and where."""

from __future__ import annotations

import re
from dataclasses import dataclass

from django.utils.translation import gettext as _

from coachhub.coaching.notation import MESSAGES, Dose, NotationError, parse
from coachhub.coaching.rounds import SetsMisfitError, place_sets
from coachhub.plans.dose import show_dose
from coachhub.plans.dose_words import dose_in_words
from coachhub.plans.tree import Block

_SETS = re.compile(r"\s*(\d[\d.,]*(?:\s*[-–—]\s*\d[\d.,]*)?)")


@dataclass(frozen=True, slots=True)
class Reading:
    """Either a dose, or a message about the characters from `start` to `end` of the text."""

    text: str
    dose: Dose | None = None
    message: str = ""
    start: int = 0
    end: int = 0

    @property
    def canonical(self) -> str:
        return show_dose(self.dose) if self.dose else ""

    @property
    def words(self) -> str:
        return dose_in_words(self.dose) if self.dose else ""

    @property
    def before(self) -> str:
        return self.text[: self.start]

    @property
    def marked(self) -> str:
        return self.text[self.start : self.end]

    @property
    def after(self) -> str:
        return self.text[self.end :]

    @property
    def position(self) -> str:
        """Where it is wrong, counted from 1."""
        if self.end <= self.start:
            return (
                _("at the end")
                if self.start >= len(self.text.rstrip())
                else _("before character %d") % (self.start + 1)
            )
        if self.end - self.start == 1:
            return _("character %d") % self.end
        return _("characters %(first)d to %(last)d") % {"first": self.start + 1, "last": self.end}


def read_dose(text: str, block: Block, *, is_only_line: bool) -> Reading:
    """Read the line, and hold its sets against the rounds of the block."""
    reading = _read(text)
    message = sets_misfit(reading.dose, block, is_only_line=is_only_line) if reading.dose else ""
    return _at_the_sets(text, message) if message else reading


def read_own_dose(text: str) -> Reading:
    """Read the line of an item of own activation work: one number of sets, one where none is written."""
    reading = _read(text)
    if reading.dose is None:
        return reading
    if reading.dose.sets_min != reading.dose.sets_max:
        return _at_the_sets(text, _("One number of sets here, such as 2 x 15."))
    return reading


def _read(text: str) -> Reading:
    try:
        return Reading(text, parse(text))
    except NotationError as error:
        message = _(MESSAGES[error.code]) % error.params
        return Reading(text, message=message, start=error.start, end=error.end)


def _at_the_sets(text: str, message: str) -> Reading:
    sets = _SETS.match(text)
    start, end = sets.span(1) if sets else (0, len(text))
    return Reading(text, message=message, start=start, end=end)


def sets_misfit(dose: Dose, block: Block, *, is_only_line: bool) -> str:
    """Why the sets do not go with the block's rounds; empty where they do."""
    try:
        place_sets(dose, block.rounds, is_only_line=is_only_line)
    except SetsMisfitError as error:
        which = _("Block %s") % block.label if block.label else _("This block")
        parts = {"block": which, "rounds": error.rounds, "most": error.rounds.low}
        if error.rounds.high == 1:
            text = _("%(block)s has 1 round: write 1, change the rounds, or give the exercise a block of its own.")
        else:
            text = _("%(block)s has %(rounds)s rounds: write up to %(most)s, or change the rounds.")
        return text % parts
    return ""
