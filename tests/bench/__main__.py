"""Measures what this machine does against the bars: `python -m tests.bench [name ...]`, all of them without a name."""

from __future__ import annotations

import sys
from importlib import import_module

BENCHES = {
    "resolving": "tests.bench.resolving",
    "serving": "tests.bench.serving",
    "pages": "tests.bench.pages",
    "exports": "tests.bench.exports",
    "printing": "tests.bench.printing",
}


def main(names: list[str]) -> int:
    if unknown := set(names) - set(BENCHES):
        print(f"There is no {', '.join(sorted(unknown))}; choose from {', '.join(BENCHES)}.")
        return 2
    missed = 0
    for name in names or BENCHES:
        print(f"── {name}", flush=True)
        for row in import_module(BENCHES[name]).measure():
            print(row, flush=True)
            missed += not row.is_met
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
