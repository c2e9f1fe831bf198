"""A curve is drawn with attributes only, says in words what it shows, and holds every figure."""

from __future__ import annotations

import re
from datetime import date, timedelta
from decimal import Decimal
from itertools import pairwise
from xml.etree.ElementTree import Element

import pytest
from defusedxml.ElementTree import fromstring

from coachhub.insight.curves import curves_of
from coachhub.insight.plots import DESK, PHONE, draw
from coachhub.insight.words import runs_text
from tests.insight.test_strands import DAY, done

SVG = "{http://www.w3.org/2000/svg}"
D = Decimal


def points(*values: str) -> list[tuple[date, Decimal]]:
    return [(DAY + timedelta(days=7 * at), D(value)) for at, value in enumerate(values)]


def drawn(*values: str) -> Element:
    dots = points(*values)
    found: Element = fromstring(draw(label="Front squat", dots=dots, line=dots, size=PHONE))
    return found


def test_each_set_is_a_dot_inside_the_plot() -> None:
    circles = list(drawn("60", "62.5", "60").iter(f"{SVG}circle"))
    assert len(circles) == 3
    assert all(0 <= float(c.attrib["cx"]) <= 360 and 0 <= float(c.attrib["cy"]) <= 240 for c in circles)


def test_heavier_stands_higher_and_later_further_right() -> None:
    first, second = drawn("60", "80").iter(f"{SVG}circle")
    assert float(first.attrib["cy"]) > float(second.attrib["cy"])
    assert float(first.attrib["cx"]) < float(second.attrib["cx"])


@pytest.mark.parametrize("values", [("60",), ("0", "0"), ("60", "60"), ("0.5", "600")])
def test_one_day_equal_sets_and_wide_spans_are_drawn(values: tuple[str, ...]) -> None:
    assert len(list(drawn(*values).iter(f"{SVG}circle"))) == len(values)


def test_a_policy_on_styles_and_scripts_has_nothing_to_refuse() -> None:
    text = draw(label="x", dots=points("60", "62.5"), line=points("60", "62.5"), size=DESK)
    assert re.findall(r"<style|\sstyle=|<script|\son\w+=|href", text) == []


def test_plot_is_an_image_with_a_name() -> None:
    text = draw(label='Press "strict" <b>', dots=points("60"), line=(), size=DESK)
    root = fromstring(text)
    assert (root.attrib["role"], root.attrib["aria-label"]) == ("img", 'Press "strict" <b>')


def test_days_along_the_foot_have_room() -> None:
    root = fromstring(draw(label="x", dots=points(*["60"] * 50), line=(), size=PHONE))
    (foot,) = [g for g in root.iter(f"{SVG}g") if g.get("class") == "axis bottom"]
    places = [float(text.attrib["x"]) for text in foot.iter(f"{SVG}text")]
    assert len(places) in (3, 4)
    assert min(b - a for a, b in pairwise(places)) > 60


def test_nothing_to_draw_is_refused() -> None:
    with pytest.raises(ValueError, match="nothing to draw"):
        draw(label="x", dots=(), line=(), size=DESK)


def test_table_beside_the_plot_has_the_sets_as_they_were_seen() -> None:
    sets = [done("60"), done("60"), done("62.5", reps=4), done("135", "lb", days=7)]
    (curve,) = curves_of(sets, "Front squat", "kg", DESK)
    assert [(row.on_date, row.sets, row.best, row.work) for row in curve.rows] == [
        (DAY + timedelta(days=7), "135 lb × 5", "135 lb × 5", "306 kg"),
        (DAY, "2 × 60 kg × 5, 62.5 kg × 4", "62.5 kg × 4", "850 kg"),
    ]


def test_titles_name_what_the_numbers_mean_and_where_they_count() -> None:
    sets = [
        done("7", "pl", meaning="machine"),
        done("60", days=1),
        done(days=2),
        done(reps=None, height_cm=D(41), days=3),
    ]
    found = [(c.title, c.sets_title, c.work_title) for c in curves_of(sets, "Row", "kg", DESK)]
    assert found == [
        ("Without a load", "Each set: centimetres", ""),
        ("Without a load", "Each set: repetitions", "All sets of the day: repetitions"),
        ("Total with the bar", "Each set, in kg", "Volume of the day: load × repetitions, in kg"),
        (
            "Machine setting at Mill Lane gym",
            "Each set, in number of the plate",
            "All sets of the day: repetitions",
        ),
    ]


def test_pair_of_dumbbells_is_written_as_one() -> None:
    (curve,) = curves_of([done("12", meaning="per_hand", reps=8)], "Press", "kg", PHONE)
    assert (curve.rows[0].best, curve.rows[0].work) == ("2 × 12 kg × 8", "192 kg")


@pytest.mark.parametrize(
    ("texts", "told"),
    [
        ([], ""),
        (["60 kg × 5"], "60 kg × 5"),
        (["60 kg × 5"] * 3 + ["62.5 kg × 4", "60 kg × 5"], "3 × 60 kg × 5, 62.5 kg × 4, 60 kg × 5"),
        (["2 × 8 kg × 6"] * 2, "2 × (2 × 8 kg × 6)"),
    ],
)
def test_equal_sets_in_a_row_are_told_together(texts: list[str], told: str) -> None:
    assert runs_text(texts) == told
