"""The numbers behind the safety rules, in one place."""

from __future__ import annotations

from typing import Final

# Under-18s are minors; national law may differ, so the club's own rules come first.
ADULT_AGE: Final = 18
# No maximal test by default under this age (product choice, cautious; youth statements allow supervised testing).
MAXIMAL_AGE: Final = 16
# From this score on, lines that load the region come off the card
# (the pain-monitoring model of Thomeé 1997 puts "stop" above 5; from memory).
PAIN_STOP_ADULT: Final = 6
# Amber begins at 3 and in youth needs the coach's decision.
PAIN_STOP_MINOR: Final = 3
# Logged training days before somebody stops counting as new to the weights (common practice).
NOVICE_DAYS: Final = 8
# At most one rise per exercise in this many days for novices and minors (common practice).
RISE_DAYS: Final = 7
# A set counts as evidence "for about those reps" when it had at most this many fewer.
ABOUT_REPS: Final = 1


def pain_stop(is_minor: bool) -> int:
    return PAIN_STOP_MINOR if is_minor else PAIN_STOP_ADULT
