"""The columns of a roster, in the order in which they are written."""

from __future__ import annotations

from typing import Final

from django.utils.translation import gettext_lazy as _

from coachhub.base.columns import Column

_PERSON: Final = _("Who it is")
_MORE: Final = _("What else is known")
_FIRST: Final = _("Guardian")
_SECOND: Final = _("Second guardian")

ID: Final = Column("id", _("coachhub id"), group=_PERSON)
# How many guardians of an athlete a row holds, by the beginning of their columns' keys.
GUARDIANS: Final = ("guardian", "guardian2")
# Columns that are an athlete's own, each under the name of its field.
FIELDS: Final = (
    "given_name",
    "family_name",
    "born_on",
    "unit",
    "position",
    "dominant_side",
    "level",
    "note",
    "emergency_contact",
    "health_alert",
)
COLUMNS: Final = (
    ID,
    Column("given_name", _("given name"), ("first name", "forename", "given names", "first"), True, _PERSON),
    Column("family_name", _("family name"), ("last name", "surname", "family", "last"), True, _PERSON),
    Column("born_on", _("date of birth"), ("birth date", "birthday", "born", "born on", "dob"), True, _PERSON),
    Column("squad", _("squad"), ("squads", "team", "teams", "group"), group=_PERSON),
    Column("unit", _("unit"), ("units", "reads loads in", "kg or lb"), group=_MORE),
    Column("position", _("position"), ("playing position", "pos", "role"), group=_MORE),
    Column("dominant_side", _("dominant side"), ("side", "hand", "handedness", "throwing arm"), group=_MORE),
    Column("level", _("level"), ("lifting level", "experience"), group=_MORE),
    Column("note", _("note"), ("notes", "remark", "remarks", "comment", "comments"), group=_MORE),
    Column("emergency_contact", _("emergency contact"), ("in an emergency", "emergency", "ice"), group=_MORE),
    Column(
        "health_alert", _("health alert"), ("alert", "allergies", "allergy", "medical alert", "asthma"), group=_MORE
    ),
    Column("guardian_name", _("guardian name"), ("guardian", "parent", "parent name", "guardian 1 name"), group=_FIRST),
    Column("guardian_phone", _("guardian phone"), ("parent phone", "guardian 1 phone"), group=_FIRST),
    Column("guardian_email", _("guardian e-mail"), ("parent e-mail", "guardian 1 e-mail"), group=_FIRST),
    Column("guardian_relation", _("guardian relation"), ("relation", "guardian 1 relation"), group=_FIRST),
    Column("guardian2_name", _("guardian 2 name"), ("guardian 2", "parent 2", "second guardian"), group=_SECOND),
    Column("guardian2_phone", _("guardian 2 phone"), ("parent 2 phone",), group=_SECOND),
    Column("guardian2_email", _("guardian 2 e-mail"), ("parent 2 e-mail",), group=_SECOND),
    Column("guardian2_relation", _("guardian 2 relation"), group=_SECOND),
)
