from __future__ import annotations

from collections import Counter

from django.db.models import Count, F, Min, Q

from coachhub.base.clock import now, today
from coachhub.cards.actions.flagging import health_facts
from coachhub.cards.models import (
    Assignment,
    Attendance,
    BarHeight,
    Card,
    CardLine,
    CardRevision,
    LineStatus,
    PairWish,
    SetEntry,
    SetMark,
)
from coachhub.cards.queries import load_sheets
from coachhub.cards.queries.session_facts import exercise_facts
from coachhub.coaching.obstacles import health_obstacles
from coachhub.insight.models import EffortLoad, SessionNote
from coachhub.people.models import Athlete


def lines_of_today() -> list[CardLine]:
    """Every line that athletes are to do today, on the revision that counts."""
    newest = Q(revision__number=F("revision__card__revision_number"), status=LineStatus.PLANNED)
    rows = CardLine.objects.filter(newest, revision__card__assignment__on_date=today())
    return list(rows.select_related("revision__card"))


def test_history_is_two_times_the_plan_and_today_begins_the_third(demo: list[str]) -> None:
    weeks = Assignment.objects.filter(on_date__lte=today()).order_by("on_date").values_list("squad__name", "week")
    by_squad: dict[str, list[int]] = {}
    for name, week in weeks:
        by_squad.setdefault(name, []).append(week)

    assert set(by_squad) == {"Seniors", "Under-18", "Under-15"}
    assert all(own == [1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6] * 2 + [1] for own in by_squad.values())


def test_every_squad_has_its_session_today_and_one_more_is_given(demo: list[str]) -> None:
    coming = Assignment.objects.filter(on_date__gt=today()).values_list("squad__name", "venue__name")

    assert Assignment.objects.filter(on_date=today()).count() == 3
    assert list(coming) == [("Seniors", "On the road")]


def test_one_evening_was_trained_on_the_road_without_weights(demo: list[str]) -> None:
    away = Card.objects.filter(assignment__venue__name="On the road", assignment__on_date__lt=today())
    sheets = load_sheets(away)

    assert Counter(sheet.squad_name for sheet in sheets) == {"Seniors": 18}
    assert [line.name for sheet in sheets for line in sheet.lines if line.load] == []
    assert min(len(sheet.lines) for sheet in sheets) >= 9


def test_nobody_is_given_what_a_restriction_or_pain_forbids(demo: list[str]) -> None:
    lines = lines_of_today()
    facts = exercise_facts({line.exercise_id for line in lines})
    health = {athlete.pk: health_facts(athlete) for athlete in Athlete.objects.all()}

    against = [
        (line.name, line.revision.card.athlete_id)
        for line in lines
        if health_obstacles(facts[line.exercise_id], health[line.revision.card.athlete_id])
    ]

    assert against == []
    assert sum(len(facts.restrictions) for facts in health.values()) == 8


def test_knee_restriction_leaves_an_athlete_enough_to_train(demo: list[str]) -> None:
    card = Card.objects.filter(athlete__given_name="Oda", assignment__on_date=today())
    sheet = load_sheets(card)[0]

    planned = [line.name for group in sheet.blocks for line in group.lines]

    assert planned[:3] == ["Goblet box squat", "Fast hip hinge", "Chin-up"]
    assert len(planned) >= 7


def test_who_is_out_has_no_card(demo: list[str]) -> None:
    names = Card.objects.filter(assignment__on_date=today()).values_list("athlete__given_name", flat=True)

    assert set(Athlete.objects.values_list("given_name", flat=True)) - set(names) == {"Bora"}


def test_some_athletes_are_in_the_middle_of_todays_session(demo: list[str]) -> None:
    sheets = load_sheets(Card.objects.filter(assignment__on_date=today()))

    begun = {
        sheet.athlete_name.split()[0]: [sum(one.is_begun for one in block.rounds) for block in sheet.blocks]
        for sheet in sheets
        if sheet.is_started
    }

    assert begun == {
        "Mira": [4, 1, 0],
        "Elin": [3, 0, 0],
        "Petrana": [2, 0, 0],
        "Solveig": [4, 3, 2],
        "Ximena": [4, 2, 0],
        "Zsófia": [2, 0, 0],
        "Tamsin": [1, 0, 0],
    }


def test_juniors_hold_printed_cards_one_of_them_out_of_date(demo: list[str]) -> None:
    printed = Card.objects.exclude(copies=None)
    old = printed.filter(copies__revision_number__lt=F("revision_number"))

    assert printed.count() == 14
    assert list(old.values_list("athlete__given_name", flat=True)) == ["Bettany"]


