"""What an import of a roster would do: who is new, what changes, what stands against a row. Nothing is written here."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import Any

from django.db.models import TextChoices
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.base.changes import Change, Outcome
from coachhub.base.clock import today
from coachhub.base.columns import Reading, RowReader, shown
from coachhub.base.tables import Table
from coachhub.base.tables.table import tidy
from coachhub.people.models import Athlete
from coachhub.people.roster.columns import COLUMNS
from coachhub.people.roster.guardians import GuardianStep, guardian_steps
from coachhub.people.roster.known import Known, PersonKey, key_of, load_known, person_key
from coachhub.people.roster.rows import CHOICES, PersonCells, read_person

_LABELS = {column.key: column.label for column in COLUMNS}
_NAMES = ("given_name", "family_name")


@dataclass(frozen=True, slots=True)
class RosterWish:
    """`pk` None: somebody new. `values`: the fields to write. `squads`: to join today."""

    pk: int | None
    values: tuple[tuple[str, Any], ...]
    squads: tuple[int, ...]
    guardians: tuple[GuardianStep, ...]


RosterOutcome = Outcome[RosterWish]


@dataclass
class Review:
    """Goes through the rows in order, and remembers whom it has met."""

    known: Known
    met: dict[int | PersonKey, int] = field(default_factory=dict)

    def outcome(self, reader: RowReader) -> RosterOutcome:
        cells = read_person(reader, self.known)
        if cells.errors:
            return RosterOutcome(cells.number, cells.name, None, errors=cells.errors)
        athlete, error = self.find(cells)
        error = error or self.twice(cells, athlete) or self.homeless(cells, athlete)
        if error:
            return RosterOutcome(cells.number, cells.name, None, errors=(error,))
        return outcome_for(cells, athlete, self.known)

    def find(self, cells: PersonCells) -> tuple[Athlete | None, str]:
        """The athlete of this row, by id or by name and date of birth; none of either where somebody is new."""
        if cells.pk is not None:
            return self.by_id(cells, cells.pk)
        key = key_of_cells(cells)
        found = self.known.by_person.get(key, [])
        if len(found) > 1:
            return None, _("two athletes have this name and date of birth; say which by the id from an export")
        if not found and key in self.known.hidden:
            return None, _("is in the club already, in a squad you do not see; ask the owner to add them to yours")
        return (self.known.athletes[found[0]] if found else None), ""

    def by_id(self, cells: PersonCells, pk: int) -> tuple[Athlete | None, str]:
        """A file of another club holds ids as well: one that fits neither name nor birthday is somebody else's."""
        athlete = self.known.athletes.get(pk)
        if athlete is None:
            return None, _("no athlete of yours has this id; empty the cell if the athlete is new")
        name, born_on = key_of_cells(cells)
        known_name, known_born_on = key_of(athlete)
        if name != known_name and born_on != known_born_on:
            return None, _("this id belongs to %(name)s") % {"name": athlete}
        return athlete, ""

    def twice(self, cells: PersonCells, athlete: Athlete | None) -> str:
        first = self.met.setdefault(athlete.pk if athlete else key_of_cells(cells), cells.number)
        return _("the same athlete as row %(number)s") % {"number": first} if first != cells.number else ""

    def homeless(self, cells: PersonCells, athlete: Athlete | None) -> str:
        """Without a squad only the owner would find somebody new again."""
        is_lost = athlete is None and not cells.squads and self.known.needs_squad
        return _("squad: is missing") if is_lost else ""


def review_roster(actor: Actor, table: Table, reading: Reading) -> list[RosterOutcome]:
    review = Review(load_known(actor, today()))
    return [review.outcome(RowReader(row, reading)) for row in table.rows]


def key_of_cells(cells: PersonCells) -> PersonKey:
    values = cells.values
    return person_key(values["given_name"], values["family_name"], values["born_on"])


def outcome_for(cells: PersonCells, athlete: Athlete | None, known: Known) -> RosterOutcome:
    values = changed_values(cells, athlete)
    inside = known.members[athlete.pk] if athlete else frozenset()
    squads = tuple(dict.fromkeys(pk for pk in cells.squads if pk not in inside))
    steps, guardian_changes = guardian_steps(cells.guardians, athlete.pk if athlete else None, known)
    joins = [Change(_("squad"), "", _("joins %(squad)s") % {"squad": known.squads[pk]}) for pk in squads]
    changes = [value_change(key, value, athlete) for key, value in values if athlete or key not in _NAMES]
    wish = RosterWish(athlete.pk if athlete else None, values, squads, steps)
    changes = [*joins, *changes, *guardian_changes]
    name = athlete.name if athlete else cells.name
    return RosterOutcome(cells.number, name, wish, tuple(changes), is_new=athlete is None)


def changed_values(cells: PersonCells, athlete: Athlete | None) -> tuple[tuple[str, Any], ...]:
    """Who is found by name keeps the club's spelling of it; an empty cell changes nothing."""
    if athlete is None:
        return tuple(cells.values.items())
    return tuple(
        (key, value)
        for key, value in cells.values.items()
        if not is_same(getattr(athlete, key), value) and (cells.pk or key not in _NAMES)
    )


def is_same(stored: object, given: object) -> bool:
    return tidy(stored) == given if isinstance(stored, str) else stored == given


def value_change(key: str, value: object, athlete: Athlete | None) -> Change:
    before = cell_text(key, getattr(athlete, key)) if athlete else ""
    return Change(str(_LABELS[key]), shown(before), shown(cell_text(key, value)))


def cell_text(key: str, value: object) -> str:
    """As an export writes it and an import reads it."""
    if isinstance(value, date):
        return value.isoformat()
    if key == "unit" or not value or key not in CHOICES:
        return str(value)
    choices: type[TextChoices] = CHOICES[key][0]
    return str(choices(str(value)).label)
