"""The first start. What fetches packages is tried on a fresh machine; here, every decision before it."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from coachhub import bootstrap
from coachhub.bootstrap import DEVELOPMENT, RUNTIME, BootstrapError, Home, Level, ensure, pip_for

ROOT = Path(__file__).resolve().parent.parent
HELLO = "import sys; print(sys.prefix)"


@pytest.fixture
def checkout(tmp_path: Path) -> Path:
    """A project folder whose requirements ask for nothing, so that installing needs no network."""
    (tmp_path / "requirements.txt").write_text("# nothing\n")
    (tmp_path / "requirements-dev.txt").write_text("# nothing more\n")
    return tmp_path


def home(checkout: Path, level: Level = RUNTIME) -> Home:
    bare = replace(level, libraries={}, programs={})
    return Home(checkout / ".venv", bare, checkout / level.requirements)


def test_own_environment_is_left_alone(checkout: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COACHHUB_OWN_ENV", "1")
    monkeypatch.setattr(sys, "prefix", sys.base_prefix)

    ensure(checkout, "demo")

    assert not (checkout / ".venv").exists()


def test_active_environment_that_has_the_packages_is_used(checkout: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("COACHHUB_OWN_ENV", raising=False)

    monkeypatch.setattr(sys, "prefix", "/some/other/folder/.venv")
    ensure(checkout, "test")

    assert not (checkout / ".venv").exists()


def test_build_makes_a_working_environment_and_stamps_it_last(checkout: Path) -> None:
    fresh = home(checkout)
    assert not fresh.is_ready()

    fresh.build()

    printed = subprocess.run([fresh.python, "-c", HELLO], capture_output=True, text=True, check=True).stdout
    assert printed.strip() == str(checkout / ".venv")
    assert fresh.is_ready()


def stamped(checkout: Path, level: Level) -> Home:
    """As a finished install leaves it, without the install."""
    made = home(checkout, level)
    made.python.parent.mkdir(parents=True)
    made.python.symlink_to(sys.executable)
    made.stamp.write_text(made.stamp_for(made.requirements))
    return made


def test_runtime_packages_do_not_serve_tests(checkout: Path) -> None:
    stamped(checkout, RUNTIME)

    assert (home(checkout).is_ready(), home(checkout, DEVELOPMENT).is_ready()) == (True, False)


def test_development_packages_serve_every_command(checkout: Path) -> None:
    stamped(checkout, DEVELOPMENT)

    assert (home(checkout).is_ready(), home(checkout, DEVELOPMENT).is_ready()) == (True, True)


def test_changed_requirements_ask_for_another_install(checkout: Path) -> None:
    made = stamped(checkout, RUNTIME)

    made.requirements.write_text("# something else\n")

    assert not made.is_ready()


def test_half_made_environment_is_made_afresh_and_a_failed_install_leaves_no_stamp(checkout: Path) -> None:
    left_over = checkout / ".venv" / "lib" / "left-over"
    left_over.parent.mkdir(parents=True)
    left_over.write_text("")
    (checkout / "requirements.txt").write_text("./not-there\n")

    with pytest.raises(BootstrapError, match="installing the packages failed"):
        home(checkout).build()

    assert (left_over.exists(), home(checkout).stamp.exists()) == (False, False)


def test_environment_without_pip_is_filled_by_the_pip_outside(checkout: Path) -> None:
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", checkout / ".venv"], check=True)
    python = checkout / ".venv" / "bin" / "python"

    assert pip_for(checkout / ".venv", python) == [sys.executable, "-m", "pip", "--python", str(python)]


def test_missing_system_packages_are_named_with_their_command(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "geteuid", lambda: 1000)

    with pytest.raises(BootstrapError) as caught:
        bootstrap.install(["chromium", "poppler-utils"], "browser tests")

    assert str(caught.value) == (
        "for browser tests the system lacks packages; bring them with: "
        "sudo apt-get install -y --no-install-recommends chromium poppler-utils"
    )


def test_folder_that_cannot_be_written_is_named(tmp_path: Path) -> None:
    with pytest.raises(BootstrapError, match="cannot write in"), bootstrap.locked(tmp_path / "gone"):
        pass


def test_bootstrap_needs_the_standard_library_only() -> None:
    done = subprocess.run(
        [sys.executable, "-I", "-S", "-c", "import sys; sys.path.insert(0, '.'); import coachhub.bootstrap"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )

    assert (done.returncode, done.stderr) == (0, "")


def test_manage_needs_the_standard_library_only_before_the_bootstrap() -> None:
    code = "import sys; sys.path.insert(0, '.'); import manage"
    done = subprocess.run(
        [sys.executable, "-I", "-S", "-c", code], cwd=ROOT, capture_output=True, text=True, check=False
    )

    assert (done.returncode, done.stderr) == (0, "")


def test_requirements_name_no_machine_and_no_host() -> None:
    for name in (RUNTIME.requirements, DEVELOPMENT.requirements):
        text = (ROOT / name).read_text("utf-8")
        assert [word for word in ("://", "--index", "--find-links", "/tmp", "#") if word in text] == []  # noqa: S108
