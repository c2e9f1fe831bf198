"""What README.md and DEVELOPERS.md tell people to type works, and what they point at is there."""

from __future__ import annotations

import importlib.util
import os
import re
import shlex
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from urllib.error import URLError
from urllib.request import urlopen

import pytest
from django.core.management import get_commands, load_command_class
from django.utils.text import slugify

ROOT = Path(__file__).resolve().parent.parent
DOCS = ["README.md", "DEVELOPERS.md"]
# Their names are known to manage.py itself, or to Django.
OWN = {"test": {"--no-browser"}}
TOP_FOLDERS = "coachhub|fixtures|static|templates|tests"
PASSWORD = "mill lane hinge squat"


def text_of(doc: str) -> str:
    return (ROOT / doc).read_text("utf-8")


def command_lines(doc: str) -> list[str]:
    """What stands in the shell examples, without remarks; a line that ends in a backslash goes on."""
    examples = re.findall(r"^```sh\n(.*?)^```", text_of(doc), re.DOTALL | re.MULTILINE)
    lines = "\n".join(examples).replace("\\\n", " ").splitlines()
    return [line for line in lines if shlex.split(line, comments=True)]


def manage_lines() -> list[list[str]]:
    """The arguments of manage.py in every example."""
    words = [shlex.split(line, comments=True) for doc in DOCS for line in command_lines(doc)]
    return [line[2:] for line in words if line[:2] == ["python3", "manage.py"]]


def lines_of(command: str) -> Iterator[list[str]]:
    return (line for line in manage_lines() if line[0] == command)


def prose(doc: str) -> str:
    return re.sub(r"^```.*?^```", "", text_of(doc), flags=re.DOTALL | re.MULTILINE)


def links(doc: str) -> list[str]:
    found = re.findall(r"\]\(([^)\s]+)\)", prose(doc)) + re.findall(r"src=\"([^\"]+)\"", prose(doc))
    return [link for link in found if not re.match(r"[a-z]+:", link)]


def anchors(path: Path) -> set[str]:
    return {slugify(title) for title in re.findall(r"^#+ +(.+)$", path.read_text("utf-8"), re.MULTILINE)}


def is_there(link: str, doc: str) -> bool:
    name, _, anchor = link.partition("#")
    path = ROOT / (name or doc)
    return path.exists() and (not anchor or anchor in anchors(path))


def is_accepted(arguments: list[str]) -> bool:
    command, *flags = arguments
    if command in OWN:
        return set(flags) <= OWN[command]
    if command not in get_commands():
        return False
    app = get_commands()[command]
    made = load_command_class(app, command) if isinstance(app, str) else app
    try:
        made.create_parser("manage.py", command).parse_args(flags)
    except SystemExit:
        return False
    return True


def start(arguments: list[str], var: Path) -> subprocess.Popen[str]:
    """manage.py as from a shell, with a folder of its own for what it writes."""
    kept = {
        name: value for name, value in os.environ.items() if not name.startswith(("COACHHUB_", "DJANGO_", "DATABASE_"))
    }
    return subprocess.Popen(
        [sys.executable, "manage.py", *arguments],
        cwd=ROOT,
        env={**kept, "COACHHUB_VAR": str(var)},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )


def free_port() -> int:
    with closing(socket.socket()) as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


def answer_of(server: subprocess.Popen[str], url: str) -> int:
    """The status of the first answer; the server's end ends the waiting."""
    while True:
        try:
            with urlopen(url) as response:  # noqa: S310  # our own server
                status: int = response.status
                return status
        except URLError:
            try:
                raise AssertionError(f"ended with {server.wait(timeout=0.2)}")
            except subprocess.TimeoutExpired:
                continue


@pytest.mark.parametrize("doc", DOCS)
def test_every_command_is_one_of_manage_py(doc: str) -> None:
    strange = [line for line in command_lines(doc) if not line.startswith("python3 manage.py ")]

    assert strange == []


def test_every_command_takes_the_flags_it_is_shown_with() -> None:
    assert [line for line in manage_lines() if not is_accepted(line)] == []


@pytest.mark.parametrize("doc", DOCS)
def test_links_and_pictures_lead_somewhere(doc: str) -> None:
    assert [link for link in links(doc) if not is_there(link, doc)] == []


@pytest.mark.parametrize("doc", DOCS)
def test_paths_and_modules_named_are_there(doc: str) -> None:
    paths = re.findall(rf"`((?:{TOP_FOLDERS})/[\w./-]*)`", prose(doc))
    modules = re.findall(r"python -m ([\w.]+)", prose(doc))

    assert [path for path in paths if not (ROOT / path).exists()] == []
    assert [module for module in modules if importlib.util.find_spec(module) is None] == []


def test_demo_is_made_as_shown(tmp_path: Path) -> None:
    line = next(lines_of("demo"))

    demo = start([*line, "--no-serve"], tmp_path)
    told, _ = demo.communicate()

    assert demo.returncode == 0, told
    assert [row.split(":")[0] for row in told.splitlines()[:2]] == ["owner", "coach"]
    assert (tmp_path / "demo.sqlite3").exists()


def test_club_is_set_up_and_served_as_shown(tmp_path: Path) -> None:
    set_up = next(line for line in lines_of("setup") if "--password-file" in line)
    serve = next(lines_of("serve"))

    first = start(set_up, tmp_path)
    told, _ = first.communicate(f"{PASSWORD}\n")
    assert first.returncode == 0, told
    port = free_port()
    with start([*serve, "--port", str(port)], tmp_path) as server:
        try:
            assert answer_of(server, f"http://127.0.0.1:{port}/healthz") == 200
        finally:
            server.terminate()
