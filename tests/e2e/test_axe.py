"""Usable by everyone: every page of the demo club, as its people meet it, looked over by axe."""

from __future__ import annotations

import pytest

from tests.e2e.conftest import OpenContext
from tests.e2e.demo_cast import DemoCast
from tests.e2e.visiting import Shape, Visits, findings, pages


@pytest.mark.parametrize("shape", Shape, ids=lambda shape: shape.name.lower())
def test_pages_have_no_finding(shape: Shape, demo_club: DemoCast, server: str, open_context: OpenContext) -> None:
    visits = Visits(demo_club, server, open_context, shape)

    found = {name: found for name in pages() if (found := findings(visits.open(name)))}

    assert found == {}
