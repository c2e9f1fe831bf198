"""Forms of an import: the file, and which of its columns is what."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, BinaryIO, Final, cast

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from coachhub.base.columns import (
    DAY_FIRST,
    MONTH_FIRST,
    Column,
    Reading,
    cells_of,
    guess_columns,
    guess_day_order,
    shown,
)
from coachhub.base.models import MassUnit
from coachhub.base.tables import MOST_BYTES, Table, TableError, read_table
from coachhub.base.tables.reading import too_large
from coachhub.people.models import ImportKind, Squad

_EXAMPLES: Final = 2
_NOT_ASKED: Final = {
    ImportKind.ROSTER: ("unit", "what"),
    ImportKind.BESTS: ("squad", "what"),
    ImportKind.SEASON: ("unit",),
}


class TableFileForm(forms.Form):
    """Its cleaned `file` is the upload, `table` what was read of it."""

    file = forms.FileField(
        label=gettext_lazy("File"),
        max_length=200,
        widget=forms.FileInput(attrs={"accept": ".csv,.tsv,.txt,.xlsx"}),
        help_text=gettext_lazy("CSV or .xlsx, up to 10 MB and 5,000 rows. The first row names the columns."),
    )
    table: Table

    def __init__(self, *args: Any, is_over: bool = False, **kwargs: Any) -> None:
        """`is_over`: what was sent is larger than an upload may be, and was dropped on the way in."""
        super().__init__(*args, **kwargs)
        if is_over:
            self.fields["file"].error_messages["required"] = str(too_large())

    def read(self, file: BinaryIO) -> Table:
        return read_table(file)

    def clean_file(self) -> Any:
        upload = self.cleaned_data["file"]
        if upload.size > MOST_BYTES:
            raise ValidationError(str(too_large()))
        try:
            self.table = self.read(upload.file)
        except TableError as error:
            raise ValidationError(str(error)) from None
        return upload


class MatchForm(forms.Form):
    """One choice a column, filled in by what the headers say; and how days, squads and units are meant."""

    day_order = forms.ChoiceField(
        label=gettext_lazy("Dates are written"),
        choices=[
            ("", gettext_lazy("choose: the file leaves it open")),
            (DAY_FIRST, gettext_lazy("day first: 30.4.2012, 30/04/2012")),
            (MONTH_FIRST, gettext_lazy("month first: 04/30/2012")),
        ],
        help_text=gettext_lazy("2012-04-30 is read as it is."),
    )
    squad = forms.ModelChoiceField(
        label=gettext_lazy("Squad of rows that name none"),
        queryset=Squad.objects.none(),
        required=False,
        empty_label=gettext_lazy("none"),
        help_text=gettext_lazy("Somebody new needs a squad, from the file or from here; only an owner may do without."),
    )
    unit = forms.ChoiceField(label=gettext_lazy("Loads without a unit are in"), choices=MassUnit.choices)
    what = forms.ChoiceField(label=gettext_lazy("Rows that do not say what they are"))

    def __init__(
        self,
        data: Any = None,
        *,
        kind: ImportKind,
        table: Table,
        columns: Sequence[Column],
        squads: Any,
        guess: Reading,
        whats: Sequence[tuple[str, Any]] = (),
    ) -> None:
        """`guess` fills the form in; `squads` are those that the actor may choose, `whats` what a row may be."""
        super().__init__(data)
        self.columns = columns
        self.initial = {"day_order": guess.day_order, "unit": guess.unit, "squad": guess.squad, "what": guess.what}
        choices = [("", _("not in the file")), *((str(i), header_words(table, i)) for i in range(len(table.headers)))]
        if kind == ImportKind.SEASON:
            self.fields["squad"].help_text = ""
        for column in columns:
            label, name = str(column.label).capitalize(), field_name(column.key)
            self.fields[name] = forms.ChoiceField(label=label, choices=choices, required=column.is_required)
            self.initial[name] = str(guess.columns.get(column.key, ""))
        cast(Any, self.fields["squad"]).queryset = squads
        cast(Any, self.fields["what"]).choices = [("", _("choose")), *whats]
        for name in _NOT_ASKED[kind]:
            del self.fields[name]

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        taken: dict[str, str] = {}
        for column in self.columns:
            name = field_name(column.key)
            first = taken.setdefault(data.get(name) or name, str(column.label))
            if first != str(column.label):
                self.add_error(name, ValidationError(_("Already used for: %(other)s."), params={"other": first}))
        return data

    def reading(self) -> Reading:
        data = self.cleaned_data
        chosen = {column.key: data[field_name(column.key)] for column in self.columns}
        return Reading(
            columns={key: int(index) for key, index in chosen.items() if index},
            day_order=data["day_order"],
            unit=data.get("unit", ""),
            squad=data["squad"].pk if data.get("squad") else None,
            what=data.get("what", ""),
        )


def field_name(key: str) -> str:
    return f"column_{key}"


def guess_reading(table: Table, columns: Sequence[Column], day_key: str, unit: str) -> Reading:
    found = guess_columns(table.headers, columns)
    return Reading(found, guess_day_order(cells_of(table, found.get(day_key))), unit)


def header_words(table: Table, index: int) -> str:
    """ "Surname (Moss, Vane)": a header with what stands below it."""
    examples = [cell for cell in cells_of(table, index) if cell][:_EXAMPLES]
    header = table.headers[index] or _("column %(number)s") % {"number": index + 1}
    return f"{shown(header)} ({', '.join(shown(cell) for cell in examples)})" if examples else shown(header)
