"""A statement gives what its queryset gives, whatever the values, in one query."""

from __future__ import annotations

from decimal import Decimal

import pytest
from django.db.models import Q
from pytest_django import DjangoAssertNumQueries

from coachhub.base.statements import Statement
from coachhub.cards.models import CardLine, SetEntry
from coachhub.people.models import Athlete
from tests.factories import AthleteFactory, CardLineFactory, SetEntryFactory

pytestmark = pytest.mark.django_db

NAMES = Statement(("pk", "given_name"), lambda ids: Athlete.objects.filter(pk__in=ids).order_by("pk"))
BORN_OR_CALLED = Statement(
    ("given_name",),
    lambda name, pk: Athlete.objects.filter(Q(given_name=name) | Q(pk=pk), level="novice").order_by("pk"),
)


def test_rows_are_those_of_the_values_given_each_time() -> None:
    anna, berit, cleo = (AthleteFactory.create(given_name=name).pk for name in ("Anna", "Berit", "Cleo"))
    asked = [NAMES.rows([anna, cleo]), NAMES.rows([berit, anna]), NAMES.rows([cleo]), NAMES.rows([])]
    assert [[row.given_name for row in rows] for rows in asked] == [["Anna", "Cleo"], ["Anna", "Berit"], ["Cleo"], []]


def test_values_keep_their_places_and_constants_their_own() -> None:
    AthleteFactory.create(given_name="Anna", level="advanced")
    berit, cleo = AthleteFactory.create(given_name="Berit"), AthleteFactory.create(given_name="Cleo")
    asked = [BORN_OR_CALLED.rows("Anna", cleo.pk), BORN_OR_CALLED.rows("Cleo", berit.pk)]
    assert [[row.given_name for row in rows] for rows in asked] == [["Cleo"], ["Berit", "Cleo"]]


def test_texts_come_in_lists_too() -> None:
    called = Statement(("pk",), lambda names: Athlete.objects.filter(given_name__in=names).order_by("pk"))
    anna, berit = AthleteFactory.create(given_name="Anna"), AthleteFactory.create(given_name="Berit")
    asked = [called.rows(["Anna", "Berit"]), called.rows(["Cleo", "Anna"]), called.rows(["Berit"])]
    assert [[row.pk for row in rows] for rows in asked] == [[anna.pk, berit.pk], [anna.pk], [berit.pk]]


def test_columns_become_what_the_model_would_hold() -> None:
    line = CardLineFactory.create(cues=[["", "Tall"]], load_value=Decimal("62.5"), load_unit="kg", last={"reps": 5})
    names = ("pk", "cues", "load_value", "last", "revision__card__assignment__on_date", "written_exercise__name")
    (row,) = Statement(names, lambda pk: CardLine.objects.filter(pk=pk)).rows(line.pk)
    (same,) = CardLine.objects.filter(pk=line.pk).values_list(*names)
    assert (tuple(row), row.cues, row.load_value) == (same, [["", "Tall"]], Decimal("62.5"))


def test_uuids_and_instants_become_what_the_model_would_hold() -> None:
    entry = SetEntryFactory.create()
    (row,) = Statement(("uuid", "received_at"), lambda pk: SetEntry.objects.filter(pk=pk)).rows(entry.pk)
    assert (row.uuid, row.received_at) == (entry.uuid, entry.received_at)


def test_asking_is_one_query(django_assert_num_queries: DjangoAssertNumQueries) -> None:
    pk = AthleteFactory.create().pk
    with django_assert_num_queries(2):
        NAMES.rows([pk])
        NAMES.rows([pk])


def test_value_that_never_reaches_the_database_is_refused() -> None:
    deaf = Statement(("pk",), lambda _pk: Athlete.objects.order_by("pk"))
    with pytest.raises(ValueError, match="not every value"):
        deaf.rows(1)
