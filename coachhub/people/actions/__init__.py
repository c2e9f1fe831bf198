"""Verbs on the club and its people."""

from __future__ import annotations

from coachhub.people.actions.club import edit_club, set_up_club
from coachhub.people.actions.consents import give_consent, withdraw_consent
from coachhub.people.actions.drafts import drop_draft, drop_expired_drafts, keep_draft, set_reading
from coachhub.people.actions.enrolment import (
    NewCode,
    NewDevice,
    enrol_device,
    make_enrolment_code,
    make_enrolment_codes,
    note_phone_seen,
    revoke_code,
    revoke_device,
)
from coachhub.people.actions.guardians import add_guardian, edit_guardian, remove_guardian, share_guardian
from coachhub.people.actions.roster import (
    AthleteValues,
    add_athlete,
    add_squad,
    archive_athlete,
    bring_back_athlete,
    edit_athlete,
    edit_squad,
    join_squad,
    leave_squad,
    set_availability,
)
from coachhub.people.actions.roster_files import import_roster
from coachhub.people.actions.staff import add_staff, add_staff_account, archive_staff, edit_staff, set_password

__all__ = [
    "AthleteValues",
    "NewCode",
    "NewDevice",
    "add_athlete",
    "add_guardian",
    "add_squad",
    "add_staff",
    "add_staff_account",
    "archive_athlete",
    "archive_staff",
    "bring_back_athlete",
    "drop_draft",
    "drop_expired_drafts",
    "edit_athlete",
    "edit_club",
    "edit_guardian",
    "edit_squad",
    "edit_staff",
    "enrol_device",
    "give_consent",
    "import_roster",
    "join_squad",
    "keep_draft",
    "leave_squad",
    "make_enrolment_code",
    "make_enrolment_codes",
    "note_phone_seen",
    "remove_guardian",
    "revoke_code",
    "revoke_device",
    "set_availability",
    "set_password",
    "set_reading",
    "set_up_club",
    "share_guardian",
    "withdraw_consent",
]
