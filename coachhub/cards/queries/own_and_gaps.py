"""An athlete's own activation work, and breaks in training, as facts."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from datetime import date, timedelta
from typing import Final

from django.db.models import Max

from coachhub.base.clock import today
from coachhub.cards.models import SetEntry
from coachhub.cards.queries.session_facts import exercise_facts
from coachhub.coaching.coverage import COUNTED_PARTS
from coachhub.coaching.easing import latest_gap
from coachhub.coaching.facts import Gap, OwnItem
from coachhub.people.models import Athlete, Club
from coachhub.plans.dose import plain_dose
from coachhub.plans.queries_own import own_items_on

# A break within these is found day by day; of older training only the last day matters.
RECENT_DAYS: Final = 120


def own_work_of(athletes: Sequence[Athlete], on_date: date) -> dict[int, tuple[OwnItem, ...]]:
    rows = own_items_on(athletes, on_date)
    exercises = exercise_facts(row.exercise_id for own in rows.values() for row in own) if any(rows.values()) else {}
    return {
        pk: tuple(OwnItem(row.line_key, exercises[row.exercise_id], plain_dose(row), row.sets, row.goal) for row in own)
        for pk, own in rows.items()
    }


def gaps_of(athlete_ids: Sequence[int], on_date: date) -> dict[int, dict[str, Gap]]:
    """Return, per athlete and movement pattern, the latest break that is still to be eased.

    A day to come is judged as of today: what is trained until then nobody knows yet.
    """
    on = min(on_date, today())
    club = Club.objects.first()
    trained = _trained(athlete_ids, on)
    found: dict[int, dict[str, Gap]] = {pk: {} for pk in athlete_ids}
    for (athlete_id, pattern), days in sorted(trained.items()):
        gap = latest_gap(days, on, club.gap_days) if club else latest_gap(days, on)
        if gap is not None:
            found[athlete_id][pattern] = gap
    return found


def _trained(athlete_ids: Sequence[int], on: date) -> dict[tuple[int, str], list[date]]:
    """Days on which each pattern was trained before, oldest first: the recent ones, and the last one before those."""
    since = on - timedelta(days=RECENT_DAYS)
    rows = SetEntry.objects.filter(
        athlete__in=athlete_ids, kind="done", on_date__lt=on, exercise__segment__in=sorted(COUNTED_PARTS)
    ).order_by()
    days: defaultdict[tuple[int, str], list[date]] = defaultdict(list)
    older = rows.filter(on_date__lt=since).values_list("athlete", "exercise__patterns__pattern")
    for athlete_id, pattern, last in older.annotate(last=Max("on_date")):
        days[athlete_id, pattern or ""].append(last)
    recent = rows.filter(on_date__gte=since).values_list("athlete", "exercise__patterns__pattern", "on_date")
    for athlete_id, pattern, day in recent.distinct().order_by("on_date"):
        days[athlete_id, pattern or ""].append(day)
    return days
