"""Puts the codes and figures of a card into words; the only place that does, for phone, desk and paper alike."""

from __future__ import annotations

from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from typing import Final

from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext, pgettext_lazy

from coachhub.base.models import BodySide, Pattern, Region, SegmentKind
from coachhub.cards.models import SetEntry
from coachhub.cards.sheet import LastTime, SheetEntry, SheetGroup, SheetLine
from coachhub.cards.words_notes import ASPECTS, NOTES
from coachhub.coaching.facts import Mass, Note
from coachhub.coaching.own_work import IF_TIME_KEY, OWN_KEY
from coachhub.library.models import Direction, Equipment, LoadMeaning, Spotting
from coachhub.people.models import RedFlagKind, RestrictionKind
from coachhub.science.units import convert

_KINDS: Final = {
    "reps": pgettext_lazy("amount", "%(n)s"),
    "time": pgettext_lazy("amount", "%(n)s s"),
    "distance": pgettext_lazy("amount", "%(n)s m"),
    "contacts": pgettext_lazy("amount", "%(n)s contacts"),
    "hold": pgettext_lazy("amount", "%(n)s s hold"),
}


def number(value: Decimal) -> str:
    """Return the figure without idle zeros: 62.50 -> 62.5, 60.00 -> 60."""
    text = f"{value:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def mass_text(mass: Mass, reader_unit: str = "", *, high: Mass | None = None) -> str:
    """Return "60 kg", and what it is to someone who reads another unit: "60 kg (132 lb)", "60–65 kg (132–143 lb)"."""
    values = [mass.value] if high is None else [mass.value, high.value]
    own = f"{'–'.join(map(number, values))} {mass.unit}"
    if mass.unit == "pl" or reader_unit in ("", mass.unit):
        return own
    there = [convert(value, mass.unit, "lb" if reader_unit == "lb" else "kg") for value in values]
    rounded = "–".join(number(value.quantize(Decimal(1), ROUND_HALF_UP)) for value in there)
    return f"{own} ({rounded} {reader_unit})"


def amount_text(line: SheetLine) -> str:
    """Return the dose without load: "5", "6–8", "3 each side", "30 s hold each side", "20 m"."""
    figures = number(line.low) + (f"–{number(line.high)}" if line.high is not None else "")
    text = str(_KINDS[line.dose_kind]) % {"n": figures}
    if line.per == "side":
        return _("%(amount)s each side") % {"amount": text}
    if line.per == "direction":
        return _("%(amount)s each direction") % {"amount": text}
    return text


def load_text(line: SheetLine, reader_unit: str = "") -> str:
    """Return what to lift: "62.5 kg", "2 × 12 kg", "60–65 kg", "find it", the coach's words; empty for none."""
    if line.load is not None:
        text = mass_text(line.load, reader_unit, high=line.load_high)
        text = f"2 × {text}" if line.load_meaning == LoadMeaning.PER_HAND else text
        return f"{line.load_words} ({text})" if line.load_words else text
    if line.load_words:
        return line.load_words
    return _("find it") if line.wants_load else ""


def fewer_sets_text(line: SheetLine, group: SheetGroup) -> str:
    """Say so where a line is done less often than its block."""
    if line.sets >= group.rounds_max:
        return ""
    return ngettext("%(n)s set only", "%(n)s sets only", line.sets) % {"n": line.sets}


def meaning_text(line: SheetLine) -> str:
    if line.load_meaning == LoadMeaning.NONE:
        return ""
    shown = line.load or (line.steps[0] if line.steps else None)
    label = str(LoadMeaning(line.load_meaning).label)
    return _("%(meaning)s, number of the plate (pl)") % {"meaning": label} if shown and shown.unit == "pl" else label


def plates_text(line: SheetLine) -> str:
    """Return what goes on each end of the bar: "each end 20 + 1.25", "empty bar"; nothing without a bar."""
    if not line.bar:
        return ""
    if not line.per_side:
        return _("empty bar")
    return _("each end %(plates)s") % {"plates": " + ".join(map(number, line.per_side))}


def plan_text(line: SheetLine, reader_unit: str = "") -> str:
    """Return load and dose together: "62.5 kg × 5", "3 each side"."""
    load = load_text(line, reader_unit)
    return f"{load} × {amount_text(line)}" if load else amount_text(line)


def rir_text(line: SheetLine) -> str:
    return _("%(n)s in reserve") % {"n": half(line.rir_half)} if line.rir_half is not None else ""


def half(halves: int | None) -> str:
    return "" if halves is None else number(Decimal(halves) / 2)


def directions_text(line: SheetLine) -> str:
    return ", ".join(str(Direction(code).label) for code in line.directions)


def spotting_text(line: SheetLine) -> str:
    return str(Spotting(line.spotting).label) if line.spotting != Spotting.NONE else ""


def clock(seconds: int) -> str:
    """Return 150 -> "2:30"."""
    return f"{seconds // 60}:{seconds % 60:02}"


