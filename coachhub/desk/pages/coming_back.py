"""The way back of an athlete after injury or illness: the stage that counts, and every one before."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any

from django.db.models import Q
from django.utils.text import capfirst

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.cards.models import Assignment
from coachhub.cards.queries.own_list import left_behind
from coachhub.cards.words_health import stage_text
from coachhub.desk.pages.own import behind_words
from coachhub.people.models import Athlete, ReturnStage
from coachhub.people.queries_levels import stages_told


@dataclass(frozen=True, slots=True)
class StageLine:
    """`by` typed it in; `word` is whose word it stands on."""

    words: str
    from_on: date
    word: str
    by: str

    @classmethod
    def of(cls, row: ReturnStage) -> StageLine:
        set_by: Any = row.set_by
        by = set_by.staff.name if hasattr(set_by, "staff") else ""
        return cls(capfirst(stage_text(row.stage)), row.from_on, row.on_word_of, by)


@dataclass(frozen=True, slots=True)
class ComingBackPage:
    """`now` is None for somebody who trains in full."""

    athlete: Athlete
    now: StageLine | None
    past: tuple[StageLine, ...]
    behind: tuple[Assignment, ...]

    @classmethod
    def of(cls, actor: Actor, athlete: Athlete) -> ComingBackPage:
        rows = stages_told(athlete)
        newest = next((row for row in rows if row.from_on <= today()), None)
        is_back = newest is None or newest.stage == 0
        return cls(
            athlete=athlete,
            now=None if newest is None or is_back else StageLine.of(newest),
            past=tuple(StageLine.of(row) for row in rows if is_back or row is not newest),
            behind=tuple(left_behind(actor, today(), Q(pk=athlete.pk))) if actor.may_write else (),
        )

    @property
    def behind_words(self) -> str:
        return behind_words(self.behind)
