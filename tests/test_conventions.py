"""The house's habits that can be checked; DEVELOPERS.md tells why each is one."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from django.apps import apps
from django.db import models

ROOT = Path(__file__).resolve().parent.parent
APP = ROOT / "coachhub"
CODE = sorted(path for path in APP.rglob("*.py") if "migrations" not in path.parts)
TESTS = sorted((ROOT / "tests").rglob("*.py"))
TEMPLATES = sorted((ROOT / "templates").rglob("*.html"))
VIEWS = [path for path in CODE if "views" in path.parts or path.name == "views.py"]
ACTIONS = [path for path in CODE if path.stem.startswith("actions") or "actions" in path.parts]

Function = ast.FunctionDef | ast.AsyncFunctionDef


def name_of(path: Path) -> str:
    return str(path.relative_to(ROOT))


def functions(path: Path) -> Iterator[Function]:
    tree = ast.parse(path.read_text("utf-8"))
    return (node for node in ast.walk(tree) if isinstance(node, Function))


def public_functions(path: Path) -> Iterator[Function]:
    tree = ast.parse(path.read_text("utf-8"))
    return (node for node in tree.body if isinstance(node, Function) and not node.name.startswith("_"))


def length(node: Function) -> int:
    return (node.end_lineno or node.lineno) - node.lineno + 1


def too_long(paths: list[Path], limit: int) -> list[str]:
    return [f"{name_of(path)}: {lines}" for path in paths if (lines := path.read_text("utf-8").count("\n")) > limit]


def long_functions(paths: list[Path], limit: int) -> list[str]:
    found = [(path, node) for path in paths for node in functions(path) if length(node) > limit]
    return [f"{name_of(path)} {node.name}: {length(node)}" for path, node in found]


def lines_with(pattern: str, paths: list[Path]) -> list[str]:
    return [
        f"{name_of(path)}:{number}: {line.strip()}"
        for path in paths
        for number, line in enumerate(path.read_text("utf-8").splitlines(), 1)
        if re.search(pattern, line)
    ]


def own_fields() -> list[tuple[str, models.Field[object, object]]]:
    own = [model for model in apps.get_models() if model.__module__.startswith("coachhub.")]
    return [
        (f"{model.__name__}.{field.name}", field)
        for model in own
        for field in model._meta.local_fields
        if not any(field.name in (f.name for f in base._meta.local_fields) for base in abstract_parents(model))
    ]


def abstract_parents(model: type[models.Model]) -> list[type[models.Model]]:
    """Parents from outside the project, whose names are not ours to choose."""
    return [
        base for base in model.__mro__[1:] if hasattr(base, "_meta") and not base.__module__.startswith("coachhub.")
    ]


def test_files_keep_to_their_size() -> None:
    assert too_long(CODE + TESTS, 300) == []
    assert too_long(TEMPLATES, 120) == []


def test_functions_keep_to_their_size() -> None:
    assert long_functions(CODE, 40) == []
    assert long_functions(VIEWS, 30) == []
    assert long_functions([path for path in TESTS if path.name.startswith("test_")], 30) == []


def test_views_write_nothing_themselves() -> None:
    writing = r"\.(a?save|a?create|a?update|a?delete|get_or_create|update_or_create|bulk_create|bulk_update)\("

    assert lines_with(writing, VIEWS) == []


def is_verb(node: Function) -> bool:
    """A function that opens a transaction; helpers run inside one."""
    blocks = [item.context_expr for n in ast.walk(node) if isinstance(n, ast.With) for item in n.items]
    openings = [*node.decorator_list, *blocks]
    return any("atomic" in ast.unparse(opening) for opening in openings)


def test_verbs_take_keywords_only() -> None:
    positional = [
        f"{name_of(path)} {node.name}"
        for path in ACTIONS
        for node in public_functions(path)
        if is_verb(node) and (node.args.args or node.args.posonlyargs)
    ]

    assert positional == []


def test_formulas_name_their_source() -> None:
    paths = sorted((APP / "science").rglob("*.py"))
    silent = [
        f"{name_of(path)} {node.name}"
        for path in paths
        for node in public_functions(path)
        if "Source" not in (ast.get_docstring(node) or "")
    ]

    assert silent == []


def test_the_day_comes_from_one_clock() -> None:
    paths = [path for path in CODE if path != APP / "base" / "clock.py"]

    assert lines_with(r"date\.today\(|localdate\(|datetime\.now\(|\.now\(\)\.date\(", paths) == []


def test_nothing_happens_by_signal() -> None:
    assert lines_with(r"\breceiver\(|\b(pre|post)_(save|delete)\b|m2m_changed", CODE) == []


def test_nothing_is_left_half_done() -> None:
    words = ["TO" + "DO", "FIX" + "ME", "NotImplemented" + "Error", "XX" + "X"]
    scripts = sorted(path for path in (ROOT / "static").rglob("*.*s") if "vendor" not in path.parts)
    documents = sorted(ROOT.glob("*.md"))

    assert lines_with(rf"\b({'|'.join(words)})\b", [*CODE, *TESTS, *TEMPLATES, *scripts, *documents]) == []


def test_pages_carry_no_inline_script_style_or_handler() -> None:
    """The Content-Security-Policy would refuse them. A document for print is no page."""
    pages = [path for path in TEMPLATES if "paper" not in path.parts]
    scripts = r"<script(?![^>]*\bsrc=)|javascript:"
    styles = r"<style\b|\sstyle\s*="
    handlers = r"\son[a-z]+\s*=|\shx-on|\shx-vals\s*=\s*[\"']js:"

    assert lines_with(f"(?i){scripts}|{styles}|{handlers}", pages) == []


def test_pages_load_nothing_from_elsewhere() -> None:
    assert lines_with(r"""(src|href|action)\s*=\s*["'](https?:)?//""", TEMPLATES) == []


def test_forms_carry_the_token_against_forgery() -> None:
    def forms(path: Path) -> list[str]:
        return re.findall(r"(?is)<form\b[^>]*method=.?post.*?</form>", path.read_text("utf-8"))

    bare = [name_of(path) for path in TEMPLATES for form in forms(path) if "csrf_token" not in form]

    assert bare == []


@pytest.mark.parametrize(
    ("kind", "pattern"),
    [
        (models.DateTimeField, r"_at$"),
        (models.DateField, r"_on$|^on_date$"),
        (models.BooleanField, r"^(is|has|may|needs)_|^not_"),
    ],
)
def test_fields_are_named_by_what_they_hold(kind: type[models.Field[object, object]], pattern: str) -> None:
    misnamed = [name for name, field in own_fields() if type(field) is kind and not re.search(pattern, field.name)]

    assert misnamed == []


def test_codes_are_held_by_the_database() -> None:
    """Each field with named codes has a check constraint that speaks of it."""
    unchecked = [
        name
        for name, field in own_fields()
        if field.choices and not any(field.name in str(check) for check in checks_of(field.model))
    ]

    assert unchecked == []


def checks_of(model: type[models.Model]) -> list[models.Q]:
    found = (c.condition for c in model._meta.constraints if isinstance(c, models.CheckConstraint))
    return [condition for condition in found if isinstance(condition, models.Q)]
