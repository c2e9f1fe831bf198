"""Sets documents with the libraries of this machine, or says that it has none."""

from __future__ import annotations

from collections.abc import Sequence

from coachhub.paper.pdf import to_pdf


class PrintingUnavailableError(Exception):
    """WeasyPrint or Pango is missing."""


def print_documents(documents: Sequence[str]) -> bytes:
    try:
        return to_pdf(documents)
    except (ImportError, OSError) as error:
        raise PrintingUnavailableError from error