def test_strength_rises_from_one_run_of_the_plan_to_the_next(demo: list[str]) -> None:
    """The same weeks compared, so that easier ones do not count against it."""
    rises = []
    for name in ("Front squat", "Hex-bar deadlift", "Bench press", "Goblet squat", "Romanian deadlift"):
        rows = SetEntry.objects.filter(exercise__name=name, load_kg__isnull=False, card__assignment__week__in=(5, 6))
        loads: dict[int, list[float]] = {}
        for athlete, kg in rows.order_by("on_date").values_list("athlete", "load_kg"):
            loads.setdefault(athlete, []).append(float(kg or 0))
        rises += [own[-1] / own[0] - 1 for own in loads.values() if len(own) > 4]

    assert len(rises) > 60
    assert 0.04 < sum(rises) / len(rises) < 0.30


def test_history_has_absences_corrections_skips_and_marks_of_both_kinds(demo: list[str]) -> None:
    corrections = SetEntry.objects.exclude(supersedes_uuid=None)
    kinds = dict(SetEntry.objects.order_by().values_list("kind").annotate(Count("pk")))
    marks = dict(SetMark.objects.order_by().values_list("quality").annotate(Count("pk")))

    assert Attendance.objects.filter(status="absent").count() == 48
    assert corrections.count() == 7
    assert SetEntry.objects.filter(uuid__in=corrections.values("supersedes_uuid")).count() == 7
    assert set(kinds) == {"done", "skipped"}
    assert 100 < kinds["skipped"] < kinds["done"] / 50
    assert 300 < marks["shaky"] < marks["clean"] / 5


def test_absent_athletes_wrote_nothing(demo: list[str]) -> None:
    absent = Attendance.objects.filter(status="absent").values("card")

    assert SetEntry.objects.filter(card__in=absent).count() == 0
    assert Card.objects.filter(pk__in=absent).exclude(started_at=None).count() == 0


def test_history_lies_in_the_past_in_its_own_order(demo: list[str]) -> None:
    cards = Card.objects.exclude(started_at=None).annotate(first=Min("entries__received_at"))
    odd = [e for e in SetEntry.objects.all() if (e.received_at - e.client_at).total_seconds() != 2]

    assert odd == []
    assert SetEntry.objects.filter(received_at__gt=now()).count() == 0
    assert SetEntry.objects.exclude(received_at__date=F("on_date")).exclude(on_date=today()).count() == 0
    assert cards.exclude(started_at=F("first")).count() == 0
    assert cards.filter(started_at__lte=F("created_at")).count() == 0
    assert CardRevision.objects.filter(number=1).exclude(made_at=F("card__created_at")).count() == 0


def test_reserve_is_written_only_by_those_who_were_taught(demo: list[str]) -> None:
    untaught = SetEntry.objects.filter(athlete__is_rir_taught=False).exclude(rir_half=None)

    assert untaught.count() == 0
    assert SetEntry.objects.exclude(rir_half=None).values("rir_half").distinct().count() > 6


def test_whoever_finished_told_how_hard_it_was(demo: list[str]) -> None:
    trained = Card.objects.exclude(started_at=None).filter(assignment__on_date__lt=today())
    tonight = EffortLoad.objects.filter(card__assignment__on_date=today())

    assert trained.exclude(pk__in=EffortLoad.objects.values("card")).count() == 0
    assert list(tonight.values_list("card__athlete__given_name", flat=True)) == ["Solveig"]
    assert EffortLoad.objects.exclude(minutes__range=(35, 110)).count() == 0
    assert EffortLoad.objects.values("effort").distinct().count() >= 4


def test_notes_to_the_coach_are_read_but_for_the_last_ones(demo: list[str]) -> None:
    notes = SessionNote.objects.order_by("received_at")

    assert sorted(notes.filter(read_at=None).values_list("card__athlete__given_name", flat=True)) == [
        "Anaïs",
        "Mira",
        "Solveig",
    ]
    assert list(notes.exclude(read_at=None).values_list("card__athlete__given_name", flat=True)) == ["Dagny"]


def test_stations_can_be_shared_out(demo: list[str]) -> None:
    holes = Counter(BarHeight.objects.values_list("athlete__memberships__squad__name", flat=True))

    assert set(holes) == {"Seniors", "Under-18"}
    assert sorted(PairWish.objects.values_list("kind", flat=True)) == ["apart", "apart", "together"]
    assert Attendance.objects.filter(status="late", card__assignment__on_date=today()).count() == 1
    assert Attendance.objects.filter(status="late").count() == 4
