"""What is on today, who waits, cards of a session, health and history, and what an athlete reads on the phone."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import timedelta
from urllib.parse import urlencode

from coachhub.base.clock import now, today
from coachhub.cards.models import Assignment, Card, CardCopy, CardLine, SetEntry
from coachhub.people.models import Athlete
from coachhub.plans.models import Session
from tests.access.gym import a_card
from tests.cast import Cast, Role
from tests.factories import (
    AssignmentFactory,
    AvailabilityFactory,
    CardFactory,
    CardLineFactory,
    CardRevisionFactory,
    KnownBestFactory,
    PainReportFactory,
    RedFlagFactory,
    RestrictionFactory,
    ReturnStageFactory,
    SetEntryFactory,
    days_ago,
)
from tests.lists import FEW, Listing, put
from tests.lists.people import athletes, nobody_in_the_squad, of_athlete, of_squad
from tests.lists.training import exercises, sessions


def cards(cast: Cast, names: Sequence[str]) -> list[Card]:
    """With one line each, and a set on it."""
    made = put(CardFactory.build(assignment=cast.assignment, athlete=athlete) for athlete in athletes(cast, names))
    sets_on(lines_of(cast, made))
    return made


def lines_of(cast: Cast, made: Iterable[Card]) -> list[CardLine]:
    layout = cast.line.revision.layout
    revisions = put(CardRevisionFactory.build(card=card, layout=layout) for card in made)
    key = cast.prescription.line_key
    return put(
        CardLineFactory.build(revision=one, exercise=cast.exercise, line_key=key, position=0) for one in revisions
    )


def sets_on(made: Iterable[CardLine]) -> list[SetEntry]:
    return put(SetEntryFactory.build(line=line) for line in made)


def on_today(cast: Cast, names: Sequence[str]) -> list[Assignment]:
    sessions(cast, names)
    rows = cast.plan.sessions.filter(name__in=names)
    return put(AssignmentFactory.build(session=row, squad=cast.squad, venue=cast.venue) for row in rows)


def stale(cast: Cast, names: Sequence[str]) -> None:
    """Cards without a set, of an older revision of the session."""
    lines_of(cast, put(CardFactory.build(assignment=cast.assignment, athlete=a) for a in athletes(cast, names)))
    cast.session.revision = 2
    cast.session.save()


def questions(cast: Cast, names: Sequence[str]) -> None:
    made = athletes(cast, names)
    user = cast.staff[Role.COACH].user
    put(RedFlagFactory.build(athlete=athlete) for athlete in made)
    put(PainReportFactory.build(athlete=athlete) for athlete in made)
    put(RestrictionFactory.build(athlete=athlete, set_by=user, review_on=today()) for athlete in made)
    put(ReturnStageFactory.build(athlete=athlete, set_by=user) for athlete in made)
    held = put(CardFactory.build(assignment=cast.assignment, athlete=a, revision_number=2) for a in made)
    put(CardCopy(card=card, revision_number=1, kind="printed", made_at=now()) for card in held)


def not_free(cast: Cast, names: Sequence[str]) -> list[Athlete]:
    made, user = athletes(cast, names), cast.staff[Role.COACH].user
    put(AvailabilityFactory.build(athlete=athlete, set_by=user) for athlete in made)
    return made


def complaints(cast: Cast, names: Sequence[str]) -> None:
    """Everything that can stand about one athlete."""
    put(RedFlagFactory.build(athlete=cast.athlete, note=name) for name in names)
    put(PainReportFactory.build(athlete=cast.athlete) for _name in names)
    user = cast.staff[Role.COACH].user
    put(RestrictionFactory.build(athlete=cast.athlete, set_by=user) for _name in names)


def stages(cast: Cast, names: Sequence[str]) -> None:
    user = cast.staff[Role.COACH].user
    put(ReturnStageFactory.build(athlete=cast.athlete, set_by=user, on_word_of=name) for name in names)


def bests(cast: Cast, names: Sequence[str]) -> None:
    put(KnownBestFactory.build(athlete=cast.athlete, exercise=one) for one in exercises(cast, names))


def trained(cast: Cast, names: Sequence[str]) -> None:
    """A set of each exercise on the one card."""
    revision = cast.line.revision
    made = put(
        CardLineFactory.build(revision=revision, exercise=one, line_key=f"k{one.pk}", position=one.pk)
        for one in exercises(cast, names)
    )
    sets_on(made)


def days_of_one_exercise(cast: Cast, names: Sequence[str]) -> None:
    """A session a day, the first ones today."""
    done = SetEntry.objects.count()
    rows = {row.name: row for row in _sessions(cast, names)}
    given = put(
        AssignmentFactory.build(session=rows[name], squad=cast.squad, venue=cast.venue, on_date=days_ago(done + number))
        for number, name in enumerate(names)
    )
    made = put(CardFactory.build(assignment=one, athlete=cast.athlete) for one in given)
    sets_on(lines_of(cast, made))


def coming(cast: Cast, names: Sequence[str]) -> None:
    begun = Assignment.objects.count()
    rows = {row.name: row for row in _sessions(cast, names)}
    given = put(
        AssignmentFactory.build(
            session=rows[name], squad=cast.squad, venue=cast.venue, on_date=today() + timedelta(begun + number)
        )
        for number, name in enumerate(names)
    )
    put(CardFactory.build(assignment=one, athlete=cast.athlete) for one in given)


def _sessions(cast: Cast, names: Sequence[str]) -> Iterable[Session]:
    sessions(cast, names)
    return cast.plan.sessions.filter(name__in=names)


def card_lines(cast: Cast, names: Sequence[str]) -> None:
    revision = cast.line.revision
    put(
        CardLineFactory.build(revision=revision, exercise=one, line_key=f"k{one.pk}", position=one.pk)
        for one in exercises(cast, names)
    )


def no_card(cast: Cast) -> None:
    cast.line.delete()
    cast.card.revisions.all().delete()
    cast.card.delete()


def assignment(cast: Cast) -> dict[str, object]:
    a_card(cast)
    return {"pk": cast.assignment.pk}


def athlete_and_exercise(cast: Cast) -> dict[str, object]:
    return {**of_athlete(cast), "exercise_pk": cast.line.exercise_id}


def who_gets_what(cast: Cast) -> str:
    assert cast.prescription.pk
    return urlencode(
        {
            "session": cast.session.pk,
            "squad": cast.squad.pk,
            "venue": cast.venue.pk,
            "on_date": today().isoformat(),
            "week": 1,
        }
    )


def squad_with_a_card(cast: Cast) -> dict[str, object]:
    a_card(cast)
    return of_squad(cast)


def exercise(cast: Cast) -> dict[str, object]:
    return {"pk": cast.line.exercise_id}


NO_CARD = "Nobody you see holds a card of this session."

TABLE = {
    "desk:today": Listing(on_today, "What to do first", many=FEW, most_queries=11),
    "desk:waiting": Listing(questions, "Nothing waits.", role=Role.COACH, many=FEW, most_queries=13),
    "desk:assign": Listing(
        athletes,
        "Nobody is in Seniors on this day.",
        clear=nobody_in_the_squad,
        many=FEW,
        most_queries=44,
        asked=who_gets_what,
    ),
    "desk:assignment": Listing(cards, NO_CARD, assignment, clear=no_card, many=60),
    "desk:floor": Listing(cards, NO_CARD, assignment, clear=no_card, many=FEW),
    "desk:quick_entry": Listing(cards, NO_CARD, assignment, clear=no_card, many=201, at_once=199),
    "desk:day_table": Listing(cards, NO_CARD, assignment, clear=no_card, many=60),
    "desk:day_csv": Listing(cards, "", assignment, clear=no_card, many=60),
    "desk:squad_sets_csv": Listing(cards, "", squad_with_a_card, clear=no_card, many=60),
    "paper:assignment_pdf": Listing(cards, "Ingrid Moss", assignment, many=60, most_queries=15),
    "desk:partners": Listing(cards, "Nobody holds a card of this session.", assignment, clear=no_card, many=FEW),
    "desk:assignment_differences": Listing(
        stale,
        "Every card that is not begun is as the session is now.",
        assignment,
        clear=no_card,
        many=FEW,
        most_queries=43,
    ),
    "desk:athlete_health": Listing(complaints, "Ingrid Moss", of_athlete, many=FEW, most_queries=12),
    "desk:return_stage": Listing(stages, "Trains in full: no stage is set.", of_athlete, many=FEW),
    "desk:known_bests": Listing(bests, "Nothing is known yet.", of_athlete, many=60),
    "desk:history": Listing(trained, "Nothing is logged yet.", of_athlete, many=60),
    "desk:history_exercise": Listing(
        days_of_one_exercise,
        "No set of this exercise is logged.",
        athlete_and_exercise,
        many=31,
        at_once=10,
        most_queries=11,
    ),
    "desk:history_csv": Listing(trained, "", of_athlete),
    "desk:bests_csv": Listing(bests, ""),
    "gym:home": Listing(coming, "No card yet.", role=Role.ATHLETE, many=60, at_once=20, of_all=20),
    "gym:card": Listing(card_lines, "Monday lower", a_card, role=Role.ATHLETE),
    "gym:history": Listing(trained, "Nothing yet.", role=Role.ATHLETE, many=60),
    "gym:history_exercise": Listing(
        days_of_one_exercise,
        "No set of this exercise in the last twelve months.",
        exercise,
        role=Role.ATHLETE,
        many=FEW,
        sign=r'<th scope="row" class="nowrap">[^<]+',
    ),
}
