"""What the calendar shows of a day: each date in words, for month, week and lists alike."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from django.urls import reverse

from coachhub.coaching.series import MATCH, SLOT, Occasion
from coachhub.season.words import length_words, state_words, what_words


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of a day. `state`: why it does not take place, if so."""

    kind: str
    start: str
    length: str
    what: str
    squad: str
    url: str
    state: str

    @classmethod
    def of(cls, one: Occasion, squads: Mapping[int, str]) -> Entry:
        return cls(
            kind=one.kind,
            start=f"{one.starts_at:%H:%M}" if one.starts_at else "",
            length=length_words(one),
            what=what_words(one),
            squad=squads.get(one.squad_id or 0, ""),
            url=url_of(one),
            state=state_words(one),
        )


def url_of(one: Occasion) -> str:
    if one.kind == MATCH:
        return reverse("desk:match", kwargs={"pk": one.pk})
    name = "desk:slot" if one.kind == SLOT else "desk:happening"
    return reverse(name, kwargs={"pk": one.pk, "on": one.on_date.isoformat()})


@dataclass(frozen=True, slots=True)
class Day:
    day: date
    entries: list[Entry]
    is_today: bool = False
    is_outside: bool = False
