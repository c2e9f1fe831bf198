"""What the coach writes, and the own activation work that joins every card."""

from __future__ import annotations

from coachhub.plans.models_own import OwnItem, OwnItemQuerySet, OwnSet, OwnSetItem
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
    "LoadRule",
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
    "Segment",
    "Session",
]
