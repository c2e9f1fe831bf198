"""The tables of library and venues keep themselves honest: each constraint broken once."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from django.db import IntegrityError, models, transaction

from coachhub.base.clock import now
from coachhub.library.models import (
    EquipmentNeed,
    Exercise,
    ExerciseAlias,
    ExerciseCue,
    ExerciseFile,
    ExercisePattern,
    ExerciseRegion,
    StockBar,
    StockItem,
    StockPlate,
    StockScale,
    StockWeight,
    Swap,
    Venue,
)
from tests.factories import ExerciseFactory, VenueFactory

pytestmark = pytest.mark.django_db

Maker = Callable[[Exercise, Exercise, Venue], list[models.Model]]


def exercise(**fields: str) -> Maker:
    return lambda *_: [ExerciseFactory.build(**fields)]


def part(model: type[models.Model], **fields: object) -> Maker:
    return lambda one, *_: [model(exercise=one, **fields)]


def stock(model: type[models.Model], **fields: object) -> Maker:
    return lambda _one, _two, venue: [model(venue=venue, **fields)]


def twice(make: Maker) -> Maker:
    return lambda *rows: make(*rows) + make(*rows)


def swap(*, to_itself: bool = False, **fields: str) -> Maker:
    return lambda one, two, _: [Swap(exercise=one, to=one if to_itself else two, **fields)]


FILE: dict[str, object] = {
    "kind": "picture",
    "media_type": "image/png",
    "size": 1,
    "shows": "x",
    "added_at": now(),
}
BREAKS: dict[str, Maker] = {
    "exercise_segment": exercise(segment="x"),
    "exercise_laterality": exercise(laterality="x"),
    "exercise_measure": exercise(measure="x"),
    "exercise_load_meaning": exercise(load_meaning="x"),
    "exercise_spotting": exercise(spotting="x"),
    "exercise_family": exercise(family="squat"),
    "exercise_video_https": exercise(video_url="javascript:alert(1)"),
    "file_once": twice(part(ExerciseFile, **FILE)),
    "file_kind": part(ExerciseFile, **FILE | {"kind": "x"}),
    "file_media_type": part(ExerciseFile, **FILE | {"media_type": "image/gif"}),
    "alias_once": twice(part(ExerciseAlias, name="Row")),
    "pattern_once": twice(part(ExercisePattern, pattern="pull")),
    "exercise_pattern_code": part(ExercisePattern, pattern="x"),
    "cue_direction_code": part(ExerciseCue, direction="x", text="Tall"),
    "region_once": twice(part(ExerciseRegion, region="knee", side_sense="both")),
    "exercise_region_code": part(ExerciseRegion, region="x", side_sense="both"),
    "exercise_region_side": part(ExerciseRegion, region="knee", side_sense="x"),
    "need_once": twice(part(EquipmentNeed, group=0, kind="bench")),
    "need_kind_code": part(EquipmentNeed, group=0, kind="x"),
    "swap_once": twice(swap(reason="easier")),
    "swap_to_another": swap(reason="easier", to_itself=True),
    "swap_reason_code": swap(reason="x"),
    "swap_region_when_sparing": swap(reason="spares"),
    "venue_unit": lambda *_: [VenueFactory.build(unit="x")],
    "bar_once": twice(stock(StockBar, mass_value=20)),
    "bar_mass_positive": stock(StockBar, mass_value=0),
    "bar_kind": stock(StockBar, mass_value=20, kind="x"),
    "bar_unit": stock(StockBar, mass_value=20, mass_unit="x"),
    "plate_once": twice(stock(StockPlate, mass_value=20)),
    "plate_mass_positive": stock(StockPlate, mass_value=-20),
    "plate_unit": stock(StockPlate, mass_value=20, mass_unit="x"),
    "weight_once": twice(stock(StockWeight, mass_value=20)),
    "weight_mass_positive": stock(StockWeight, mass_value=0),
    "weight_kind": stock(StockWeight, mass_value=20, kind="x"),
    "weight_unit": stock(StockWeight, mass_value=20, mass_unit="x"),
    "venue_lane_unit": lambda *_: [VenueFactory.build(lane_unit="x")],
    "venue_lane_positive": lambda *_: [VenueFactory.build(lane_value=0)],
    "venue_capacity_positive": lambda *_: [VenueFactory.build(capacity=0)],
    "scale_kind": stock(StockScale, kind="x", name="Tower", unit="kg", settings=["5"]),
    "scale_unit": stock(StockScale, kind="cable", name="Tower", unit="x", settings=["5"]),
    "item_once": twice(stock(StockItem, kind="bench")),
    "item_height": stock(StockItem, kind="box", height_value=-1),
    "item_height_unit": stock(StockItem, kind="box", height_unit="x"),
    "item_kind": stock(StockItem, kind="x"),
    "Exercise.name": twice(exercise(name="Row")),
    "Exercise.origin_key": lambda *_: [ExerciseFactory.build(origin_key="row") for _n in range(2)],
    "Venue.name": lambda *_: [VenueFactory.build(name="Hall") for _n in range(2)],
}
MORE_BREAKS: dict[str, Maker] = {
    "a bar's collar below nothing": stock(StockBar, mass_value=20, collar_value=-1),
    "a region where nothing is spared": swap(reason="easier", region="knee"),
    "a count below nothing": stock(StockItem, kind="bench", count=-1),
}


def refusal(make: Maker) -> str:
    """What the database says of the last row; those before it are fine."""
    *kept, refused = make(ExerciseFactory.create(), ExerciseFactory.create(), VenueFactory.create())
    for row in kept:
        row.save()
    with pytest.raises(IntegrityError) as caught, transaction.atomic():
        refused.save()
    return str(caught.value)


@pytest.mark.parametrize("name", BREAKS)
def test_constraint_refuses(name: str) -> None:
    said = refusal(BREAKS[name])

    # SQLite names the columns of a unique constraint, not the constraint; a unique field has no name of its own.
    is_unique = name.endswith("_once") or "." in name
    assert name in said or (is_unique and "unique constraint" in said.lower())


@pytest.mark.parametrize("name", MORE_BREAKS)
def test_database_refuses(name: str) -> None:
    assert "constraint" in refusal(MORE_BREAKS[name])
