"""Prints the numbered HTML documents of a folder as one PDF: `python -m tests.bench.print_command FOLDER PDF`."""

from __future__ import annotations

import sys
from pathlib import Path

from coachhub.paper.press import print_documents

if __name__ == "__main__":
    folder, target = map(Path, sys.argv[1:])
    target.write_bytes(print_documents([path.read_text("utf-8") for path in sorted(folder.glob("[0-9]*.html"))]))
