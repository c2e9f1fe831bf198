"""Keeps one background worker beside the web server: started with it, stopped with it, started again if it is lost."""

from __future__ import annotations

import subprocess
import sys
import threading
from pathlib import Path
from typing import Any, Final

_MANAGE: Final = Path(__file__).resolve().parents[2] / "manage.py"
_COMMAND: Final = (sys.executable, str(_MANAGE), "db_worker", "--interval", "2", "--no-reload", "--verbosity", "0")
_PAUSE_S: Final = 5


class _Worker:
    def __init__(self) -> None:
        self.is_stopping = threading.Event()
        self.process: subprocess.Popen[bytes] | None = None

    def keep(self) -> None:
        while not self.is_stopping.is_set():
            self.process = subprocess.Popen(_COMMAND)  # noqa: S603
            self.process.wait()
            self.is_stopping.wait(_PAUSE_S)

    def stop(self) -> None:
        self.is_stopping.set()
        if self.process is not None:
            self.process.terminate()


_worker = _Worker()


def when_ready(server: Any) -> None:
    threading.Thread(target=_worker.keep, daemon=True).start()


def on_exit(server: Any) -> None:
    _worker.stop()
