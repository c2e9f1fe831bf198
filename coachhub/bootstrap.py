"""First start on a fresh machine: a private .venv, the pinned packages, the system libraries. Standard library only."""

import contextlib
import ctypes
import fcntl
import hashlib
import importlib.util
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

OLDEST_PYTHON = (3, 11)


class BootstrapError(Exception):
    """One sentence on what is missing and the command that brings it."""


@dataclass(frozen=True)
class Level:
    """What a command needs: pinned packages (each module named is one sign of them) and Debian's packages."""

    name: str
    requirements: str
    modules: tuple[str, ...]
    libraries: dict[str, str]
    programs: dict[str, str] = field(default_factory=dict)


PANGO = {
    "libpango-1.0.so.0": "libpango-1.0-0",
    "libpangoft2-1.0.so.0": "libpangoft2-1.0-0",
    "libharfbuzz-subset.so.0": "libharfbuzz-subset0",
}
RUNTIME = Level("runtime", "requirements.txt", ("django", "allauth", "weasyprint"), PANGO)
DEVELOPMENT = Level(
    "development",
    "requirements-dev.txt",
    (*RUNTIME.modules, "pytest_django", "ruff", "mypy"),
    PANGO,
    {"chromium": "chromium", "pdftoppm": "poppler-utils"},
)


def ensure(root: Path, command: str) -> None:
    """Return if this process can go on; else install into root/.venv and start the same command again from there."""
    if os.environ.get("COACHHUB_OWN_ENV") == "1":
        return
    level = DEVELOPMENT if command == "test" else RUNTIME
    if sys.prefix != sys.base_prefix and all(importlib.util.find_spec(name) for name in level.modules):
        return
    if sys.version_info < OLDEST_PYTHON:
        raise BootstrapError("Python 3.11 or newer is needed; this is {}.{}.".format(*sys.version_info[:2]))
    home = Home(root / ".venv", level, root / level.requirements)
    if not home.is_ready():
        with locked(root):
            if not home.is_ready():  # another start may have done it while this one waited
                home.build()
    start_again(home.python)


def start_again(python: Path) -> None:
    # Another folder's active environment must not leak into this one.
    for name in ("PYTHONHOME", "VIRTUAL_ENV", "__PYVENV_LAUNCHER__"):
        os.environ.pop(name, None)
    sys.stdout.flush()
    os.execv(python, [str(python), *sys.orig_argv[1:]])  # noqa: S606


@contextlib.contextmanager
def locked(root: Path) -> Iterator[None]:
    try:
        handle = (root / ".venv.lock").open("w")
    except OSError as error:
        raise BootstrapError(f"cannot write in {root} ({error.strerror}): start once as the folder's owner.") from None
    with handle:
        fcntl.flock(handle, fcntl.LOCK_EX)
        yield


@dataclass(frozen=True)
class Home:
    """The project's own environment. Its stamp is written last, so a broken install is never taken for a whole one."""

    folder: Path
    level: Level
    requirements: Path

    @property
    def python(self) -> Path:
        return self.folder / "bin" / "python"

    @property
    def stamp(self) -> Path:
        return self.folder / "coachhub-stamp"

    def stamp_for(self, requirements: Path) -> str:
        digest = hashlib.sha256(requirements.read_bytes()).hexdigest()
        return "{}.{} {} {}".format(*sys.version_info[:2], requirements.name, digest)

    def is_ready(self) -> bool:
        """Development packages contain the runtime ones, so they serve either."""
        if not self.python.exists() or not self.stamp.exists():
            return False
        development = self.requirements.with_name(DEVELOPMENT.requirements)
        return self.stamp.read_text("utf-8") in {self.stamp_for(self.requirements), self.stamp_for(development)}

    def build(self) -> None:
        install_system_packages(self.level)
        say(f"Installing the {self.level.name} packages into {self.folder.name} (once; a minute or two) …")
        if not self.is_whole():
            make_environment(self.folder)
        self.stamp.unlink(missing_ok=True)
        options = ["--quiet", "--no-input", "--disable-pip-version-check", "--require-hashes", "--only-binary", ":all:"]
        run([*pip_for(self.folder, self.python), "install", *options, "-r", str(self.requirements)], "packages")
        self.stamp.write_text(self.stamp_for(self.requirements), "utf-8")

    def is_whole(self) -> bool:
        """Made by an earlier start with this Python version; or the one that this very process runs in."""
        if Path(sys.prefix) == self.folder:
            return True
        version = "{}.{} ".format(*sys.version_info[:2])
        return self.python.exists() and self.stamp.exists() and self.stamp.read_text("utf-8").startswith(version)


def make_environment(folder: Path) -> None:
    """Debian splits venv's pip (ensurepip) and pip itself into packages of their own: take what is there."""
    base = getattr(sys, "_base_executable", sys.executable)
    if not has_module("ensurepip") and not has_module("pip"):
        install(["python3-venv"], "its own environment")
    without_pip = [] if ensurepip_works(base) else ["--without-pip"]
    run([base, "-m", "venv", "--clear", *without_pip, str(folder)], "environment")


def ensurepip_works(base: str) -> bool:
    return subprocess.run([base, "-c", "import ensurepip"], capture_output=True, check=False).returncode == 0


def pip_for(folder: Path, python: Path) -> list[str]:
    if any(folder.glob("lib/python3*/site-packages/pip")):
        return [str(python), "-m", "pip"]
    return [sys.executable, "-m", "pip", "--python", str(python)]


def has_module(name: str) -> bool:
    return importlib.util.find_spec(name) is not None


def install_system_packages(level: Level) -> None:
    """WeasyPrint's libraries, and what tests look with. Without them all but printing works, so it is no stop."""
    if not sys.platform.startswith("linux"):
        return
    missing = [package for name, package in level.libraries.items() if not can_load(name)]
    missing += [package for name, package in level.programs.items() if shutil.which(name) is None]
    if not missing:
        return
    try:
        install(missing, "printing" if level is RUNTIME else "printing and browser tests")
    except BootstrapError as error:
        say(f"coachhub: {error}")


def can_load(library: str) -> bool:
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True


def install(packages: list[str], purpose: str) -> None:
    """Debian's packages as root, else one line that says which command brings them."""
    line = f"apt-get install -y --no-install-recommends {' '.join(packages)}"
    if os.geteuid() != 0 or shutil.which("apt-get") is None:
        raise BootstrapError(f"for {purpose} the system lacks packages; bring them with: sudo {line}")
    say(f"Installing system packages: {' '.join(packages)} …")
    environment = os.environ | {"DEBIAN_FRONTEND": "noninteractive"}
    for step in ("apt-get update", line):
        done = subprocess.run(step.split(), capture_output=True, text=True, check=False, env=environment)
        if done.returncode != 0:
            raise BootstrapError(f"“{step}” failed: {(done.stderr.strip() or 'no reason given').splitlines()[-1]}")


def run(command: list[str], what: str) -> None:
    # PIP_USER would send packages to the home folder of whoever starts it.
    environment = os.environ | {"PIP_USER": "0"}
    environment.pop("PYTHONHOME", None)
    if subprocess.run(command, check=False, env=environment, stdin=subprocess.DEVNULL).returncode != 0:
        raise BootstrapError(f"installing the {what} failed (see above); start again once that is put right.")


def say(line: str) -> None:
    print(line, file=sys.stderr, flush=True)
