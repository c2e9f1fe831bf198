"""What the desk's heavy pages are asked with: each is made ready here, once."""

from __future__ import annotations

from datetime import timedelta
from urllib.parse import urlencode
from uuid import uuid4

from django.db.models import Count
from django.urls import reverse

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.base.tables.table import MOST_ROWS
from coachhub.cards.actions.door import change_at_door
from coachhub.cards.models import Assignment, SetEntry
from coachhub.cards.queries import load_sheets
from coachhub.coaching.door import DoorStep
from coachhub.people.models import User
from tests.bench.load import Call
from tests.factories import ImportDraftFactory

READING = {"columns": {"given_name": 0, "family_name": 1, "born_on": 2}, "day_order": "dmy", "unit": "", "squad": None}


def desk_calls(
    *, user: User, coach: Actor, floor: Assignment, other: Assignment, login: dict[str, str]
) -> dict[str, list[Call]]:
    """`floor`: an evening half way through; `other`: one that gets a change at the door."""
    add_a_round(coach, other)
    return {
        "door": [Call(reverse("desk:floor", kwargs={"pk": other.pk}), login)],
        "quick": [Call(reverse("desk:quick_entry", kwargs={"pk": floor.pk}), login)],
        "table": [Call(reverse("desk:day_table", kwargs={"pk": floor.pk}), login)],
        "curve": [Call(longest_history(coach), login)],
        "preview": [Call(f"{reverse('desk:assign')}?{urlencode(asked(floor))}", login)],
        "roster": [Call(reverse("desk:roster_preview", kwargs={"pk": longest_roster(user)}), login)],
    }


def add_a_round(coach: Actor, evening: Assignment) -> None:
    block = load_sheets(evening.cards.all())[0].blocks[0]
    step = DoorStep("rounds", block.key, block.rounds_max + 1, block.label)
    change_at_door(actor=coach, assignment=evening, steps=[step], uuid=uuid4())


def longest_history(coach: Actor) -> str:
    """The lift of which somebody has done the most sets."""
    done = SetEntry.objects.filter(kind="done", athlete__memberships__squad__in=coach.squad_ids)
    most = done.values("athlete", "exercise").annotate(sets=Count("pk")).order_by("-sets", "athlete", "exercise")[0]
    return reverse("desk:history_exercise", kwargs={"pk": most["athlete"], "exercise_pk": most["exercise"]})


def asked(evening: Assignment) -> dict[str, object]:
    """Who would get what of the same session, on a day when nobody has it."""
    day = today() + timedelta(days=60)
    return {
        "session": evening.session_id,
        "squad": evening.squad_id,
        "venue": evening.venue_id,
        "on_date": day.isoformat(),
        "week": 1,
    }


def longest_roster(user: User) -> int:
    """The key of an upload of as many athletes as a file may hold."""
    rows = [[number + 2, ["Runa", f"Beck {number}", "2012-04-30"], [], ""] for number in range(MOST_ROWS)]
    table = {"headers": ["given name", "family name", "date of birth"], "rows": rows, "remarks": []}
    return int(ImportDraftFactory.create(owner=user, table=table, reading=READING).pk)
