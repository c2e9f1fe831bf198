"""Reads beside the card: how hard it was, what athletes wrote, what they have done over the months."""

from __future__ import annotations

from coachhub.insight.queries.done import LOG_COLUMNS, done_by, done_in_squad
from coachhub.insight.queries.efforts import efforts_of, minutes_logged, with_effort
from coachhub.insight.queries.notes import begun_or_noted, notes_of
from coachhub.insight.queries.sets import sets_done

__all__ = [
    "LOG_COLUMNS",
    "begun_or_noted",
    "done_by",
    "done_in_squad",
    "efforts_of",
    "minutes_logged",
    "notes_of",
    "sets_done",
    "with_effort",
]
