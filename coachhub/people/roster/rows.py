"""What one row of a roster says, and what is wrong with its cells."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from typing import Any, Final

from django.core.exceptions import ValidationError
from django.db.models import Model, TextChoices
from django.utils.translation import gettext as _

from coachhub.base.clock import today
from coachhub.base.columns import UNIT_WORDS, CellError, Problems, RowReader, read_choice, read_whole, shown
from coachhub.base.models import MassUnit
from coachhub.people.models import Athlete, DominantSide, Guardian, Guardianship, Level, is_birthday_plausible
from coachhub.people.roster.columns import COLUMNS, FIELDS, GUARDIANS
from coachhub.people.roster.known import Known

CHOICES: Final[dict[str, tuple[type[TextChoices], dict[str, str]]]] = {
    "unit": (MassUnit, UNIT_WORDS),
    "level": (Level, {}),
    "dominant_side": (DominantSide, {"l": "left", "r": "right"}),
}
_REQUIRED: Final = ("given_name", "family_name", "born_on")


@dataclass(frozen=True, slots=True)
class GuardianCells:
    name: str
    phone: str
    email: str
    relation: str


@dataclass(frozen=True, slots=True)
class PersonCells:
    """`values`: the athlete's own fields, only those that say something."""

    number: int
    pk: int | None
    values: dict[str, Any]
    squads: tuple[int, ...]
    guardians: tuple[GuardianCells, ...]
    errors: tuple[str, ...]

    @property
    def name(self) -> str:
        return f"{self.values.get('given_name', '')} {self.values.get('family_name', '')}".strip()


def read_person(reader: RowReader, known: Known) -> PersonCells:
    problems = Problems(reader, COLUMNS)
    values = {key: problems.reading(key, partial(_value, reader, key), "") for key in FIELDS}
    guardians = [_guardian(reader, begin, problems) for begin in GUARDIANS]
    return PersonCells(
        number=reader.row.number,
        pk=problems.reading("id", partial(read_id, reader), None),
        values={key: value for key, value in values.items() if value},
        squads=problems.reading("squad", partial(_squads, reader, known), ()),
        guardians=tuple(guardian for guardian in guardians if guardian),
        errors=tuple(problems.words),
    )


def read_id(reader: RowReader) -> int | None:
    text = reader.text("id")
    return read_whole(text) if text else None


def _value(reader: RowReader, key: str) -> Any:
    text = reader.text(key)
    if not text:
        if key in _REQUIRED:
            raise CellError(_("is missing"))
        return ""
    if key == "born_on":
        return _birthday(reader)
    if key in CHOICES:
        return read_choice(text, *CHOICES[key])
    return checked(Athlete, key, text)


def _birthday(reader: RowReader) -> Any:
    born_on = reader.day("born_on")
    if born_on is not None and not is_birthday_plausible(born_on, today()):
        raise CellError(_("please check the year"))
    return born_on


def checked(model: type[Model], name: str, text: str) -> str:
    """The text, if the model's own field takes it."""
    field: Any = model._meta.get_field(name)  # noqa: SLF001  # Django's public name for it
    if field.max_length and len(text) > field.max_length:
        raise CellError(_("longer than %(most)s letters") % {"most": field.max_length})
    try:
        return str(field.clean(text, None))
    except ValidationError as error:
        raise CellError(" ".join(error.messages)) from None


def _squads(reader: RowReader, known: Known) -> tuple[int, ...]:
    """A squad by its name, or several with semicolons between; where none is named, the one chosen for such rows."""
    text = reader.text("squad")
    if not text:
        chosen = reader.reading.squad
        return (chosen,) if chosen in known.squads else ()
    return tuple(_named_squads(text.split(";"), known))


def _named_squads(pieces: list[str], known: Known) -> Iterator[int]:
    """A squad's own name may hold a semicolon: the longest run of pieces that is a name counts."""
    while pieces:
        runs = ((known.squad_called(";".join(pieces[:end])), end) for end in range(len(pieces), 0, -1))
        squad, end = next(((squad, end) for squad, end in runs if squad is not None), (None, 1))
        if squad is not None:
            yield squad
        elif pieces[0].strip():
            raise CellError(_("no squad of yours is called “%(name)s”") % {"name": shown(pieces[0].strip())})
        pieces = pieces[end:]


def _guardian(reader: RowReader, begin: str, problems: Problems) -> GuardianCells | None:
    def read(part: str, model: type[Model]) -> str:
        key = f"{begin}_{part}"
        text = problems.reading(key, partial(reader.text, key), "")
        return problems.reading(key, partial(checked, model, part, text), "") if text else ""

    name, phone, email = (read(part, Guardian) for part in ("name", "phone", "email"))
    relation = read("relation", Guardianship)
    if not name and (phone or email or relation):
        problems.reading(f"{begin}_name", _missing, "")
    return GuardianCells(name, phone, email, relation) if name else None


def _missing() -> str:
    raise CellError(_("is missing"))
