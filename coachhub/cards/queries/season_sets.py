"""Hard sets of a squad, week by week: as planned on the cards, and as done. For each pattern the mean of those who had
a card.

Hard sets are those of the strength part, ramp-up sets not among them; a set of both sides is one.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import dataclass, field
from datetime import date

from django.db.models import Exists, F, OuterRef

from coachhub.base.models import SegmentKind
from coachhub.cards.models import Card, CardLine, EntryKind, LineStatus, SetEntry
from coachhub.coaching.coverage import PRIMARY
from coachhub.coaching.series import monday_of


@dataclass
class WeekSets:
    """Sums over all athletes; `athletes` had a card in the week."""

    athletes: set[int] = field(default_factory=set)
    planned: Counter[str] = field(default_factory=Counter)
    done: Counter[str] = field(default_factory=Counter)

    def mean(self, counted: Counter[str], pattern: str) -> float:
        return counted[pattern] / len(self.athletes) if self.athletes else 0.0


def sets_by_week(squad_id: int, first: date, last: date) -> dict[date, WeekSets]:
    """By the Monday of the week. Three queries, whatever the squad's size."""
    weeks: defaultdict[date, WeekSets] = defaultdict(WeekSets)
    live = {
        "assignment__squad": squad_id,
        "assignment__cancelled_at": None,
        "assignment__on_date__range": (first, last),
    }
    cards = Card.objects.filter(is_guest=False, **live).values_list("pk", "athlete", "assignment__on_date")
    week_of = {}
    for card, athlete, on_date in cards:
        week_of[card] = monday_of(on_date)
        weeks[week_of[card]].athletes.add(athlete)
    lines = CardLine.objects.filter(
        revision__card__in=Card.objects.filter(is_guest=False, **live),
        revision__number=F("revision__card__revision_number"),
        segment=SegmentKind.STRENGTH,
        status=LineStatus.PLANNED,
    )
    patterns: dict[tuple[int, str], str] = {}
    for card, key, sets, trained in lines.values_list("revision__card", "line_key", "sets", "patterns"):
        if pattern := next((one for one in trained if one in PRIMARY), ""):
            patterns[card, key] = pattern
            weeks[week_of[card]].planned[pattern] += sets
    for card, key in _done(squad_id, first, last):
        if (card, key) in patterns:
            weeks[week_of[card]].done[patterns[card, key]] += 1
    return dict(weeks)


def _done(squad_id: int, first: date, last: date) -> list[tuple[int, str]]:
    """Each round that was done, once: whatever sides it was written by, and how often it was put right."""
    newer = SetEntry.objects.filter(supersedes_uuid=OuterRef("uuid"), card=OuterRef("card"))
    rows = SetEntry.objects.filter(
        ~Exists(newer),
        kind=EntryKind.DONE,
        card__assignment__squad=squad_id,
        card__assignment__cancelled_at=None,
        card__assignment__on_date__range=(first, last),
    )
    found = rows.order_by().values_list("card", "line_key", "round").distinct()
    return [(card, key) for card, key, _round in found]
