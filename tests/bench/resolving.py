"""Cards a second on one core, without a database: a full evening for a squad with a season behind it.

Seconds are those of the processor, and the best of several runs counts: what else the machine does is not ours.
"""

from __future__ import annotations

import time

from coachhub.coaching.resolve import resolve
from tests.bench import season_facts
from tests.bench.rows import Row

ATHLETES = 60
RUNS = 15


def measure() -> list[Row]:
    session, venue = season_facts.session(), season_facts.venue()
    squad = [season_facts.athlete(number) for number in range(ATHLETES)]

    def seconds() -> float:
        start = time.process_time()
        for _ in range(5):
            for athlete in squad:
                resolve(session, athlete, venue, season_facts.DAY)
        return time.process_time() - start

    best = min(seconds() for _ in range(RUNS))
    lines = sum(len(group.lines) for group in session.groups)
    sets = sum(map(len, squad[0].history.values()))
    against = f"one core; {lines} lines, {sets} sets of history an athlete"
    return [Row("cards resolved a second", 5 * ATHLETES / best, 1000, against)]
