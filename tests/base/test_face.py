"""The vendored face: every sign that pages and cards use is in it, and its digits line up."""

from pathlib import Path

import pytest
from django.conf import settings
from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

FACES = sorted((Path(settings.BASE_DIR) / "static/vendor/source-sans-3").glob("card-sans*"))
SIGNS = "×–—·½¼¾≤≥→←✓☐°−±…‘’“”„«»€£"
LETTERS = "ÀÁÂÃÄÅÆÇÉÈÊËÍÎÏÑÓÔÖØŒÚÛÜÝÞßàáâãäåæçéèêëíîïðñóôöøœúûüýþÿąćčďđęěğįıłńňőřśşšťůűųźżžșțĦħĿŀĲĳ"
WEIGHT_BYTES = 45_000


def test_faces_are_all_there() -> None:
    names = ["card-sans-bold.ttf", "card-sans-italic.ttf", "card-sans-regular.ttf", "card-sans-semibold.ttf"]
    assert [face.name for face in FACES] == [*names, "card-sans.woff2"]


@pytest.mark.parametrize("face", FACES, ids=lambda face: face.name)
def test_face_has_every_sign_and_letter(face: Path) -> None:
    glyphs = TTFont(face).getBestCmap()
    assert [c for c in SIGNS + LETTERS if ord(c) not in glyphs] == []


@pytest.mark.parametrize("face", FACES, ids=lambda face: face.name)
def test_face_has_digits_of_one_width(face: Path) -> None:
    font = TTFont(face)
    glyphs = font.getBestCmap()
    assert len({font["hmtx"][glyphs[ord(digit)]][0] for digit in "0123456789"}) == 1


def test_screen_face_is_light() -> None:
    assert (FACES[-1]).stat().st_size <= WEIGHT_BYTES
