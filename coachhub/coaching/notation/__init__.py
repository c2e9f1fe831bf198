"""The one-line trade notation of a dose, such as `3-4 x 6-8/side @ 60 kg 2 RIR t3110`.

    [sets x] amount [/side | /direction] [@ load] [max ceiling] [reserve] [tempo]

`parse` reads it in any usual spelling, `format_dose` writes the one canonical
spelling, and `parse(format_dose(dose)) == dose` for every dose.
"""

from coachhub.coaching.notation.dose import Dose, DoseKind, LoadRule, Per
from coachhub.coaching.notation.errors import MESSAGES, NotationError
from coachhub.coaching.notation.parser import parse
from coachhub.coaching.notation.writer import format_dose

__all__ = ["MESSAGES", "Dose", "DoseKind", "LoadRule", "NotationError", "Per", "format_dose", "parse"]
