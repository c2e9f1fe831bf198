"""The checks of a good coach: a session, a week or an athlete's own days in, findings out. Nothing is ever blocked."""

from coachhub.coaching.review.athlete import CalendarDay, review_athlete
from coachhub.coaching.review.doses import Person
from coachhub.coaching.review.findings import Finding, Severity, Where, open_ones
from coachhub.coaching.review.floor import Floor
from coachhub.coaching.review.phases import PHASES, USUAL, Phase, PhaseCode, Target
from coachhub.coaching.review.reading import ReadSession, read
from coachhub.coaching.review.rules import COMMON, DEFAULTS, RULES, Rule, Thresholds
from coachhub.coaching.review.session import Setting, review_floor, review_session
from coachhub.coaching.review.week import hard_sets, review_week

__all__ = [
    "COMMON",
    "DEFAULTS",
    "PHASES",
    "RULES",
    "USUAL",
    "CalendarDay",
    "Finding",
    "Floor",
    "Person",
    "Phase",
    "PhaseCode",
    "ReadSession",
    "Rule",
    "Setting",
    "Severity",
    "Target",
    "Thresholds",
    "Where",
    "hard_sets",
    "open_ones",
    "read",
    "review_athlete",
    "review_floor",
    "review_session",
    "review_week",
]
