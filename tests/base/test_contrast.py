"""Every pair of colours that meets on a page, in the light and the dark scheme and with each accent a club can pick.

Source: W3C, WCAG 2.2, definitions of relative luminance and contrast ratio; success criteria 1.4.3, 1.4.6, 1.4.11.
"""

import re
from pathlib import Path

import pytest
from django.conf import settings

AA = 4.5  # text, 1.4.3
FIGURES = 7.0  # figures read at arm's length, 1.4.6
SHAPES = 3.0  # borders of controls and shapes that carry meaning, 1.4.11

SURFACES = ("paper", "desk", "fill")
FIGURE_PAIRS = [(text, back) for text in ("ink", "soft") for back in SURFACES] + [
    ("paper", "ink"),
    ("on-accent", "accent"),
    ("ink", "care-fill"),
    ("ink", "stop-fill"),
    ("ink", "fine-fill"),
]
TEXT_PAIRS = [(text, back) for text in ("stop", "care", "fine", "accent") for back in SURFACES] + [
    ("on-stop", "stop"),
]
SHAPE_PAIRS = [("plate-edge", "paper"), ("stop", "stop-fill"), ("care", "care-fill"), ("fine", "fine-fill")]


def declared(css: str) -> dict[str, str]:
    return dict(re.findall(r"--([\w-]+):\s*(#[0-9a-fA-F]{6})", css))


def schemes() -> dict[str, dict[str, str]]:
    """Name -> colours, for light and dark with the default accent and with each of the others."""
    css = (Path(settings.BASE_DIR) / "static/css/tokens.css").read_text()
    light_css, dark_css = css.split("@media screen and (prefers-color-scheme:dark)")
    bare, accent = r":root\{(.*?)\}", r":root\[data-accent=\"(#\w+)\"\]\{(.*?)\}"
    light = declared(re.findall(bare, light_css, re.DOTALL)[0])
    dark = light | declared(re.findall(bare, dark_css, re.DOTALL)[0])
    found = {"light": light, "dark": dark}
    for scheme, base, text in (("light", light, light_css), ("dark", dark, dark_css)):
        for name, body in re.findall(accent, text):
            found[f"{scheme} {name}"] = base | declared(body)
    return found


def luminance(colour: str) -> float:
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def ratio(one: str, other: str) -> float:
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def too_low(colours: dict[str, str], pairs: list[tuple[str, str]], least: float) -> dict[tuple[str, str], float]:
    measured = {pair: round(ratio(colours[pair[0]], colours[pair[1]]), 2) for pair in pairs}
    return {pair: value for pair, value in measured.items() if value < least}


def test_ratio_of_black_and_white() -> None:
    assert ratio("#000000", "#ffffff") == pytest.approx(21)


def test_ratio_of_grey_on_white_just_passes() -> None:
    assert round(ratio("#767676", "#ffffff"), 2) == 4.54  # from memory: the lightest grey that passes AA on white


def test_schemes_have_five_accents_each() -> None:
    assert len(schemes()) == 10


def test_accent_named_by_the_club_is_the_colour_on_screen() -> None:
    named = {name.removeprefix("light "): c["accent"] for name, c in schemes().items() if name.startswith("light #")}
    assert list(named) == list(named.values())


@pytest.mark.parametrize("name", schemes())
def test_figures_have_seven_to_one(name: str) -> None:
    assert too_low(schemes()[name], FIGURE_PAIRS, FIGURES) == {}


@pytest.mark.parametrize("name", schemes())
def test_text_has_four_and_a_half_to_one(name: str) -> None:
    assert too_low(schemes()[name], TEXT_PAIRS, AA) == {}


@pytest.mark.parametrize("name", schemes())
def test_shapes_have_three_to_one(name: str) -> None:
    assert too_low(schemes()[name], SHAPE_PAIRS, SHAPES) == {}
