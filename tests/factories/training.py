"""What is trained: exercises, places, plans, cards."""

from __future__ import annotations

import uuid
from collections.abc import Iterable
from decimal import Decimal
from typing import Any

from factory.declarations import LazyFunction, SelfAttribute, Sequence, SubFactory
from factory.django import DjangoModelFactory
from factory.helpers import post_generation

from coachhub.base.clock import now, today
from coachhub.cards.models import Assignment, Card, CardLine, CardRevision, KnownBest, SetEntry
from coachhub.library.models import (
    EquipmentNeed,
    Exercise,
    ExercisePattern,
    ExerciseRegion,
    StockBar,
    StockItem,
    StockPlate,
    StockWeight,
    Venue,
)
from coachhub.plans.models import (
    CircuitGroup,
    OwnItem,
    OwnSet,
    OwnSetItem,
    Plan,
    Prescription,
    Segment,
    Session,
)
from tests.factories.people import AthleteFactory, SquadFactory, StaffFactory, days_ago


class ExerciseFactory(DjangoModelFactory[Exercise]):
    """`ExerciseFactory.create(patterns=["hinge"], regions=["thigh_back", "low_back"], needs=[["barbell"], ["rack"]])`

    A region is loaded on both sides; `("knee", "working")` says otherwise. Each of `needs` is an any-of group.
    """

    class Meta:
        model = Exercise
        skip_postgeneration_save = True

    name = Sequence("Exercise {}".format)
    segment = "strength"
    laterality = "bilateral"
    measure = "reps"
    load_meaning = "bar_total"
    is_regions_reviewed = True

    @post_generation
    def patterns(self: Any, create: bool, extracted: Iterable[str] | None, **_: Any) -> None:
        ExercisePattern.objects.bulk_create(
            [ExercisePattern(exercise=self, pattern=p, position=i) for i, p in enumerate(extracted or ())]
        )

    @post_generation
    def regions(self: Any, create: bool, extracted: Iterable[str | tuple[str, str]] | None, **_: Any) -> None:
        pairs = [(r, "both") if isinstance(r, str) else r for r in extracted or ()]
        ExerciseRegion.objects.bulk_create([ExerciseRegion(exercise=self, region=r, side_sense=s) for r, s in pairs])

    @post_generation
    def needs(self: Any, create: bool, extracted: Iterable[Iterable[str]] | None, **_: Any) -> None:
        EquipmentNeed.objects.bulk_create(
            [EquipmentNeed(exercise=self, group=i, kind=k) for i, any_of in enumerate(extracted or ()) for k in any_of]
        )


class VenueFactory(DjangoModelFactory[Venue]):
    """`VenueFactory.create(stock=True)`: a 20 kg bar, pairs from 25 to 1.25 kg, dumbbells 4-32 kg, 3 racks, a bench."""

    class Meta:
        model = Venue
        skip_postgeneration_save = True

    name = Sequence("Venue {}".format)

    @post_generation
    def stock(self: Any, create: bool, extracted: bool | None, **_: Any) -> None:
        if not extracted:
            return
        StockBar.objects.bulk_create([StockBar(venue=self, mass_value=20, count=3)])
        plates = {"25": 4, "20": 4, "15": 2, "10": 4, "5": 4, "2.5": 4, "1.25": 3}
        StockPlate.objects.bulk_create([StockPlate(venue=self, mass_value=m, pairs=p) for m, p in plates.items()])
        StockWeight.objects.bulk_create([StockWeight(venue=self, mass_value=m) for m in range(4, 33, 2)])
        items = {"rack": 3, "safety_arms": 3, "bench": 2, "box": 2, "pull_up_bar": 1, "mat": 10}
        StockItem.objects.bulk_create([StockItem(venue=self, kind=k, count=c) for k, c in items.items()])


class PlanFactory(DjangoModelFactory[Plan]):
    class Meta:
        model = Plan

    name = Sequence("Plan {}".format)


class SessionFactory(DjangoModelFactory[Session]):
    class Meta:
        model = Session

    plan = SubFactory(PlanFactory)
    name = Sequence("Session {}".format)


class SegmentFactory(DjangoModelFactory[Segment]):
    class Meta:
        model = Segment

    session = SubFactory(SessionFactory)
    kind = "strength"
    position = 0


