"""Words for what was written in a round, for ramp-up sets, and for what a new revision changed."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from django.utils.translation import gettext as _

from coachhub.base.models import BodySide
from coachhub.cards.sheet import Cell, SheetEntry, SheetLine
from coachhub.cards.words import entry_text, mass_text, number, plan_text, rir_text
from coachhub.library.models import Equipment


def amount_of(entry: SheetEntry) -> Decimal | None:
    """Return how much was done, in the line's own measure; None for a set that was skipped."""
    fact = entry.fact
    values = (fact.reps, fact.time_s, fact.distance_m)
    return next((Decimal(value) for value in values if value is not None), None)


def is_as_planned(line: SheetLine, entry: SheetEntry) -> bool:
    """Whether the set is what the plan asked for; within a range counts."""
    amount, fact = amount_of(entry), entry.fact
    if not entry.is_done or amount is None:
        return False
    if fact.exercise_id != line.exercise_id:  # the plan of that set has left the card
        return True
    if line.load is not None:
        high = line.load_high or line.load
        if fact.load_unit != line.load.unit or fact.load_value is None:
            return False
        if not line.load.value <= fact.load_value <= high.value:
            return False
    return line.low <= amount <= (line.low if line.high is None else line.high)


def unit_word(line: SheetLine) -> str:
    """Return what an amount of this line counts: "reps", "s", "m"."""
    words = {"time": _("s"), "hold": _("s"), "distance": _("m"), "contacts": _("contacts")}
    return words.get(line.dose_kind, _("reps"))


def cell_text(line: SheetLine, cell: Cell) -> str:
    """Return a line's set in one round: "62.5 kg × 5", "3|3" for left and right, "5 of 6", "skipped"."""
    sides = {entry.fact.side: entry for entry in cell.entries}
    left, right = sides.get("left"), sides.get("right")
    if left and right and left.is_done and right.is_done and _load(left) == _load(right):
        pair = f"{_amount(line, left, unit=False)}|{_amount(line, right)}"
        return " × ".join(part for part in (_load(left), pair) if part)
    return ", ".join(_one(line, entry) for entry in cell.entries)


def ramp_text(line: SheetLine, reader_unit: str = "") -> tuple[str, ...]:
    """Return each ramp-up set with its plates: "40 kg × 5 (each end 10)"."""
    plates = line.ramp_plates or ((),) * len(line.ramp_ups)
    known = bool(line.bar and line.ramp_plates)
    return tuple(
        f"{mass_text(mass, reader_unit)} × {reps}" + (f" ({_end(per_side)})" if known else "")
        for (mass, reps), per_side in zip(line.ramp_ups, plates, strict=False)
    )


def bar_text(line: SheetLine) -> str:
    """Return the bar of a line: "barbell 20 kg"; empty without one."""
    kind, _space, mass = line.bar.partition(" ")
    return f"{Equipment(kind).label} {mass}" if line.bar else ""


def change_texts(before: Iterable[SheetLine], after: Iterable[SheetLine]) -> list[str]:
    """Return what a new revision changed, line by line: "A1 Front squat: 60 kg × 5, was 62.5 kg × 5"."""
    old = {line.key: line for line in before}
    new = {line.key: line for line in after}
    texts = [_change(old.get(key), line) for key, line in new.items()]
    texts += [_("%(line)s is off") % {"line": _title(line)} for key, line in old.items() if key not in new]
    return [text for text in texts if text]


def _change(old: SheetLine | None, new: SheetLine) -> str:
    told = {"line": _title(new), "plan": _plan(new)}
    if new.is_dropped:
        return "" if old and old.is_dropped else _("%(line)s is off") % told
    if old is None or old.is_dropped:
        return _("%(line)s is on: %(plan)s") % told
    told |= {"old": old.name, "was": _plan(old)}
    if new.exercise_id != old.exercise_id:
        return _("%(line)s instead of %(old)s: %(plan)s") % told
    if told["plan"] != told["was"]:
        return _("%(line)s: %(plan)s, was %(was)s") % told
    return _("%(line)s: %(cue)s") % (told | {"cue": new.cue}) if new.cue != old.cue else ""


def _title(line: SheetLine) -> str:
    """A1 Front squat; what comes before the blocks has no letter."""
    return f"{line.label} {line.name}" if line.label[:1].isalpha() else line.name


def _plan(line: SheetLine) -> str:
    sets = _("%(sets)s × %(plan)s") % {"sets": line.sets, "plan": plan_text(line)}
    return " · ".join(text for text in (sets, rir_text(line)) if text)


def _load(entry: SheetEntry) -> str:
    fact = entry.fact
    return "" if fact.load_value is None else f"{number(fact.load_value)} {fact.load_unit}"


def _amount(line: SheetLine, entry: SheetEntry, *, unit: bool = True) -> str:
    amount = amount_of(entry)
    if amount is None:
        return ""
    mark = {"time": " s", "hold": " s", "distance": " m"}.get(line.dose_kind, "") if unit else ""
    short = _(" of %(planned)s") % {"planned": number(line.low)} if amount < line.low else ""
    return f"{number(amount)}{short}{mark}"


def _one(line: SheetLine, entry: SheetEntry) -> str:
    side = "" if entry.fact.side == BodySide.BOTH else f"{BodySide(entry.fact.side).label} "
    if not entry.is_done:
        return side + entry_text(entry)
    return side + " × ".join(part for part in (_load(entry), _amount(line, entry)) if part)


def _end(per_side: tuple[Decimal, ...]) -> str:
    return _("each end %(plates)s") % {"plates": " + ".join(map(number, per_side))} if per_side else _("empty bar")
