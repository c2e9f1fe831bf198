"""What can be done with cards. Every verb takes the actor, checks access, and writes in one short transaction."""

from __future__ import annotations

from coachhub.cards.actions.as_planned import Tap, amount_columns, log_as_planned, log_round_as_planned, log_squad_round
from coachhub.cards.actions.assigning import assign_session, cancel_assignment, note_copies, renew_card, renew_stale
from coachhub.cards.actions.best_files import import_bests
from coachhub.cards.actions.copies import answer_copies
from coachhub.cards.actions.health import (
    add_exception,
    clear_pain,
    clear_red_flag,
    keep_restriction,
    lift_restriction,
    report_pain,
    report_red_flag,
    restrict_again,
    restrict_athlete,
    set_known_best,
)
from coachhub.cards.actions.logging_sets import (
    EntryDraft,
    Outcome,
    StoredEntry,
    keep_both,
    log_entries,
    mark_round,
    mark_set,
    note_attendance,
)
from coachhub.cards.actions.quick_entry import log_cards
from coachhub.cards.actions.taking_back import DayOverError, TakenBack, take_back_squad_round

__all__ = [
    "DayOverError",
    "EntryDraft",
    "Outcome",
    "StoredEntry",
    "TakenBack",
    "Tap",
    "add_exception",
    "amount_columns",
    "answer_copies",
    "assign_session",
    "cancel_assignment",
    "clear_pain",
    "clear_red_flag",
    "import_bests",
    "keep_both",
    "keep_restriction",
    "lift_restriction",
    "log_as_planned",
    "log_cards",
    "log_entries",
    "log_round_as_planned",
    "log_squad_round",
    "mark_round",
    "mark_set",
    "note_attendance",
    "note_copies",
    "renew_card",
    "renew_stale",
    "report_pain",
    "report_red_flag",
    "restrict_again",
    "restrict_athlete",
    "set_known_best",
    "take_back_squad_round",
]
