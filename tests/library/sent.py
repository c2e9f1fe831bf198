"""What a browser sends of an exercise's form."""

from __future__ import annotations

from typing import Any

from coachhub.library.forms_exercise_rows import ExerciseForms

NEW: dict[str, Any] = {
    "name": "Lunge with row",
    "segment": "strength",
    "patterns_0": "lunge",
    "patterns_2": "pull",
    "directions_0": "backward",
    "laterality": "alternating",
    "measure": "reps",
    "load": "per_hand",
    "spotting": "none",
    "needs_supervision": "on",
}


def rows(**counts: int) -> dict[str, str]:
    """The management fields of all three tables."""
    totals = {"equipment": 0, "cues": 0, "swaps": 0} | counts
    return {f"{name}-{n}_FORMS": str(total) for name, total in totals.items() for n in ("TOTAL", "INITIAL")}


def new(changes: dict[str, Any] | None = None, **counts: int) -> dict[str, Any]:
    return NEW | rows(**counts) | (changes or {})


def as_sent(form: ExerciseForms) -> dict[str, Any]:
    """The form untouched: every field that a browser sends, boxes only where ticked."""
    parts: list[Any] = [form.main, form.regions]
    for formset in form.rows.values():
        parts += [formset.management_form, *formset]
    data: dict[str, Any] = {}
    for part in parts:
        for field in part:
            data |= {name: value for name, value in _sent(field) if value is not None and value is not False}
    return data


def _sent(field: Any) -> list[tuple[str, Any]]:
    value = field.value()
    if hasattr(field.field.widget, "widgets"):
        return [(f"{field.html_name}_{n}", code) for n, code in enumerate(field.field.widget.decompress(value))]
    return [(field.html_name, "on" if value is True else value)]
