"""The file that dates are imported from."""

from __future__ import annotations

from typing import BinaryIO

from django import forms
from django.utils.translation import gettext_lazy

from coachhub.base.tables import Table
from coachhub.people.forms_files import TableFileForm
from coachhub.season.files.ics import read_dates


class DatesFileForm(TableFileForm):
    file = forms.FileField(
        label=gettext_lazy("File"),
        max_length=200,
        widget=forms.FileInput(attrs={"accept": ".ics,.ical,.csv,.tsv,.txt,.xlsx"}),
        help_text=gettext_lazy("A calendar file (.ics), CSV or .xlsx, up to 10 MB and 5,000 dates."),
    )

    def read(self, file: BinaryIO) -> Table:
        return read_dates(file)
