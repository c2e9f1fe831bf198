"""The desk's heavy pages against the bare view on the same server, in turns, as `serving` does with the gym's."""

from __future__ import annotations

from tests.bench.load import once
from tests.bench.rows import Row
from tests.bench.serving import in_turns, row, served

PAGES = {
    "door": ("floor page after a change at the door, 60 athletes", 0.008),
    "quick": ("cards typed in, a grid of 60 cards", 0.002),
    "table": ("session as a table, 60 athletes", 0.004),
    "curve": ("history of a lift, with its curves", 0.02),
    "preview": ("preview of a session, 60 cards worked out", 0.002),
    "roster": ("roster import preview, 5,000 rows", 0.001),
}
TURNS = 3


def measure() -> list[Row]:
    with served() as (host, calls):
        for name in PAGES:
            assert once(host, calls[name][0])[0] == 200, name
        rates = in_turns(host, calls, ("hello", *PAGES), TURNS)
    return [row(what, rates, name, "hello", bar) for name, (what, bar) in PAGES.items()]
