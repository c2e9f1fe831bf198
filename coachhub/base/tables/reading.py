"""A table from a file that somebody uploaded: what it is, is decided by its first bytes, never by its name."""

from __future__ import annotations

from typing import BinaryIO, Final

from django.utils.translation import gettext as _

from coachhub.base.tables.table import MEGABYTE, MOST_BYTES, Table, TableError
from coachhub.base.tables.text_file import read_text_file
from coachhub.base.tables.workbook import read_workbook

_ZIP: Final = b"PK\x03\x04"
_OLD_OFFICE: Final = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"


def read_table(file: BinaryIO) -> Table:
    """TableError says in one sentence why a file is not taken; nothing of it is then left in memory."""
    file.seek(0, 2)
    if file.tell() > MOST_BYTES:
        raise too_large()
    file.seek(0)
    start = file.read(8)
    file.seek(0)
    if start.startswith(_ZIP):
        return read_workbook(file)
    if start == _OLD_OFFICE:
        raise TableError(
            _("This is an old spreadsheet (.xls), or one with a password. Save it as .xlsx without one, or as CSV.")
        )
    return read_text_file(file)


def too_large() -> TableError:
    return TableError(_("The file is larger than %(most)s MB.") % {"most": MOST_BYTES // MEGABYTE})
