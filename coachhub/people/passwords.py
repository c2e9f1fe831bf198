"""A common password does not become a good one by being stretched to the length that is asked for."""

from __future__ import annotations

from django.contrib.auth.password_validation import CommonPasswordValidator
from django.core.exceptions import ValidationError

from coachhub.people.models import User

SHORTEST_UNIT = 4


class StretchedPasswordValidator(CommonPasswordValidator):
    """Refuses what is on Django's list of 20,000, also repeated, or with digits and signs around it."""

    def validate(self, password: str, user: User | None = None) -> None:
        folded = password.casefold()
        super().validate(folded, user)
        unit = repeated_unit(folded)
        core = repeated_unit(folded.strip("0123456789!?.,;:-_*#+ "))
        for part in (unit, core):
            super().validate(part, user)
        if len(unit) < SHORTEST_UNIT or len(core) < SHORTEST_UNIT:
            raise ValidationError(self.get_error_message(), code="password_too_common")


def repeated_unit(text: str) -> str:
    """The shortest piece that gives the text when repeated: 'monkeymonkey' -> 'monkey'."""
    at = (text + text).find(text, 1)
    return text[:at] if at > 0 else text
