"""The columns of a table of known bests, in the order in which they are written."""

from __future__ import annotations

from typing import Final

from django.utils.translation import gettext_lazy as _

from coachhub.base.columns import Column

_WHO: Final = _("Who")
_WHAT: Final = _("What was lifted")

COLUMNS: Final = (
    Column("id", _("best id"), group=_WHAT),
    Column("athlete_id", _("coachhub id"), ("athlete id",), group=_WHO),
    Column("athlete", _("athlete"), ("name", "athlete name", "given name", "first name", "player"), True, _WHO),
    Column("family_name", _("family name"), ("last name", "surname"), group=_WHO),
    Column("born_on", _("date of birth"), ("birth date", "birthday", "born", "dob"), group=_WHO),
    Column("exercise", _("exercise"), ("lift", "movement"), True, _WHAT),
    Column("load", _("load"), ("weight", "best", "kg", "lb", "result"), True, _WHAT),
    Column("unit", _("unit"), ("units",), group=_WHAT),
    Column("reps", _("reps"), ("repetitions", "rep"), group=_WHAT),
    Column("rir", _("reps in reserve"), ("rir", "in reserve"), group=_WHAT),
    Column("on_date", _("date"), ("day", "on", "test date", "tested on"), True, _WHAT),
    Column("source", _("source"), ("from", "kind"), group=_WHAT),
)
