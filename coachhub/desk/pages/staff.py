"""What the list of staff shows."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.shortcuts import get_object_or_404
from django.utils.translation import gettext as _

from coachhub.people import queries
from coachhub.people.models import Staff, StaffRole


@dataclass(frozen=True, slots=True)
class StaffLine:
    pk: int
    name: str
    role: str
    login: str
    squads: str

    @classmethod
    def of(cls, row: Any) -> StaffLine:
        squads = _("all") if row.role == StaffRole.OWNER else ", ".join(squad.name for squad in row.live_squads)
        login = " · ".join(filter(None, [row.user.username, row.user.email]))
        return cls(row.pk, row.name, row.get_role_display(), login, squads or _("none yet"))


@dataclass(frozen=True, slots=True)
class StaffPage:
    lines: list[StaffLine]
    left: list[str]

    @classmethod
    def now(cls) -> StaffPage:
        rows = list(queries.all_staff())
        here = [StaffLine.of(row) for row in rows if not row.is_archived]
        return cls(here, [row.name for row in rows if row.is_archived])


def squadless_words(person: Staff) -> str:
    """Empty for an owner, and for whoever has a squad."""
    if person.role == StaffRole.OWNER or person.squads.filter(archived_at=None).exists():
        return ""
    return _("%(name)s has no squad yet and sees no athlete: choose a squad, or add one first.") % {"name": person}


def find_staff(pk: int) -> Staff:
    """Someone who works here now."""
    return get_object_or_404(queries.all_staff().filter(archived_at=None), pk=pk)
