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
from coachhub.cards.models_copy import CopyAnswer, CopyAnswerKind
from coachhub.cards.models_door import BarHeight, DoorChange, PairWish, StationPlace, WishKind
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
from coachhub.cards.models_run import AssignmentRun, AssignmentRunQuerySet, RunStep, StepState

__all__ = [
    "Assignment",
    "AssignmentQuerySet",
    "AssignmentRun",
    "AssignmentRunQuerySet",
    "Attendance",
    "AttendanceStatus",
    "BarHeight",
    "BestSource",
    "Card",
    "CardCopy",
    "CardLine",
    "CardQuerySet",
    "CardRevision",
    "CopyAnswer",
    "CopyAnswerKind",
    "CopyKind",
    "DoorChange",
    "EntryKind",
    "EntrySide",
    "KnownBest",
    "LineStatus",
    "PairWish",
    "RevisionReason",
    "RunStep",
    "SetEntry",
    "SetMark",
    "SetQuality",
    "StationPlace",
    "StepState",
    "StrengthEstimate",
    "WishKind",
    "most_load",
]
