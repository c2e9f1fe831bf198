"""Pages and logging against two yardsticks on the same server, in turns, so that all of them meet the same machine."""

from __future__ import annotations

import json
import os
import re
import socket
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path

from tests.bench.first_load import first_load
from tests.bench.load import CONNECTIONS, Call, ask, once
from tests.bench.rows import Row

ROOT = Path(__file__).resolve().parent.parent.parent
TURNS = 5
SECONDS = 3
SETTLE_SECONDS = 2
EXPECTED = {"hello": 200, "row": 200, "card": 200, "floor": 200, "poll": 204, "log": 302}
NAMED = {"hello": "bare view", "row": "view of one row"}

Calls = dict[str, list[Call]]


def measure() -> list[Row]:
    with served() as (host, calls):
        sizes = first_load(f"http://{host}", calls["card"][0])
        calls["poll"] = [poll_of(host, calls["floor"][0])]
        for name, status in EXPECTED.items():
            # A tap writes its set once, so this first one is spent.
            call = calls[name].pop(0) if name == "log" else calls[name][0]
            assert once(host, call)[0] == status, name
        rates = in_turns(host, calls, EXPECTED, TURNS)
    return [
        row("athlete's card page", rates, "card", "hello", 0.06),
        row("a set logged (POST)", rates, "log", "row", 0.25),
        row("floor page, 60 athletes, 9 lines in 3 blocks", rates, "floor", "hello", 0.008),
        row("floor's poll, nothing new", rates, "poll", "hello", 0.3),
        *sizes,
    ]


def row(what: str, rates: list[dict[str, float]], name: str, yardstick: str, bar: float) -> Row:
    """The median of the turns' ratios."""
    ratio = statistics.median(turn[name] / turn[yardstick] for turn in rates)
    own, other = (statistics.median(turn[key] for turn in rates) for key in (name, yardstick))
    return Row(what, ratio, bar, f"× {NAMED[yardstick]}: {own:,.0f} to {other:,.0f} a second")


def poll_of(host: str, page: Call) -> Call:
    """What the floor page asks every few seconds."""
    html = once(host, page)[1].decode()
    (address,) = re.findall(r'data-hx-get="([^"]+since=[^"]+)"', html)
    return Call(address, {**page.headers, "HX-Request": "true"})


def in_turns(host: str, calls: Calls, names: Iterable[str], turns: int) -> list[dict[str, float]]:
    rates: list[dict[str, float]] = []
    for _ in range(turns):
        turn = {}
        for name in names:
            before = written(host)
            answers = ask(host, calls[name], SECONDS)
            assert answers.wrong == 0, (name, answers)
            turn[name] = answers.per_second
            # What was sent last is still being answered: it must not weigh on the next one.
            time.sleep(SETTLE_SECONDS)
            if name == "log":
                assert written(host) - before >= answers.answered, "some taps wrote nothing"
                del calls[name][: answers.answered + CONNECTIONS]
                assert calls[name], "too few taps were prepared: raise EVENINGS in crowd.py"
        rates.append(turn)
    return rates


def written(host: str) -> int:
    return int(once(host, Call("/bench/written"))[1])


@contextmanager
def served() -> Iterator[tuple[str, Calls]]:
    """The demo with a crowd, on two workers as in a club; yields host and port, and what to ask by name."""
    with tempfile.TemporaryDirectory() as folder:
        settings = {"COACHHUB_VAR": folder, "COACHHUB_DEMO": "1", "DJANGO_SETTINGS_MODULE": "tests.bench.settings"}
        clean = {name: value for name, value in os.environ.items() if not name.startswith(("COACHHUB_", "DATABASE_"))}
        run(["manage.py", "demo", "--no-serve"], clean | settings)
        prepared = json.loads(run(["-m", "tests.bench.crowd"], clean | settings))
        host = f"127.0.0.1:{free_port()}"
        command = [sys.executable, "manage.py", "demo", "--port", host.partition(":")[2]]
        server = subprocess.Popen(command, cwd=ROOT, env=clean | settings, stdout=subprocess.DEVNULL)
        try:
            until_it_answers(host, server)
            yield host, {name: [Call(*call) for call in rows] for name, rows in prepared.items()}
        finally:
            server.terminate()
            server.wait()


def run(command: list[str], variables: dict[str, str]) -> str:
    done = subprocess.run(
        [sys.executable, *command], cwd=ROOT, env=variables, check=True, stdout=subprocess.PIPE, text=True
    )
    return done.stdout


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def until_it_answers(host: str, server: subprocess.Popen[bytes]) -> None:
    while server.poll() is None:
        try:
            once(host, Call("/bench/hello"))
        except ConnectionRefusedError:
            time.sleep(0.2)
        else:
            return
    raise RuntimeError("the server did not start")
