"""What can be done beside the card: a session's end, notes, exports. Every verb takes the actor and checks access."""

from __future__ import annotations

from coachhub.insight.actions.ending import end_session, read_note
from coachhub.insight.actions.exporting import note_export

__all__ = ["end_session", "note_export", "read_note"]
