"""Verbs on the calendar."""

from __future__ import annotations

from coachhub.season.actions.dates import (
    ChangedMeanwhileError,
    Dated,
    Scope,
    add_happening,
    add_slot,
    call_off,
    change_dates,
    edit_whole,
    remove_dates,
    remove_whole,
)
from coachhub.season.actions.feeds import make_feed, revoke_feed
from coachhub.season.actions.matches import add_match, cancel_match, edit_match, remove_match, set_minutes
from coachhub.season.actions.phases import remove_phase, set_phase

__all__ = [
    "ChangedMeanwhileError",
    "Dated",
    "Scope",
    "add_happening",
    "add_match",
    "add_slot",
    "call_off",
    "cancel_match",
    "change_dates",
    "edit_match",
    "edit_whole",
    "make_feed",
    "remove_dates",
    "remove_match",
    "remove_phase",
    "remove_whole",
    "revoke_feed",
    "set_minutes",
    "set_phase",
]
