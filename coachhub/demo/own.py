"""What is an athlete's own from today on: activation work, and a level in a family of exercises."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from coachhub.coaching.notation import parse
from coachhub.demo.stage import Stage
from coachhub.library.models import Exercise
from coachhub.people.actions.levels import set_level
from coachhub.plans.actions_own import Whose, add_item


def begin(stage: Stage) -> None:
    for row in stage.story.own_work:
        _add(stage, row)
    for row in stage.story.levels:
        exercise = Exercise.objects.get(origin_key=row["exercise"])
        set_level(
            actor=stage.coach,
            athlete=stage.members[row["athlete"]].athlete,
            family=exercise.family,
            exercise=exercise,
            from_on=stage.days[row["before"]],
            reason=row["reason"],
        )


def _add(stage: Stage, row: dict[str, Any]) -> None:
    """For the athlete named, else for the squad, or a position in it."""
    dose = parse(row["dose"])
    athlete = stage.members[row["athlete"]].athlete if "athlete" in row else None
    add_item(
        actor=stage.coach,
        whose=Whose(athlete, None if athlete else stage.squad, row.get("position", "")),
        dose=dose,
        exercise=Exercise.objects.get(origin_key=row["exercise"]),
        sets=dose.sets_max or 1,
        goal=row.get("goal", ""),
        weekdays=row.get("weekdays", []),
        from_on=stage.today - timedelta(days=row.get("days_ago", 0)),
        review_on=stage.today + timedelta(days=row["review_in"]) if "review_in" in row else None,
    )
