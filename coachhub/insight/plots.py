"""Draws a curve as an SVG that stands in a page and on paper alike: attributes only, so no policy on styles refuses it.

Colours here are those of paper; on a screen `css/insight.css` puts the page's own over them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from typing import TYPE_CHECKING, Any, Final
from xml.etree.ElementTree import Element, tostring

from django.utils.formats import date_format
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _

from coachhub.cards.words import number

if TYPE_CHECKING:
    from leather import Chart

INK: Final = "#191917"
SOFT: Final = "#4b4840"
RULE: Final = "#cfc9ba"
ACCENT: Final = "#0b5d4a"
FACE: Final = "Card Sans, sans-serif"

Points = Sequence[tuple[date, Decimal]]


@dataclass(frozen=True, slots=True)
class Size:
    width: int
    height: int


PHONE: Final = Size(360, 240)
DESK: Final = Size(440, 260)
# A week free at both ends, so that a single day makes a plot too.
_MARGIN: Final = timedelta(days=4)
_FEWEST_DAYS_BETWEEN_TICKS: Final = 7


def draw(*, label: str, dots: Points, line: Points, size: Size) -> SafeString:
    """Return dots and a line through others of the same scale. `label` says the same in words.

    ValueError without a dot.
    """
    if not dots:
        raise ValueError("nothing to draw")
    chart = _chart()
    days = [on_date for on_date, _value in (*dots, *line)]
    chart.add_x_scale(min(days) - _MARGIN, max(days) + _MARGIN)
    chart.add_y_scale(*_span([value for _on_date, value in (*dots, *line)]))
    chart.add_x_axis(ticks=_ticks(min(days), max(days), size), tick_formatter=_day)
    chart.add_y_axis(tick_formatter=_figure)
    if len(line) > 1:
        chart.add_line(list(line), name=_("best of the day"), stroke_color=SOFT, width=1.5)
    chart.add_dots(list(dots), name=_("each set"), fill_color=ACCENT, radius=3.5)
    return _svg(chart.to_svg_group(size.width, size.height), label, size)


def _chart() -> Chart:
    """An empty chart; the library is loaded when the first curve is asked for."""
    import leather
    from leather import theme

    theme.background_color = "none"
    theme.margin = 0.03
    theme.tick_color, theme.zero_color, theme.label_color = RULE, SOFT, SOFT
    theme.tick_font_family = FACE
    theme.legend_color, theme.legend_font_family = INK, FACE
    return leather.Chart()


def _span(values: Sequence[Decimal]) -> tuple[Decimal, Decimal]:
    """A little more than the values take up, never below nothing."""
    low, high = min(values), max(values)
    room = max((high - low) / 10, high / 20, Decimal(1))
    return max(low - room, Decimal(0)), high + room


def _ticks(first: date, last: date, size: Size) -> list[date]:
    """Return days at even distances, whole weeks apart, as many as have room."""
    most = size.width // 80
    days = (last - first).days
    step = -(-max(days, 1) // (most - 1))
    step = max(-(-step // _FEWEST_DAYS_BETWEEN_TICKS) * _FEWEST_DAYS_BETWEEN_TICKS, _FEWEST_DAYS_BETWEEN_TICKS)
    return [first + timedelta(days=at) for at in range(0, days + 1, step)]


def _day(value: Any, _index: int, _count: int) -> str:
    return date_format(value, "j M")


def _figure(value: Any, _index: int, _count: int) -> str:
    return number(Decimal(value))


def _svg(group: Element, label: str, size: Size) -> SafeString:
    attributes = {"viewBox": f"0 0 {size.width} {size.height}", "role": "img", "aria-label": label, "class": "plot"}
    root = Element("svg", attributes | {"xmlns": "http://www.w3.org/2000/svg"})
    root.append(group)
    for element in root.iter():
        for name, value in element.attrib.items():
            if name in _PLACES:
                element.set(name, " ".join(map(_rounded, value.split())))
    return SafeString(tostring(root, encoding="unicode"))


_PLACES: Final = frozenset({"x", "y", "x1", "x2", "y1", "y2", "cx", "cy", "d"})


def _rounded(part: str) -> str:
    """A tenth of a unit is finer than anybody sees."""
    return part if part.isalpha() else f"{float(part):.1f}"
