"""The card: who trains what on which day, what each was given, and what was really done."""

from __future__ import annotations

from coachhub.cards.models_card import (
    Assignment,
    AssignmentQuerySet,
    Attendance,
    AttendanceStatus,
    Card,
    CardCopy,
    CardLine,
    CardQuerySet,
    CardRevision,
    CopyKind,
    LineStatus,
    RevisionReason,
)
from coachhub.cards.models_entry import (
    BestSource,
    EntryKind,
    EntrySide,
    KnownBest,
    SetEntry,
    SetMark,
    SetQuality,
    StrengthEstimate,
    most_load,
)

__all__ = [
    "Assignment",
    "AssignmentQuerySet",
    "Attendance",
    "AttendanceStatus",
    "BestSource",
    "Card",
    "CardCopy",
    "CardLine",
    "CardQuerySet",
    "CardRevision",
    "CopyKind",
    "EntryKind",
    "EntrySide",
    "KnownBest",
    "LineStatus",
    "RevisionReason",
    "SetEntry",
    "SetMark",
    "SetQuality",
    "StrengthEstimate",
    "most_load",
]
