"""Breaks constraints one at a time: a valid row is changed so that only one of them stands against it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import pytest
from django.apps import apps
from django.db import IntegrityError, models, transaction

Maker = Callable[[], models.Model]


@dataclass(frozen=True)
class Break:
    """`bad` spoils a valid row; `same` names the fields it takes from another one."""

    make: Maker
    bad: Mapping[str, object]
    same: tuple[str, ...] = ()


def check(make: Maker, **bad: object) -> Break:
    return Break(make, bad)


def twin(make: Maker, *same: str, **bad: object) -> Break:
    return Break(make, bad, same)


def refusal(case: Break) -> str:
    """What the database says of the spoiled row."""
    row, other = case.make(), case.make() if case.same else None
    changes = {**case.bad, **{name: getattr(other, name) for name in case.same}}
    with pytest.raises(IntegrityError) as caught, transaction.atomic():
        type(row)._default_manager.filter(pk=row.pk).update(**changes)
    return str(caught.value)


def columns_named(case: Break) -> tuple[str, str]:
    """How SQLite and PostgreSQL name the columns of a unique constraint."""
    meta = case.make()._meta
    columns = [field.column or "" for field in map(meta.get_field, case.same) if isinstance(field, models.Field)]
    return ", ".join(f"{meta.db_table}.{column}" for column in columns), f"Key ({', '.join(columns)})="


def assert_refused(name: str, case: Break) -> None:
    said = refusal(case)
    assert name in said or (case.same and any(columns in said for columns in columns_named(case)))


def promises(app: str) -> set[str]:
    """Every constraint of the app's tables by name, and every unique field as `Model.field`."""
    tables = list(apps.get_app_config(app).get_models())
    named = {constraint.name for table in tables for constraint in table._meta.constraints}
    fields = [(table, field) for table in tables for field in table._meta.local_fields]
    return named | {f"{table.__name__}.{f.name}" for table, f in fields if f.unique and not f.primary_key}
