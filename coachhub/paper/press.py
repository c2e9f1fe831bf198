"""Sets documents with the libraries of this machine, in two processes where it is worth it."""

from __future__ import annotations

import gc
import os
from collections.abc import Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from multiprocessing import get_context

from coachhub.paper.join import Part, join, set_part
from coachhub.paper.pdf import PLAIN, Setup, to_pdf


class PrintingUnavailableError(Exception):
    """WeasyPrint or Pango is missing."""


def print_documents(documents: Sequence[str], setup: Setup = PLAIN) -> bytes:
    """Return HTML documents as one tagged PDF, in their order. The same input gives the same bytes."""
    try:
        if len(documents) == 1:
            return to_pdf(documents[0], setup)
        return join(set_parts(documents, setup))
    except (ImportError, OSError) as error:
        raise PrintingUnavailableError from error


def set_parts(documents: Sequence[str], setup: Setup = PLAIN) -> list[Part]:
    """Lay out each document: this process from the front, a helper from the back, until they meet.

    Where no helper can be had (one processor, no memory for it), this process does all.
    """
    if len(os.sched_getaffinity(0)) == 1:
        return [set_part(place, html, setup) for place, html in enumerate(documents)]
    # Spawned: a copy of a process with threads and open databases would not be safe.
    with ProcessPoolExecutor(1, mp_context=get_context("spawn"), initializer=gc.disable) as helper:
        backwards = reversed(list(enumerate(documents)))
        helped = {place: helper.submit(set_part, place, html, setup) for place, html in backwards}
        return [_own_or_helped(place, html, helped[place], setup) for place, html in enumerate(documents)]


def _own_or_helped(place: int, html: str, helped: Future[Part], setup: Setup = PLAIN) -> Part:
    if helped.cancel():
        return set_part(place, html, setup)
    try:
        return helped.result()
    except BrokenProcessPool:
        return set_part(place, html, setup)
