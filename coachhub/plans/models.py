"""What the coach writes, the own activation work that joins every card, and what is made of the checks."""

from __future__ import annotations

from coachhub.plans.models_fit import FitRule, SessionRole, SessionVariant
from coachhub.plans.models_own import OwnDose, OwnItem, OwnItemQuerySet, OwnSet, OwnSetItem
from coachhub.plans.models_review import FindingAcceptance, FindingAcceptanceQuerySet, ReviewSetting
from coachhub.plans.models_written import (
    CircuitGroup,
    DoseColumns,
    DoseKind,
    LoadRule,
    Per,
    Plan,
    Prescription,
    PrescriptionSwap,
    PrescriptionWeek,
    Removal,
    Segment,
    Session,
)

__all__ = [
    "CircuitGroup",
    "DoseColumns",
    "DoseKind",
    "FindingAcceptance",
    "FindingAcceptanceQuerySet",
    "FitRule",
    "LoadRule",
    "OwnDose",
    "OwnItem",
    "OwnItemQuerySet",
    "OwnSet",
    "OwnSetItem",
    "Per",
    "Plan",
    "Prescription",
    "PrescriptionSwap",
    "PrescriptionWeek",
    "Removal",
    "ReviewSetting",
    "Segment",
    "Session",
    "SessionRole",
    "SessionVariant",
]
