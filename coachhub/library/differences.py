"""Where two texts of an exercise differ, in words."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Final

from django.db import models
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from coachhub.base.models import Pattern, Region, SegmentKind
from coachhub.library.content import Content, SwapContent
from coachhub.library.forms_exercise import DEMAND_LABELS
from coachhub.library.models import (
    Direction,
    Equipment,
    Laterality,
    LoadMeaning,
    Measure,
    SideSense,
    Spotting,
    SwapReason,
)

LABELS: Final[dict[str, str | Promise]] = {
    "name": gettext_lazy("Name"),
    "also": gettext_lazy("Also known as"),
    "family": gettext_lazy("Family"),
    "family_rank": gettext_lazy("Place in the family"),
    "segment": gettext_lazy("Part of the session"),
    "patterns": gettext_lazy("Patterns"),
    "directions": gettext_lazy("Directions"),
    "laterality": gettext_lazy("Sides"),
    "measure": gettext_lazy("Measured by"),
    "load": gettext_lazy("The load means"),
    "equipment": gettext_lazy("Needs"),
    "regions": gettext_lazy("Loads"),
    "demands": gettext_lazy("Demands"),
    "why": gettext_lazy("What it is for"),
    "cues": gettext_lazy("Cues"),
    "faults": gettext_lazy("Common faults"),
    "spotting": gettext_lazy("Spotting"),
    "needs_supervision": gettext_lazy("Not unsupervised"),
    "swaps": gettext_lazy("Swaps"),
}
CHOICES: Final[dict[str, type[models.TextChoices]]] = {
    "segment": SegmentKind,
    "patterns": Pattern,
    "directions": Direction,
    "laterality": Laterality,
    "measure": Measure,
    "load": LoadMeaning,
    "spotting": Spotting,
}


@dataclass(frozen=True, slots=True)
class Difference:
    label: str | Promise
    ours: list[str]
    theirs: list[str]


def differences(ours: Content, theirs: Content, names: Mapping[str, str]) -> list[Difference]:
    """Field by field; only what one text says and the other does not. `names`: an exercise's `ref` -> its name."""
    found = []
    for field, label in LABELS.items():
        if getattr(ours, field) != getattr(theirs, field):
            found.append(Difference(label, *_apart(_words(field, ours, names), _words(field, theirs, names))))
    return found


def _apart(ours: list[str], theirs: list[str]) -> tuple[list[str], list[str]]:
    """Without what both say; where only the order differs, both in full."""
    if set(ours) == set(theirs):
        return ours, theirs
    return [one for one in ours if one not in theirs], [one for one in theirs if one not in ours]


def _words(field: str, content: Content, names: Mapping[str, str]) -> list[str]:
    value: Any = getattr(content, field)
    match field:
        case "equipment":
            return [_(" or ").join(_label(Equipment, kind) for kind in group) for group in value]
        case "regions":
            return [f"{_label(Region, region)} ({_label(SideSense, sense)})" for region, sense in value]
        case "cues":
            return [f"{_label(Direction, direction)}: {text}" if direction else text for direction, text in value]
        case "demands":
            return [str(label) for code, label in DEMAND_LABELS if code in value]
        case "swaps":
            return [_swap(swap, names) for swap in value]
        case "family_rank":
            return [str(value)] if value else []
        case "needs_supervision":
            return [_("yes") if value else _("no")]
        case _:
            return _plain(field, value)


def _plain(field: str, value: str | Iterable[str]) -> list[str]:
    values = [value] if isinstance(value, str) else list(value)
    return [_label(CHOICES[field], one) for one in values] if field in CHOICES else [one for one in values if one]


def _swap(swap: SwapContent, names: Mapping[str, str]) -> str:
    reason = _label(Region, swap.region) if swap.region else ""
    told = f"{_label(SwapReason, swap.reason)}: {reason}" if reason else _label(SwapReason, swap.reason)
    return f"{names.get(swap.to, swap.to)} ({told})"


def _label(choices: type[models.TextChoices], code: str) -> str:
    return str(choices(code).label)