class CircuitGroupFactory(DjangoModelFactory[CircuitGroup]):
    class Meta:
        model = CircuitGroup

    segment = SubFactory(SegmentFactory)
    position = Sequence(lambda n: n)
    rounds_min = 3
    rounds_max = SelfAttribute("rounds_min")


class PrescriptionFactory(DjangoModelFactory[Prescription]):
    class Meta:
        model = Prescription

    group = SubFactory(CircuitGroupFactory)
    exercise = SubFactory(ExerciseFactory)
    position = Sequence(lambda n: n)
    low = Decimal(6)


class OwnSetFactory(DjangoModelFactory[OwnSet]):
    class Meta:
        model = OwnSet

    name = Sequence("Set {}".format)


class OwnSetItemFactory(DjangoModelFactory[OwnSetItem]):
    class Meta:
        model = OwnSetItem

    own_set = SubFactory(OwnSetFactory)
    exercise = SubFactory(ExerciseFactory, segment="activation", load_meaning="none")
    low = Decimal(10)
    position = Sequence(lambda n: n)


class OwnItemFactory(DjangoModelFactory[OwnItem]):
    """`OwnItemFactory.create(athlete=athlete)`, or `OwnItemFactory.create(athlete=None, squad=squad)`."""

    class Meta:
        model = OwnItem

    athlete = SubFactory(AthleteFactory)
    exercise = SubFactory(ExerciseFactory, segment="activation", load_meaning="none")
    low = Decimal(10)
    position = Sequence(lambda n: n)
    from_on = LazyFunction(lambda: days_ago(10))
    added_by = SelfAttribute("staff.user")
    added_at = LazyFunction(now)

    class Params:
        staff = SubFactory(StaffFactory)


class AssignmentFactory(DjangoModelFactory[Assignment]):
    class Meta:
        model = Assignment

    session = SubFactory(SessionFactory)
    squad = SubFactory(SquadFactory)
    venue = SubFactory(VenueFactory)
    on_date = LazyFunction(today)
    created_at = LazyFunction(now)


class CardFactory(DjangoModelFactory[Card]):
    class Meta:
        model = Card

    assignment = SubFactory(AssignmentFactory)
    athlete = SubFactory(AthleteFactory)
    session_revision = 1
    digest = "0" * 64
    created_at = LazyFunction(now)


class CardRevisionFactory(DjangoModelFactory[CardRevision]):
    class Meta:
        model = CardRevision

    card = SubFactory(CardFactory)
    number = 1
    layout = LazyFunction(list)
    made_at = LazyFunction(now)


class CardLineFactory(DjangoModelFactory[CardLine]):
    class Meta:
        model = CardLine

    revision = SubFactory(CardRevisionFactory)
    exercise = SubFactory(ExerciseFactory)
    written_exercise = SelfAttribute("exercise")
    line_key = Sequence("p{}".format)
    group_key = "g1"
    segment = "strength"
    position = Sequence(lambda n: n)
    label = "A1"
    name = SelfAttribute("exercise.name")
    measure = SelfAttribute("exercise.measure")
    load_meaning = SelfAttribute("exercise.load_meaning")
    laterality = SelfAttribute("exercise.laterality")
    spotting = "none"
    sets = 3
    dose_kind = "reps"
    low = Decimal(6)
    load_rule = "none"


class SetEntryFactory(DjangoModelFactory[SetEntry]):
    """`SetEntryFactory.create(line=line, reps=6)`; card, athlete, exercise, venue and day follow from the line."""

    class Meta:
        model = SetEntry

    uuid = LazyFunction(uuid.uuid4)
    seq = Sequence(lambda n: n + 1)
    line = SubFactory(CardLineFactory)
    card = SelfAttribute("line.revision.card")
    line_key = SelfAttribute("line.line_key")
    athlete = SelfAttribute("card.athlete")
    exercise = SelfAttribute("line.exercise")
    venue = SelfAttribute("card.assignment.venue")
    on_date = SelfAttribute("card.assignment.on_date")
    round = 1
    reps = 6
    client_at = LazyFunction(now)
    received_at = LazyFunction(now)


class KnownBestFactory(DjangoModelFactory[KnownBest]):
    class Meta:
        model = KnownBest

    athlete = SubFactory(AthleteFactory)
    exercise = SubFactory(ExerciseFactory)
    load_value = Decimal(80)
    load_unit = "kg"
    on_date = LazyFunction(today)