def rest_text(group: SheetGroup) -> str:
    """Return the rest between rounds: "2:00–2:30", or empty."""
    if group.rest_min_s is None:
        return ""
    if group.rest_max_s is None or group.rest_max_s == group.rest_min_s:
        return clock(group.rest_min_s)
    return f"{clock(group.rest_min_s)}–{clock(group.rest_max_s)}"


def rounds_text(group: SheetGroup) -> str:
    if group.rounds_min == group.rounds_max == 1:
        return _("1 round")
    span = str(group.rounds_min) if group.rounds_min == group.rounds_max else f"{group.rounds_min}–{group.rounds_max}"
    return _("%(n)s rounds") % {"n": span}


def flow_text(group: SheetGroup) -> str:
    """Return how the block runs: "A1 straight into A2, rest 0:30, then A3. Rest 2:00–2:30 after A3."."""
    if not group.lines:
        return ""
    parts = [group.lines[0].label]
    for before, line in zip(group.lines, group.lines[1:], strict=False):
        told = {"label": line.label, "rest": clock(before.rest_after_s)}
        parts.append(
            _("rest %(rest)s, then %(label)s") % told if before.rest_after_s else _("straight into %(label)s") % told
        )
    rest, note = rest_text(group), group.rest_note.rstrip(".")
    after = _("Rest %(rest)s after %(label)s") % {"rest": rest, "label": group.lines[-1].label} if rest else ""
    ends = ", ".join(text for text in (after, note) if text)
    flow = ", ".join(parts) if len(parts) > 1 else ""
    return " ".join(f"{text}." for text in (flow, ends) if text)


def after_text(group: SheetGroup) -> str:
    return _("Then rest %(rest)s.") % {"rest": clock(group.rest_after_s)} if group.rest_after_s else ""


def segment_text(group: SheetGroup) -> str:
    if group.key == OWN_KEY:
        return _("Own activation")
    return _("Own activation, if time") if group.key == IF_TIME_KEY else str(SegmentKind(group.segment).label)


def last_text(last: LastTime | None, reader_unit: str = "") -> str:
    if last is None:
        return ""
    reps = f" × {last.reps}" if last.reps is not None else ""
    return _("last time %(set)s") % {"set": f"{mass_text(last.load, reader_unit)}{reps}"}


def entry_text(entry: SheetEntry | SetEntry) -> str:
    """Return a set as done: "62.5 kg × 5", "30 s", "20 m", "skipped"."""
    fact = entry.fact if isinstance(entry, SheetEntry) else entry
    if fact.kind == "skipped":
        return _("skipped")
    parts = []
    if fact.load_value is not None:
        parts.append(f"{number(fact.load_value)} {fact.load_unit}")
    if fact.reps is not None:
        parts.append(str(fact.reps))
    parts += [f"{number(value)} {unit}" for value, unit in _amounts(fact) if value is not None]
    return " × ".join(parts)


def _amounts(fact: SetEntry) -> list[tuple[Decimal | None, str]]:
    time = None if fact.time_s is None else Decimal(fact.time_s)
    return [(time, "s"), (fact.distance_m, "m"), (fact.height_cm, "cm")]


def note_text(note: Note) -> str:
    """Return one step of a trace in words."""
    told: dict[str, str] = dict(note.params)
    if told.get("region"):
        told["region"] = region_text(told["region"], told.get("side", BodySide.BOTH))
    if "kinds" in told:
        told["kinds"] = _(" or ").join(str(Equipment(kind).label) for kind in told["kinds"].split(","))
    if told.get("on"):
        told["on"] = date_format(date.fromisoformat(told["on"]), "j M")
    if "rir_half" in told:
        told["rir"] = half(int(told["rir_half"]))
    told["what"] = _what(told)
    if told.get("pattern"):
        told["pattern"] = str(Pattern(told["pattern"]).label)
    for name in ("keeps", "differs"):
        if name in told:
            told[name] = ", ".join(str(ASPECTS[aspect]) for aspect in told[name].split(",") if aspect)
    told = {name: _tidy(value) for name, value in told.items()}
    return str(NOTES[note.code]) % told


def region_text(region: str, side: str) -> str:
    label = str(Region(region).label)
    return label if side == BodySide.BOTH else f"{BodySide(side).label} {label}"


def red_flag_text(kind: str) -> str:
    return str(RedFlagKind(kind).label)


def _what(told: dict[str, str]) -> str:
    kind = told.get("kind", "")
    if kind == RestrictionKind.REGION:
        return told["region"]
    if kind == RestrictionKind.PATTERN:
        return str(Pattern(told["pattern"]).label)
    return str(RestrictionKind(kind).label) if kind else ""


def _tidy(value: str) -> str:
    """Figures lose idle zeros; everything else stays."""
    return number(Decimal(value)) if value.replace(".", "", 1).isdigit() else value
