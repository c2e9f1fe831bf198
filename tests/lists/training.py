"""Plans, sessions, the library, venues."""

from __future__ import annotations

from collections.abc import Sequence
from urllib.parse import urlencode
from uuid import UUID

from django.db.models.functions import Now

from coachhub.base.clock import today
from coachhub.cards.models_run import AssignmentRun, RunStep
from coachhub.library.models import Exercise, StockScale, Swap, Venue
from coachhub.plans.models import Prescription, Session
from coachhub.season.models import Weekday
from tests.access.runs import run
from tests.cast import Cast
from tests.factories import ExerciseFactory, PlanFactory, SessionFactory, VenueFactory
from tests.lists import FEW, PAGED, Listing, put


def plans(cast: Cast, names: Sequence[str]) -> None:
    put(PlanFactory.build(name=name, squad=cast.squad) for name in names)


def sessions(cast: Cast, names: Sequence[str]) -> None:
    put(SessionFactory.build(plan=cast.plan, name=name) for name in names)


def exercises(_cast: Cast, names: Sequence[str]) -> list[Exercise]:
    return put(ExerciseFactory.build(name=name) for name in names)


def of_one_family(_cast: Cast, names: Sequence[str]) -> None:
    put(ExerciseFactory.build(name=name, family="hinge", family_rank=int(name[3:]) + 2) for name in names)


def lines(cast: Cast, names: Sequence[str]) -> None:
    group, begun = cast.prescription.group, Prescription.objects.count()
    put(
        Prescription(group=group, exercise=exercise, position=begun + number, low=5)
        for number, exercise in enumerate(exercises(cast, names))
    )


def swaps(cast: Cast, names: Sequence[str]) -> None:
    put(Swap(exercise=cast.exercise, to=other, reason="easier") for other in exercises(cast, names))


def venues(_cast: Cast, names: Sequence[str]) -> None:
    put(VenueFactory.build(name=name) for name in names)


def machines(cast: Cast, names: Sequence[str]) -> None:
    put(StockScale(venue=cast.venue, kind="cable", name=name, unit="kg", settings=["5", "10"]) for name in names)


def steps(cast: Cast, names: Sequence[str]) -> None:
    sessions(cast, names)
    run, rows = AssignmentRun.objects.get(), cast.plan.sessions.filter(name__in=names)
    put(RunStep(run=run, position=row.pk, session=row, week=1, on_date=today(), venue=cast.venue) for row in rows)


def on_sundays(cast: Cast) -> str:
    asked = {"show": 1, "squad": cast.squad.pk, "venue": cast.venue.pk, "starts_on": today().isoformat()}
    return urlencode(asked | {"day_1": Weekday.SUNDAY.value, "uuid": UUID(int=1)})


def no_line(cast: Cast) -> None:
    cast.prescription.delete()


def no_exercise(_cast: Cast) -> None:
    Exercise.objects.update(archived_at=Now())


def no_session(cast: Cast) -> None:
    Session.objects.filter(plan=cast.plan).update(archived_at=Now())


def no_venue(_cast: Cast) -> None:
    Venue.objects.update(archived_at=Now())


def plan(cast: Cast) -> dict[str, object]:
    return {"pk": cast.plan.pk}


def run_with_a_plan(cast: Cast) -> dict[str, object]:
    assert cast.plan.pk
    assert cast.venue.pk
    return run(cast)


def plan_with_lines(cast: Cast) -> dict[str, object]:
    return {"pk": cast.prescription.group.segment.session.plan_id}


def session(cast: Cast) -> dict[str, object]:
    return {"pk": cast.prescription.group.segment.session_id}


def exercise(cast: Cast) -> dict[str, object]:
    return {"pk": cast.exercise.pk}


def exercise_of_a_family(cast: Cast) -> dict[str, object]:
    Exercise.objects.filter(pk=cast.exercise.pk).update(family="hinge", family_rank=1)
    return exercise(cast)


def venue(cast: Cast) -> dict[str, object]:
    return {"pk": cast.venue.pk}


TABLE = {
    "desk:plans": Listing(plans, "Add the first plan", many=120, at_once=PAGED),
    "desk:plan": Listing(sessions, "Add a session", plan, clear=no_session),
    "desk:plan_give": Listing(
        sessions, "The plan has no session yet.", plan, clear=no_session, many=FEW, most_queries=11, asked=on_sundays
    ),
    "desk:plan_fit": Listing(
        sessions, "No session of this plan lies in these weeks", plan, clear=no_session, many=FEW, most_queries=17
    ),
    "desk:run": Listing(steps, "0 of 0 sessions given", run_with_a_plan, many=FEW),
    "desk:plan_print": Listing(lines, "No session is written yet.", plan_with_lines, clear=no_session),
    "desk:session": Listing(lines, "Add exercise", session, clear=no_line, most_queries=13),
    "desk:session_weeks": Listing(lines, "No exercise is written yet.", session, clear=no_line, many=60),
    "desk:library": Listing(exercises, "The library is empty.", clear=no_exercise, many=120, at_once=PAGED),
    "desk:exercise": Listing(swaps, "No swap is known for this exercise.", exercise, most_queries=12),
    "desk:exercise family": Listing(of_one_family, "Family", exercise_of_a_family, many=FEW, most_queries=14),
    "desk:exercise_matches": Listing(exercises, "", asked=lambda _cast: "q=row", at_once=10, of_all=10),
    "desk:venues": Listing(venues, "Add the first venue", clear=no_venue),
    "desk:venue": Listing(machines, "Mill Lane gym", venue, most_queries=11),
    "desk:venue_stock": Listing(machines, "Mill Lane gym", venue, many=FEW, most_queries=11),
}
