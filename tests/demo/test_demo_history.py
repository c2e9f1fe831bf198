from __future__ import annotations

from datetime import timedelta

from django.db.models import F, Min, Q

from coachhub.base.clock import now, today
from coachhub.cards.actions.flagging import health_facts
from coachhub.cards.models import Attendance, Card, CardLine, LineStatus, SetEntry, SetMark
from coachhub.cards.queries import load_sheets
from coachhub.cards.queries.session_facts import exercise_facts
from coachhub.coaching.obstacles import health_obstacles
from coachhub.coaching.rungs import ladder_for
from coachhub.library.models import Venue
from coachhub.library.queries import venue_stock
from coachhub.people.models import Athlete


def current_lines() -> list[CardLine]:
    """Every line that athletes are to do, on the revision that counts."""
    newest = Q(revision__number=F("revision__card__revision_number"), status=LineStatus.PLANNED)
    return list(CardLine.objects.filter(newest).select_related("revision__card__assignment"))


def test_every_load_is_one_that_the_venue_can_make(demo: list[str]) -> None:
    stock = venue_stock(Venue.objects.get())
    lines = [line for line in current_lines() if line.load_value is not None]
    facts = exercise_facts({line.exercise_id for line in lines})
    masses = {pk: {(r.mass.value, r.mass.unit) for r in ladder_for(e, stock) or ()} for pk, e in facts.items()}

    assert len(lines) > 500
    assert [line for line in lines if (line.load_value, line.load_unit) not in masses[line.exercise_id]] == []
    entries = SetEntry.objects.exclude(load_value=None)
    assert [e for e in entries if (e.load_value, e.load_unit) not in masses[e.exercise_id]] == []


def test_loads_suit_the_athletes(demo: list[str]) -> None:
    """Bounds for girls of 15 to 18 in their first seasons of lifting: the demo's own judgement."""
    most = {"Front squat": 65, "Hex-bar deadlift": 110, "Bench press": 55, "Farmer carry": 24}

    heavy = [line for line in current_lines() if line.load_value and line.load_value > most.get(line.name, 70)]

    assert heavy == []


def test_nobody_is_given_what_a_restriction_or_pain_forbids(demo: list[str]) -> None:
    lines = [line for line in current_lines() if line.revision.card.assignment.on_date == today()]
    facts = exercise_facts({line.exercise_id for line in lines})
    health = {athlete.pk: health_facts(athlete) for athlete in Athlete.objects.all()}

    against = [
        (line.name, line.revision.card.athlete_id)
        for line in lines
        if health_obstacles(facts[line.exercise_id], health[line.revision.card.athlete_id])
    ]

    assert against == []
    assert sum(len(facts.restrictions) for facts in health.values()) == 3


def test_knee_restriction_leaves_an_athlete_enough_to_train(demo: list[str]) -> None:
    card = Card.objects.filter(athlete__given_name="Oda", assignment__on_date=today())
    sheet = load_sheets(card)[0]

    planned = [line.name for group in sheet.blocks for line in group.lines]

    assert planned[:3] == ["Goblet box squat", "Fast hip hinge", "Chin-up"]
    assert len(planned) >= 7


def test_who_is_out_has_no_card(demo: list[str]) -> None:
    names = Card.objects.filter(assignment__on_date=today()).values_list("athlete__given_name", flat=True)

    assert set(Athlete.objects.values_list("given_name", flat=True)) - set(names) == {"Bora"}


def test_three_athletes_are_in_the_middle_of_todays_session(demo: list[str]) -> None:
    sheets = load_sheets(Card.objects.filter(assignment__on_date=today()))

    begun = {sheet.athlete_name.split()[0]: sheet.blocks[0].rounds_done for sheet in sheets if sheet.is_started}

    assert begun == {"Mira": 4, "Elin": 3, "Petrana": 2}


def test_strength_rises_over_the_weeks(demo: list[str]) -> None:
    """From the first to the last full week; the fourth is an easier one."""
    squats = SetEntry.objects.filter(exercise__name="Front squat", load_kg__isnull=False).order_by("on_date")
    first, last = (
        {pk: float(kg or 0) for pk, kg in squats.filter(card__assignment__week=week).values_list("athlete", "load_kg")}
        for week in (1, 3)
    )
    rises = [last[pk] / first[pk] - 1 for pk in first.keys() & last.keys()]

    assert len(rises) > 10
    assert 0.03 < sum(rises) / len(rises) < 0.15


def test_history_has_absences_corrections_and_marks_of_both_kinds(demo: list[str]) -> None:
    corrections = SetEntry.objects.exclude(supersedes_uuid=None)

    assert Attendance.objects.filter(status="absent").count() == 8
    assert corrections.count() == 4
    assert SetEntry.objects.filter(uuid__in=corrections.values("supersedes_uuid")).count() == 4
    assert SetMark.objects.filter(quality="shaky").count() > 30
    assert SetMark.objects.filter(quality="clean").count() > 500


def test_absent_athletes_wrote_nothing(demo: list[str]) -> None:
    absent = Attendance.objects.filter(status="absent").values("card")

    assert SetEntry.objects.filter(card__in=absent).count() == 0
    assert Card.objects.filter(pk__in=absent).exclude(started_at=None).count() == 0


def test_history_lies_in_the_past_in_its_own_order(demo: list[str]) -> None:
    late = SetEntry.objects.exclude(received_at=F("client_at") + timedelta(seconds=2))
    cards = Card.objects.exclude(started_at=None).annotate(first=Min("entries__received_at"))

    assert late.count() == 0
    assert SetEntry.objects.filter(received_at__gt=now()).count() == 0
    assert SetEntry.objects.exclude(received_at__date=F("on_date")).exclude(on_date=today()).count() == 0
    assert cards.exclude(started_at=F("first")).count() == 0
    assert cards.filter(started_at__lte=F("created_at")).count() == 0


def test_reserve_is_written_only_by_those_who_were_taught(demo: list[str]) -> None:
    untaught = SetEntry.objects.filter(athlete__is_rir_taught=False).exclude(rir_half=None)

    assert untaught.count() == 0
    assert SetEntry.objects.exclude(rir_half=None).count() > 200
