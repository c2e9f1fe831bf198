"""Asks a server as often as it answers: with wrk where there is one, else with threads of our own."""

from __future__ import annotations

import itertools
import re
import shutil
import socket
import subprocess
import tempfile
import threading
import time
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from http.client import HTTPResponse
from pathlib import Path
from typing import NamedTuple

CONNECTIONS = 8
WRK_SCRIPT = """
local calls, at = {}, 0
for call in io.open("%s", "rb"):read("*a"):gmatch("[^%%z]+") do calls[#calls + 1] = call end
request = function() at = at %% #calls + 1; return calls[at] end
"""


class Call(NamedTuple):
    """One request; with a body it is a POST."""

    path: str
    headers: dict[str, str] = {}
    body: str = ""

    def raw(self, host: str) -> bytes:
        form = {"Content-Type": "application/x-www-form-urlencoded", "Content-Length": str(len(self.body))}
        headers = {"Host": host, **self.headers, **(form if self.body else {})}
        lines = [f"{'POST' if self.body else 'GET'} {self.path} HTTP/1.1", *(f"{k}: {v}" for k, v in headers.items())]
        return "\r\n".join([*lines, "", self.body]).encode()


class Answers(NamedTuple):
    answered: int
    wrong: int
    per_second: float


def ask(host: str, calls: Sequence[Call], seconds: float) -> Answers:
    """Go through the calls, again and again, over eight connections; an answer from 400 on is a wrong one."""
    raw = [call.raw(host) for call in calls]
    return by_wrk(host, raw, seconds) if shutil.which("wrk") else by_threads(host, raw, seconds)


def once(host: str, call: Call) -> tuple[int, bytes]:
    """Status and body of one answer."""
    address, _, port = host.partition(":")
    with socket.create_connection((address, int(port))) as line:
        return exchange(line, call.raw(host))


def exchange(line: socket.socket, raw: bytes) -> tuple[int, bytes]:
    line.sendall(raw)
    answer = HTTPResponse(line)
    answer.begin()
    return answer.status, answer.read()


def by_wrk(host: str, raw: Sequence[bytes], seconds: float) -> Answers:
    with tempfile.TemporaryDirectory() as folder:
        calls, script = Path(folder) / "calls", Path(folder) / "calls.lua"
        calls.write_bytes(b"\0".join(raw))
        script.write_text(WRK_SCRIPT % calls, "utf-8")
        command = [
            "wrk",
            "-t1",
            f"-c{CONNECTIONS}",
            f"-d{seconds:.0f}s",
            "--timeout",
            "60s",
            "-s",
            str(script),
            f"http://{host}/",
        ]
        told = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    errors = re.findall(r"(?:connect|read|write|timeout) (\d+)|Non-2xx or 3xx responses: (\d+)", told)
    (count,), (rate,) = re.findall(r"(\d+) requests in", told), re.findall(r"Requests/sec: +([\d.]+)", told)
    return Answers(int(count), sum(int(number) for pair in errors for number in pair if number), float(rate))


def by_threads(host: str, raw: Sequence[bytes], seconds: float) -> Answers:
    turn, calls = threading.Lock(), itertools.cycle(raw)
    start = time.perf_counter()

    def statuses() -> Iterator[int]:
        address, _, port = host.partition(":")
        with socket.create_connection((address, int(port))) as line:
            while time.perf_counter() - start < seconds:
                with turn:
                    call = next(calls)
                yield exchange(line, call)[0]

    with ThreadPoolExecutor(CONNECTIONS) as pool:
        found = [status for part in pool.map(lambda _: list(statuses()), range(CONNECTIONS)) for status in part]
    return Answers(len(found), sum(status >= 400 for status in found), len(found) / (time.perf_counter() - start))
