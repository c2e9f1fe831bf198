"""Reads of the card: facts to resolve from, sheets to show, history, the floor."""

from __future__ import annotations

from coachhub.cards.queries.athlete_facts import athlete_facts
from coachhub.cards.queries.history import History, HistoryRow, exercises_done, history
from coachhub.cards.queries.resolving import PreviewRow, Recipe, preview, recipe_for
from coachhub.cards.queries.session_facts import exercise_facts, session_facts
from coachhub.cards.queries.sheets import as_seen, lines_before, load_sheet, load_sheets

__all__ = [
    "History",
    "HistoryRow",
    "PreviewRow",
    "Recipe",
    "as_seen",
    "athlete_facts",
    "exercise_facts",
    "exercises_done",
    "history",
    "lines_before",
    "load_sheet",
    "load_sheets",
    "preview",
    "recipe_for",
    "session_facts",
]
