"""The club, who trains, who coaches, and what must be known so that nobody is hurt."""

from __future__ import annotations

from coachhub.people.models_access import Device, EnrolmentCode, User
from coachhub.people.models_club import (
    Athlete,
    AthleteQuerySet,
    Club,
    Consent,
    ConsentKind,
    DominantSide,
    Guardian,
    GuardianQuerySet,
    Guardianship,
    Level,
    Membership,
    Squad,
    SquadQuerySet,
    Staff,
    StaffRole,
    StaffSquad,
    is_birthday_plausible,
)
from coachhub.people.models_health import (
    Availability,
    AvailabilityStatus,
    PainReport,
    RedFlag,
    RedFlagKind,
    Restriction,
    RestrictionException,
    RestrictionKind,
)
from coachhub.people.models_import import ImportDraft, ImportDraftQuerySet, ImportKind
from coachhub.people.models_levels import AthleteLevel, ReturnStage

__all__ = [
    "Athlete",
    "AthleteLevel",
    "AthleteQuerySet",
    "Availability",
    "AvailabilityStatus",
    "Club",
    "Consent",
    "ConsentKind",
    "Device",
    "DominantSide",
    "EnrolmentCode",
    "Guardian",
    "GuardianQuerySet",
    "Guardianship",
    "ImportDraft",
    "ImportDraftQuerySet",
    "ImportKind",
    "Level",
    "Membership",
    "PainReport",
    "RedFlag",
    "RedFlagKind",
    "Restriction",
    "RestrictionException",
    "RestrictionKind",
    "ReturnStage",
    "Squad",
    "SquadQuerySet",
    "Staff",
    "StaffRole",
    "StaffSquad",
    "User",
    "is_birthday_plausible",
]
