"""For the guardians of one child, in plain words: what is done, why, how to help, what to heed, whom to ask.

Nothing of other children, no load, no restriction, no diagnosis. Why children train with weights, and under which
conditions: the international position statement on youth resistance training (Lloyd et al. 2014, from memory).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Final

from django.utils.formats import date_format
from django.utils.functional import Promise
from django.utils.timezone import localtime
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from coachhub.base.models import Pattern, SegmentKind
from coachhub.cards.sheet import Sheet, SheetGroup, SheetLine
from coachhub.cards.words import number
from coachhub.people.models import Staff, StaffRole

# More would not fit a page beside what has to be on it.
MOST_REASONS: Final = 5
# So many exercises are told with their sets; of a longer session the names alone.
MOST_IN_FULL: Final = 22
_PARTS: Final = {
    SegmentKind.WARM_UP: gettext_lazy("To get warm"),
    SegmentKind.ACTIVATION: gettext_lazy("To wake up the muscles"),
    SegmentKind.ATHLETICISM: gettext_lazy("To move fast, while fresh"),
    SegmentKind.STRENGTH: gettext_lazy("To get stronger"),
    SegmentKind.CONDITIONING: gettext_lazy("To get out of breath"),
    SegmentKind.COOL_DOWN: gettext_lazy("To calm down"),
}
_REASONS: Final[tuple[tuple[frozenset[str], str | Promise], ...]] = (
    (
        frozenset({Pattern.JUMP, Pattern.LANDING}),
        gettext_lazy("Jumping, and above all landing softly: a good landing is kind to knees and ankles."),
    ),
    (
        frozenset({Pattern.SQUAT, Pattern.LUNGE, Pattern.KNEE_FLEXION}),
        gettext_lazy("Bending and stretching the legs: strong legs jump, stop and turn more safely."),
    ),
    (
        frozenset({Pattern.HINGE, Pattern.HIP}),
        gettext_lazy("Bending at the hips with a straight back: it is how to lift anything, also at home."),
    ),
    (
        frozenset({Pattern.PUSH, Pattern.PULL, Pattern.SHOULDER}),
        gettext_lazy("Pushing and pulling: shoulders that are strong on all sides can take throws and falls."),
    ),
    (
        frozenset({Pattern.TRUNK, Pattern.CARRY, Pattern.ROTATION}),
        gettext_lazy("Holding and carrying: a firm middle of the body helps in every other movement."),
    ),
    (
        frozenset({Pattern.SPRINT, Pattern.AGILITY, Pattern.LOCOMOTION}),
        gettext_lazy("Running and turning: fast movements are learnt best early and with few repeats."),
    ),
    (
        frozenset({Pattern.MOBILITY, Pattern.ANKLE, Pattern.RECOVERY}),
        gettext_lazy("Moving joints as far as they go: it makes the other exercises easier to do well."),
    ),
)


@dataclass(frozen=True, slots=True)
class PlainPart:
    title: str
    exercises: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class GuardianSheet:
    """`is_alone`: no coach stands beside the child, so an adult at home has to."""

    name: str
    given_name: str
    session: str
    date: str
    venue: str
    squad: str
    club: str
    as_of: str
    is_waiting: bool
    is_alone: bool
    parts: tuple[PlainPart, ...]
    reasons: tuple[str, ...]
    asked: tuple[str, ...]


def guardian_sheet(
    sheet: Sheet, *, given_name: str, patterns: frozenset[str], coaches: Sequence[Staff], club: str, as_of: datetime
) -> GuardianSheet:
    return GuardianSheet(
        name=sheet.athlete_name,
        given_name=given_name,
        session=sheet.session_name,
        date=date_format(sheet.on_date, "l j F Y"),
        venue=sheet.venue_name,
        squad=sheet.squad_name,
        club=club,
        as_of=date_format(localtime(as_of), "j M H:i"),
        is_waiting=sheet.is_waiting,
        is_alone=not sheet.is_supervised,
        parts=tuple(_parts(sheet)),
        reasons=tuple(_reasons(patterns)),
        asked=tuple(_asked(row) for row in coaches),
    )


def _parts(sheet: Sheet) -> Iterator[PlainPart]:
    in_full = len(sheet.lines) <= MOST_IN_FULL
    for kind, title in _PARTS.items():
        groups = [group for group in sheet.groups if group.segment == kind]
        each = [_plain(group, line) if in_full else line.name for group in groups for line in group.lines]
        if each:
            yield PlainPart(str(title), tuple(each))


def _plain(group: SheetGroup, line: SheetLine) -> str:
    """ "Front squat: 4 times 5", "Side plank: 2 times 30 seconds on each side"; never a load."""
    told = {"name": line.name, "sets": line.sets, "amount": _amount(line)}
    if line.sets == 1:
        return _("%(name)s: %(amount)s") % told
    return _("%(name)s: %(sets)s times %(amount)s") % told


def _amount(line: SheetLine) -> str:
    figures = number(line.low) + (f"–{number(line.high)}" if line.high is not None else "")
    most = int(line.high or line.low)
    told = {"n": figures}
    amount = figures
    if line.dose_kind in ("time", "hold"):
        amount = ngettext("%(n)s second", "%(n)s seconds", most) % told
    elif line.dose_kind == "distance":
        amount = ngettext("%(n)s metre", "%(n)s metres", most) % told
    return _("%(amount)s on each side") % {"amount": amount} if line.per == "side" else amount


def _reasons(patterns: frozenset[str]) -> Iterator[str]:
    fitting = [str(text) for those, text in _REASONS if those & patterns]
    yield from fitting[:MOST_REASONS]


def _asked(row: Staff) -> str:
    return f"{row.name}, {StaffRole(row.role).label}"
