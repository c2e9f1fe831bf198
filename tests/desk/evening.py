"""What a test on card pages does with the evening."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from coachhub.base.clock import today
from coachhub.cards.actions import log_round_as_planned, restrict_athlete
from coachhub.cards.models import Card, SetEntry
from coachhub.people.models import Athlete
from tests.cards.conftest import Evening, tap


def tap_round(evening: Evening, athlete: Athlete, label: str = "A", number: int = 1) -> list[SetEntry]:
    """The coach taps a round of this block for the athlete."""
    sheet = evening.sheet(athlete)
    (key,) = [group.key for group in sheet.blocks if group.label == label]
    done = tap(number, seq=sheet.next_seq)
    stored = log_round_as_planned(actor=evening.coach, card=evening.card(athlete), sheet=sheet, group_key=key, tap=done)
    return [one.entry for one in stored]


def restrict_knee(evening: Evening, athlete: Athlete, **values: Any) -> list[Card]:
    """Both knees, on the word of Dr Alder; returns the cards that changed."""
    columns = {"kind": "region", "region": "knee", "on_word_of": "Dr Alder", "starts_on": today(), **values}
    _row, cards = restrict_athlete(actor=evening.coach, athlete=athlete, **columns)
    return cards


def asked(evening: Evening, *, in_days: int = 1, **changed: Any) -> dict[str, Any]:
    """What the form for giving the evening's session to the Seniors sends."""
    return {
        "session": evening.session.pk,
        "squad": evening.cast.squad.pk,
        "venue": evening.cast.venue.pk,
        "on_date": (today() + timedelta(days=in_days)).isoformat(),
        "week": 1,
        **changed,
    }
