"""Usable by everyone: every page of the demo club, as its people meet it, looked over by axe."""

from __future__ import annotations

import pytest

from tests.e2e.conftest import OpenContext
from tests.e2e.demo_cast import DemoCast
from tests.e2e.visiting import POST_ONLY, TABLE, Shape, Visits, findings, pages


def test_addresses_left_out_refuse_to_be_opened() -> None:
    refusing = {name for name, row in TABLE.items() if "200" not in row.get and "405" in row.get}

    assert refusing == POST_ONLY


@pytest.mark.parametrize("shape", Shape, ids=lambda shape: shape.name.lower())
def test_pages_have_no_finding(shape: Shape, demo_club: DemoCast, server: str, open_context: OpenContext) -> None:
    visits = Visits(demo_club, server, open_context, shape)

    found = {name: found for name in pages() if (found := findings(visits.open(name)))}

    assert found == {}
