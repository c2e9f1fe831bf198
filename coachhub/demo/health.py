"""What the story says of health: restrictions, availability, pain, red flags. By the verbs, then put back in time."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from decimal import Decimal
from random import Random
from typing import Any, Final

from coachhub.cards.actions import (
    add_exception,
    clear_pain,
    clear_red_flag,
    lift_restriction,
    report_pain,
    report_red_flag,
    restrict_athlete,
)
from coachhub.coaching.facts import Mass
from coachhub.demo.days import at
from coachhub.demo.lifting import new_uuid
from coachhub.demo.stage import Stage
from coachhub.library.models import Exercise
from coachhub.people.actions import set_availability
from coachhub.people.models import (
    Availability,
    AvailabilityStatus,
    PainReport,
    RedFlag,
    RedFlagKind,
    Restriction,
    RestrictionException,
)

Row = dict[str, Any]
Step = Callable[[Stage, Row, date], None]
COLUMNS: Final = ("kind", "region", "side", "pattern", "can_do", "diagnosis", "on_word_of")


def before_session(stage: Stage, number: int, on_date: date) -> None:
    """Write what was known by then."""
    story = stage.story
    steps: tuple[tuple[list[Row], str, Step], ...] = (
        (story.pains, "cleared_before", _clear_pain),
        (story.red_flags, "cleared_before", _clear_flag),
        (story.restrictions, "lifted_before", _lift),
        (story.availability, "before", _set_availability),
        (story.restrictions, "before", _restrict),
    )
    for rows, when, step in steps:
        for row in rows:
            if row.get(when) == number:
                step(stage, row, on_date)


def after_session(stage: Stage, number: int, on_date: date) -> None:
    """Report what happened that day. Pain without a session named for it was cleared the day after."""
    for row in stage.story.pains:
        if row["after"] == number:
            _report_pain(stage, row, on_date)
    for row in stage.story.red_flags:
        if row["after"] == number:
            _raise_flag(stage, row, on_date)


def hurt(stage: Stage, row: Row) -> PainReport:
    member = stage.members[row["athlete"]]
    return report_pain(
        actor=member.actor or stage.assistant,
        athlete=member.athlete,
        uuid=new_uuid(_rng(stage, row)),
        region=row["region"],
        side=row.get("side", "both"),
        score=row["score"],
        is_sore_only=row.get("is_sore_only", False),
        note=row["note"],
    )


def _rng(stage: Stage, row: Row) -> Random:
    return Random(f"{stage.seed} {stage.story.key} {row['athlete']} {row['note']}")


def _report_pain(stage: Stage, row: Row, on_date: date) -> None:
    report = hurt(stage, row)
    PainReport.objects.filter(pk=report.pk).update(on_date=on_date, reported_at=at(on_date, 20, 20))
    if "cleared_note" in row and "cleared_before" not in row:
        _clear_pain(stage, row, on_date + timedelta(days=2))


def _clear_pain(stage: Stage, row: Row, on_date: date) -> None:
    """The day before that one."""
    report = PainReport.objects.get(athlete=stage.members[row["athlete"]].athlete, note=row["note"])
    clear_pain(actor=stage.coach, report=report, note=row["cleared_note"])
    PainReport.objects.filter(pk=report.pk).update(cleared_at=at(on_date - timedelta(days=1), 17))


def _raise_flag(stage: Stage, row: Row, on_date: date) -> None:
    member = stage.members[row["athlete"]]
    flag = report_red_flag(
        actor=member.actor or stage.assistant,
        athlete=member.athlete,
        uuid=new_uuid(_rng(stage, row)),
        kind=RedFlagKind(row["kind"]),
        note=row["note"],
    )
    RedFlag.objects.filter(pk=flag.pk).update(on_date=on_date, reported_at=at(on_date, 20, 10))


def _clear_flag(stage: Stage, row: Row, on_date: date) -> None:
    flag = RedFlag.objects.get(athlete=stage.members[row["athlete"]].athlete, note=row["note"])
    cleared_on = on_date - timedelta(days=1)
    clear_red_flag(actor=stage.staff["clinician"], flag=flag, cleared_by_name=row["cleared_by"], cleared_on=cleared_on)
    RedFlag.objects.filter(pk=flag.pk).update(cleared_at=at(cleared_on, 17))


def _set_availability(stage: Stage, row: Row, on_date: date) -> None:
    made = set_availability(
        actor=stage.staff["clinician"],
        athlete=stage.members[row["athlete"]].athlete,
        status=AvailabilityStatus(row["status"]),
        from_on=on_date,
        can_do=row.get("can_do", ""),
    )
    Availability.objects.filter(pk=made.pk).update(set_at=at(on_date, 12))


def _restrict(stage: Stage, row: Row, on_date: date) -> None:
    actor = stage.staff[stage.story.coach if row["by"] == "coach" else row["by"]]
    restriction, _ = restrict_athlete(
        actor=actor,
        athlete=stage.members[row["athlete"]].athlete,
        starts_on=on_date,
        review_on=stage.review_day(row),
        **{name: row[name] for name in COLUMNS if name in row},
        **_what(row),
    )
    for exception in row.get("exceptions", ()):
        add_exception(
            actor=actor,
            restriction=restriction,
            exercise=Exercise.objects.get(origin_key=exception["exercise"]),
            on_word_of=row["on_word_of"],
            cap=Mass(Decimal(exception["cap"]), "kg") if "cap" in exception else None,
        )
    set_at = restriction.set_at if on_date == stage.today else at(on_date, 12)
    Restriction.objects.filter(pk=restriction.pk).update(set_at=set_at)
    RestrictionException.objects.filter(restriction=restriction).update(added_at=set_at)


def _what(row: Row) -> dict[str, Any]:
    found: dict[str, Any] = {}
    if "exercise" in row:
        found["exercise"] = Exercise.objects.get(origin_key=row["exercise"])
    if "cap" in row:
        found |= {"cap_value": Decimal(row["cap"]), "cap_unit": "kg"}
    return found


def _lift(stage: Stage, row: Row, on_date: date) -> None:
    restriction = Restriction.objects.get(
        athlete=stage.members[row["athlete"]].athlete, kind=row["kind"], lifted_at=None
    )
    lift_restriction(
        actor=stage.staff[stage.story.coach if row["by"] == "coach" else row["by"]],
        restriction=restriction,
        on_word_of=row["lifted_on_word_of"],
    )
    Restriction.objects.filter(pk=restriction.pk).update(lifted_at=at(on_date - timedelta(days=1), 17))
