"""Reads of the card: facts to resolve from, sheets to show, history, the floor."""

from __future__ import annotations

from coachhub.cards.queries.assignments import cards_with_state
from coachhub.cards.queries.athlete_facts import athlete_facts
from coachhub.cards.queries.changing import BlockChange, CardChange, LineChange, changes_of
from coachhub.cards.queries.copies import old_copies
from coachhub.cards.queries.floor import FloorCell, FloorHead, FloorRow, FloorSet, flags_and_pains, load_floor
from coachhub.cards.queries.given import given_from, others_that_day
from coachhub.cards.queries.health import bests_of, can_do_instead, flags_to_read, pains_to_read, restrictions_to_read
from coachhub.cards.queries.history import History, HistoryRow, exercises_done, history
from coachhub.cards.queries.previewing import eased_after, line_to_be
from coachhub.cards.queries.pulse import Pulse, read_pulse
from coachhub.cards.queries.questions import (
    assignments_between,
    open_pains,
    reviews_due,
    standing_flags,
    still_full,
)
from coachhub.cards.queries.resolving import PreviewRow, Recipe, holders, preview, recipe_for
from coachhub.cards.queries.reviewing import GivenDay, SquadReview, review_of_squad
from coachhub.cards.queries.session_facts import exercise_facts, session_facts
from coachhub.cards.queries.sheets import as_seen, lines_before, load_sheet, load_sheets
from coachhub.cards.queries.timeline import Standing, TimelineCard, TimelineRow, days_trained, timeline
from coachhub.cards.queries.waiting import coaches_of, exceptions_over, restrictions_waiting

__all__ = [
    "BlockChange",
    "CardChange",
    "FloorCell",
    "FloorHead",
    "FloorRow",
    "FloorSet",
    "GivenDay",
    "History",
    "HistoryRow",
    "LineChange",
    "PreviewRow",
    "Pulse",
    "Recipe",
    "SquadReview",
    "Standing",
    "TimelineCard",
    "TimelineRow",
    "as_seen",
    "assignments_between",
    "athlete_facts",
    "bests_of",
    "can_do_instead",
    "cards_with_state",
    "changes_of",
    "coaches_of",
    "days_trained",
    "eased_after",
    "exceptions_over",
    "exercise_facts",
    "exercises_done",
    "flags_and_pains",
    "flags_to_read",
    "given_from",
    "history",
    "holders",
    "line_to_be",
    "lines_before",
    "load_floor",
    "load_sheet",
    "load_sheets",
    "old_copies",
    "open_pains",
    "others_that_day",
    "pains_to_read",
    "preview",
    "read_pulse",
    "recipe_for",
    "restrictions_to_read",
    "restrictions_waiting",
    "review_of_squad",
    "reviews_due",
    "session_facts",
    "standing_flags",
    "still_full",
    "timeline",
]
