"""What a line does in one week: typed in notation, kept as what differs, read back as it was typed."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest
from django.core.exceptions import PermissionDenied

from coachhub.base.actor import Actor
from coachhub.coaching.notation import parse
from coachhub.plans import actions_lines, actions_weeks
from coachhub.plans.dose import columns_of, in_week
from coachhub.plans.models import Prescription, PrescriptionWeek, Session
from coachhub.plans.queries import load_session
from coachhub.plans.tree import Block, Line
from coachhub.plans.week_entry import COLUMNS, WeekError, read_week, week_text
from tests.cast import Cast
from tests.factories import PrescriptionFactory

pytestmark = pytest.mark.django_db

Written = Callable[..., tuple[Line, Block]]


@pytest.fixture
def coach(cast: Cast) -> Actor:
    return cast.actor_of("coach")


@pytest.fixture
def written(cast: Cast) -> Written:
    """The line with this dose, in a block of 4 rounds with another."""

    def write(dose: str, **more: Any) -> tuple[Line, Block]:
        line = cast.prescription
        Prescription.objects.filter(pk=line.pk).update(**columns_of(parse(dose)), **more)
        type(line.group).objects.filter(pk=line.group_id).update(rounds_min=4, rounds_max=4)
        PrescriptionFactory.create(group=line.group, position=5)
        block = load_session(cast.session.pk).blocks[0]
        return block.lines[0], block

    return write


def kept(values: dict[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in values.items() if value is not None}


def week(**values: Any) -> dict[str, Any]:
    return {**dict.fromkeys(COLUMNS), **values}


@pytest.mark.parametrize(
    ("line", "typed", "values"),
    [
        ("5 @ 75%", "4 x 5 @ 80%", {"percent": Decimal(80)}),
        ("5 @ 75%", "3 x 4", {"sets": 3, "low": 4}),
        ("5 @ 75%", "5 @ 75%", {}),
        ("5 @ 75%", "  ", {}),
        ("5 @ 75-80%", "5 @ 77.5%", {"percent": Decimal("77.5")}),
        ("5 @ 75%", "5 @ 80-82.5%", {"percent": Decimal(80), "percent_high": Decimal("82.5")}),
        ("6-8 @ 2 RIR", "5 @ 3 RIR", {"low": 5, "rir_half": 6}),
        ("6-8 @ 2 RIR t3010", "8-10", {"low": 8, "high": 10}),
        ("5 @ 60 kg", "5 @ 62.5-65 kg", {"load": Decimal("62.5"), "load_high": Decimal(65)}),
        ("8/side @ 2 x 12 kg", "6 @ 2 x 14 kg", {"low": 6, "load": Decimal(14)}),
        ("20 m", "3 x 30 m", {"sets": 3, "low": 30}),
        ('30 s @ "heavy" 10 kg max 24 kg', '30 s @ "heavy" 12 kg', {"load": Decimal(12)}),
        ("5 @ find 2 RIR", "5 @ find 1 RIR", {"rir_half": 2}),
        ("5 @ last", "3 x 5", {"sets": 3}),
    ],
)
def test_cell_keeps_what_differs_and_reads_back(
    written: Written, line: str, typed: str, values: dict[str, Any]
) -> None:
    row, block = written(line)

    found = read_week(typed, row, block)

    assert kept(found) == values
    text = week_text(PrescriptionWeek(**found), row)
    assert kept(read_week(text, row, block)) == values


@pytest.mark.parametrize(
    ("line", "typed", "message"),
    [
        ("5 @ 75%", "5 @ 60 kg", "A week changes sets, amount, load, % and reserve."),
        ("5 @ 75%", "5/side", "A week changes sets, amount, load, % and reserve."),
        ("5 t3010", "5 t2010", "A week changes sets, amount, load, % and reserve."),
        ("20 m", "20", "This line is counted in distance."),
        ("5 @ 2 x 12 kg", "5 @ 14 kg", "The load of this line is written as 5 @ 2 x 12 kg."),
        ("5", "5 x 5", "The block has 4 rounds: write up to that."),
        ("5", "2-3 x 5", "In a week, sets are one number."),
        ('5 @ "heavy" 10 kg max 24 kg', '5 @ "heavy" 30 kg', "This does not go with the line"),
        ("5", "5 @ 75 %%", ""),
    ],
)
def test_cell_that_a_week_cannot_hold_is_refused(written: Written, line: str, typed: str, message: str) -> None:
    row, block = written(line)

    with pytest.raises(WeekError) as error:
        read_week(typed, row, block)

    assert str(error.value).startswith(message)


def test_sets_of_a_line_with_fewer_than_the_rounds_can_rise_to_them(written: Written) -> None:
    row, block = written("5", sets=2)

    assert [kept(read_week(typed, row, block)) for typed in ("4 x 5", "2 x 5", "5")] == [{"sets": 4}, {}, {}]


def test_range_of_the_line_gives_way_to_one_figure(written: Written) -> None:
    row, _block = written("6-8 @ 75-80%")

    assert in_week(row.dose, PrescriptionWeek(low=6)) == parse("6 @ 75-80%")
    assert in_week(row.dose, PrescriptionWeek(percent=Decimal(70))) == parse("6-8 @ 70%")


def test_cells_are_written_emptied_and_counted_once(cast: Cast, coach: Actor, written: Written) -> None:
    row, _block = written("5 @ 75%")
    cells = {(row.row.pk, 1): week(low=4), (row.row.pk, 2): week(sets=3), (row.row.pk + 99, 1): week(low=1)}

    assert actions_weeks.set_weeks(actor=coach, session=cast.session, cells=cells)
    assert not actions_weeks.set_weeks(actor=coach, session=cast.session, cells=cells)
    assert Session.objects.get().revision == 2
    assert actions_weeks.set_weeks(actor=coach, session=cast.session, cells={(row.row.pk, 1): week()})

    assert list(PrescriptionWeek.objects.values_list("week", "sets", "low")) == [(2, 3, None)]


def test_weeks_are_changed_by_the_squads_coaches_only(cast: Cast, written: Written) -> None:
    row, _block = written("5")

    with pytest.raises(PermissionDenied):
        actions_weeks.set_weeks(
            actor=cast.actor_of("other coach"), session=cast.session, cells={(row.row.pk, 1): week(low=4)}
        )

    assert PrescriptionWeek.objects.count() == 0


@pytest.mark.parametrize(
    ("dose", "left"),
    [
        ("6 @ 75%", [(1, 3, Decimal(80)), (2, None, Decimal(70))]),
        ("5 @ 60 kg", [(1, 3, None)]),
        ("30 s", []),
    ],
)
def test_line_written_anew_drops_what_its_weeks_can_no_longer_say(
    coach: Actor, written: Written, dose: str, left: list[Any]
) -> None:
    row, _block = written("5 @ 75%")
    PrescriptionWeek.objects.create(prescription=row.row, week=1, sets=3, percent=80)
    PrescriptionWeek.objects.create(prescription=row.row, week=2, percent=70)

    actions_lines.edit_prescription(
        actor=coach,
        prescription=row.row,
        exercise=row.exercise,
        dose=parse(dose),
        ramp_up_sets=0,
        rest_after_s=0,
        cue="",
        directions=(),
        swaps=(),
        pair=None,
    )

    assert list(PrescriptionWeek.objects.values_list("week", "sets", "percent")) == left
