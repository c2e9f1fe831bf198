"""What a squad has done so far, held as the facts that its next cards are made from.

The pages read the same from the database for every session that is given (`cards.queries.athlete_facts`). For
seventy sessions in a row that is the same growing history read seventy times, so the story keeps it in hand; a test
compares the two.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Any, cast

from coachhub.cards.models import EntryKind, KnownBest, SetEntry
from coachhub.cards.queries.athlete_facts import best_of, facts_of, pains_of, restrictions_of
from coachhub.coaching.facts import AthleteFacts, BestFacts, DoneSet, Mass
from coachhub.people.models import Athlete

ByExercise = dict[int, BestFacts]


@dataclass(slots=True)
class Log:
    sets: defaultdict[int, defaultdict[int, list[DoneSet]]] = field(
        default_factory=lambda: defaultdict(lambda: defaultdict(list))
    )
    days: defaultdict[int, set[date]] = field(default_factory=lambda: defaultdict(set))
    bests: defaultdict[int, ByExercise] = field(default_factory=lambda: defaultdict(dict))
    starts: defaultdict[int, ByExercise] = field(default_factory=lambda: defaultdict(dict))

    def facts(self, athletes: Sequence[Athlete], wanted: Iterable[int], on_date: date) -> dict[int, AthleteFacts]:
        """Health comes from the database: it is written there as the story goes."""
        ids = [athlete.pk for athlete in athletes]
        restrictions, pains, exercises = restrictions_of(ids, on_date), pains_of(ids), sorted(wanted)
        return {
            athlete.pk: facts_of(
                athlete,
                on_date,
                logged_days=len(self.days[athlete.pk]),
                restrictions=tuple(restrictions[athlete.pk]),
                pains=tuple(pains[athlete.pk]),
                history={pk: tuple(rows) for pk in exercises if (rows := self.sets[athlete.pk].get(pk))},
                bests=_only(self.bests[athlete.pk], exercises),
                starts=_only(self.starts[athlete.pk], exercises),
            )
            for athlete in athletes
        }

    def add_sets(self, rows: Iterable[tuple[SetEntry, bool | None]]) -> None:
        """Entries as stored, in the order of their days, each with how it looked; those superseded count no more."""
        rows = list(rows)
        superseded = {entry.supersedes_uuid for entry, _ in rows}
        for entry, is_clean in rows:
            if entry.kind == EntryKind.DONE and entry.uuid not in superseded:
                self.days[entry.athlete_id].add(entry.on_date)
                self.sets[entry.athlete_id][entry.exercise_id].append(_done(entry, is_clean))

    def add_bests(self, rows: Iterable[KnownBest]) -> None:
        """The newest counts, so in the order of their days."""
        for row in rows:
            best = best_of(row)
            (self.starts if best.is_start else self.bests)[row.athlete_id][row.exercise_id] = best


def _only(rows: ByExercise, exercises: Sequence[int]) -> ByExercise:
    return {pk: rows[pk] for pk in exercises if pk in rows}


def _done(entry: SetEntry, is_clean: bool | None) -> DoneSet:
    load = None if entry.load_value is None else Mass(entry.load_value, cast(Any, entry.load_unit))
    return DoneSet(entry.pk, entry.on_date, entry.venue_id, entry.reps, load, entry.rir_half, is_clean)
