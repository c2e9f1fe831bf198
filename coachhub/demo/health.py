"""What the story says of health: restrictions, availability, pain."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from random import Random
from typing import Any, Final

from coachhub.cards.actions import add_exception, clear_pain, report_pain, restrict_athlete
from coachhub.coaching.facts import Mass
from coachhub.demo.club import DemoClub
from coachhub.demo.data import Story
from coachhub.demo.days import at
from coachhub.demo.lifting import new_uuid
from coachhub.library.models import Exercise
from coachhub.people.actions import set_availability
from coachhub.people.models import Availability, AvailabilityStatus, PainReport, Restriction, RestrictionException

COLUMNS: Final = ("kind", "region", "side", "can_do", "diagnosis", "on_word_of")


def before_session(club: DemoClub, story: Story, number: int, on_date: date, today: date) -> None:
    """Write what was known by then."""
    for row in story.availability:
        if row["before"] == number:
            _availability(club, row, on_date)
    for row in story.restrictions:
        if row["before"] == number:
            _restrict(club, row, on_date, today)


def after_session(club: DemoClub, story: Story, number: int, on_date: date, rng: Random) -> None:
    """Report what hurt that day; it was cleared the day after."""
    for row in story.pains:
        if row["after"] == number:
            report = hurt(club, row, rng)
            clear_pain(actor=club.coach, report=report, note=row["cleared_note"])
            PainReport.objects.filter(pk=report.pk).update(
                on_date=on_date, reported_at=at(on_date, 18, 20), cleared_at=at(on_date + timedelta(days=1), 17)
            )


def hurt(club: DemoClub, row: dict[str, Any], rng: Random) -> PainReport:
    member = club.members[row["athlete"]]
    return report_pain(
        actor=member.actor or club.assistant,
        athlete=member.athlete,
        uuid=new_uuid(rng),
        region=row["region"],
        side=row.get("side", "both"),
        score=row["score"],
        is_sore_only=row.get("is_sore_only", False),
        note=row["note"],
    )


def _availability(club: DemoClub, row: dict[str, Any], on_date: date) -> None:
    made = set_availability(
        actor=club.staff["clinician"],
        athlete=club.athlete(row["athlete"]),
        status=AvailabilityStatus(row["status"]),
        from_on=on_date,
        can_do=row["can_do"],
    )
    Availability.objects.filter(pk=made.pk).update(set_at=at(on_date, 12))


def _restrict(club: DemoClub, row: dict[str, Any], on_date: date, today: date) -> None:
    actor = club.staff[row["by"]]
    columns = {
        name: row[name] for name in ("kind", "region", "side", "can_do", "diagnosis", "on_word_of") if name in row
    }
    restriction, _ = restrict_athlete(
        actor=actor,
        athlete=club.athlete(row["athlete"]),
        starts_on=on_date,
        review_on=today + timedelta(days=row["review_in"]),
        **columns,
    )
    for exception in row.get("exceptions", ()):
        add_exception(
            actor=actor,
            restriction=restriction,
            exercise=Exercise.objects.get(origin_key=exception["exercise"]),
            on_word_of=row["on_word_of"],
            cap=Mass(Decimal(exception["cap"]), "kg") if "cap" in exception else None,
        )
    Restriction.objects.filter(pk=restriction.pk).update(set_at=at(on_date, 12))
    RestrictionException.objects.filter(restriction=restriction).update(added_at=at(on_date, 12))
