"""The form of the weeks: a cell for each line and week, with what differs there in notation."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django import forms

from coachhub.coaching.notation import format_dose
from coachhub.plans.models import PrescriptionWeek
from coachhub.plans.tree import SessionTree
from coachhub.plans.week_entry import WeekError, read_week, week_text


class WeeksForm(forms.Form):
    """`cells`, once valid: what `set_weeks` takes."""

    def __init__(
        self, data: Any = None, *, tree: SessionTree, values: Mapping[tuple[int, int], PrescriptionWeek]
    ) -> None:
        self.tree = tree
        self.cells: dict[tuple[int, int], dict[str, Any]] = {}
        super().__init__(data)
        for line in tree.lines:
            for week in self.weeks:
                row = values.get((line.row.pk, week))
                self.fields[cell_name(line.row.pk, week)] = forms.CharField(
                    required=False,
                    max_length=240,
                    label=f"{line.label} {line.exercise.name}, {week}",
                    initial=week_text(row, line) if row else "",
                    widget=forms.TextInput(
                        attrs={
                            "placeholder": format_dose(line.written),
                            "autocomplete": "off",
                            "autocapitalize": "off",
                            "spellcheck": "false",
                        }
                    ),
                )

    @property
    def weeks(self) -> range:
        return self.tree.session.weeks

    def clean(self) -> dict[str, Any]:
        for block in self.tree.blocks:
            for line in block.lines:
                for week in self.weeks:
                    name = cell_name(line.row.pk, week)
                    try:
                        self.cells[line.row.pk, week] = read_week(self.cleaned_data.get(name, ""), line, block)
                    except WeekError as error:
                        self.add_error(name, str(error))
        return self.cleaned_data


def cell_name(line: int, week: int) -> str:
    return f"w{line}-{week}"
