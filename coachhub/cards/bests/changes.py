"""What an import of known bests would do, row by row. Nothing is written here."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from typing import Any, cast

from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.base.changes import Change, Outcome
from coachhub.base.clock import today
from coachhub.base.columns import Reading, RowReader
from coachhub.base.tables import Table
from coachhub.cards.bests.known import Known, SlotKey, load_known
from coachhub.cards.bests.rows import BestCells, read_best
from coachhub.cards.models import BestSource, KnownBest
from coachhub.cards.words import mass_text
from coachhub.coaching.facts import Mass
from coachhub.coaching.slips import is_far_above
from coachhub.library.models import LoadMeaning


@dataclass(frozen=True, slots=True)
class BestWish:
    """How the best shall read after; `pk` None: a new one."""

    pk: int | None
    athlete_id: int
    exercise_id: int
    load_value: Decimal
    load_unit: str
    reps: int
    rir_half: int
    on_date: date
    source: str


BestOutcome = Outcome[BestWish]


@dataclass
class Review:
    """Goes through the rows in order, and remembers which bests it has met."""

    known: Known
    met: dict[int | SlotKey, int] = field(default_factory=dict)
    heaviest: dict[tuple[int, int], Decimal] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for best in self.known.best_by_pk.values():
            self._believe(best)

    def outcome(self, reader: RowReader) -> BestOutcome:
        row = read_best(reader, self.known)
        if row.cells is None:
            return BestOutcome(row.number, row.name, None, errors=row.errors)
        best, error = self.find(row.cells)
        error = error or self.twice(row.cells, best, row.number)
        if error:
            return BestOutcome(row.number, row.name, None, errors=(error,))
        wish = wish_of(row.cells, best)
        changes = tuple(changes_of(wish, best))
        doubt = self.doubt(row.cells, wish) if changes else ""
        return BestOutcome(row.number, row.name, wish, changes, is_new=best is None, doubt=doubt)

    def doubt(self, cells: BestCells, wish: BestWish) -> str:
        """Ask about a slipped digit: loads are worked out from what is noted here. Rows above it count as known."""
        load = mass_of(wish)
        known_kg = self.heaviest.get((wish.athlete_id, wish.exercise_id))
        is_far = is_far_above(load.kg, known_kg, is_new=cells.athlete.is_minor_on(today()))
        if is_far and cells.exercise.load_meaning != LoadMeaning.ASSISTANCE:
            return _("%(load)s is far above all that is known") % {"load": mass_text(load)}
        self._believe(wish)
        return ""

    def _believe(self, best: BestWish | KnownBest) -> None:
        key, kg = (best.athlete_id, best.exercise_id), mass_of(best).kg
        self.heaviest[key] = max(kg, self.heaviest.get(key, kg))

    def find(self, cells: BestCells) -> tuple[KnownBest | None, str]:
        """The best that a row corrects: by id, or by athlete, exercise, day and reps."""
        if cells.pk is not None:
            best = self.known.best_by_pk.get(cells.pk)
            belongs = best and best.athlete_id == cells.athlete.pk
            return (best, "") if belongs else (None, _("no best of this athlete has this id"))
        found = self.known.bests.get(slot_of(cells), [])
        same = [best for best in found if not list(changes_of(wish_of(cells, best), best))]
        if len(found) > 1 and not same:
            return None, _("several bests of that day have these reps; say which by the id from an export")
        return next(iter(same or found), None), ""

    def twice(self, cells: BestCells, best: KnownBest | None, number: int) -> str:
        first = self.met.setdefault(best.pk if best else slot_of(cells), number)
        if first == number:
            return ""
        return _("the same athlete, exercise, day and reps as row %(number)s") % {"number": first}


def review_bests(actor: Actor, table: Table, reading: Reading) -> list[BestOutcome]:
    review = Review(load_known(actor))
    return [review.outcome(RowReader(row, reading)) for row in table.rows]


def slot_of(cells: BestCells) -> SlotKey:
    return cells.athlete.pk, cells.exercise.pk, cells.on_date, cells.reps or 1


def wish_of(cells: BestCells, best: KnownBest | None) -> BestWish:
    """What the row leaves open stays as it is; of a new best, one repetition with none in reserve proves the least."""
    value, unit = cells.load
    return BestWish(
        pk=best.pk if best else None,
        athlete_id=cells.athlete.pk,
        exercise_id=cells.exercise.pk,
        load_value=value,
        load_unit=unit,
        reps=cells.reps or (best.reps if best else 1),
        rir_half=cells.rir_half if cells.rir_half is not None else (best.rir_half if best else 0),
        on_date=cells.on_date,
        source=cells.source or (best.source if best else BestSource.TEST),
    )


def changes_of(wish: BestWish, best: KnownBest | None) -> list[Change]:
    after = described(wish)
    before = described(best) if best else {}
    exercise = [Change(_("exercise"), str(best.exercise), "")] if best and best.exercise_id != wish.exercise_id else []
    changed = [Change(label, before.get(label, ""), text) for label, text in after.items() if before.get(label) != text]
    return [*exercise, *changed]


def described(best: BestWish | KnownBest) -> dict[str, str]:
    return {
        _("set"): f"{plain_number(best.load_value)} {best.load_unit} × {best.reps}",
        _("reps in reserve"): f"{best.rir_half / 2:g}",
        _("date"): best.on_date.isoformat(),
        _("source"): str(BestSource(best.source).label),
    }


def mass_of(best: BestWish | KnownBest) -> Mass:
    return Mass(best.load_value, cast(Any, best.load_unit))


def plain_number(value: Decimal) -> str:
    """Without a tail of zeros: 82.50 reads 82.5."""
    return f"{value.normalize():f}"
