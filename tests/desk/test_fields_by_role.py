"""Each field of an athlete against each role: every address that lets the role in is opened, and read for the field.

The table in DEVELOPERS.md says the same. PDFs are read in `tests/paper/test_privacy.py`.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from typing import Any, Final

import pytest
from django.db import transaction
from django.urls import reverse

from tests.access import whole_table
from tests.access.gym import a_card
from tests.cast import Cast, Role
from tests.factories import (
    AvailabilityFactory,
    ConsentFactory,
    GuardianshipFactory,
    KnownBestFactory,
    PainReportFactory,
    RedFlagFactory,
    RestrictionFactory,
    ReturnStageFactory,
    SetEntryFactory,
    days_ago,
)

TABLE = whole_table()
# Who reads a field, by the first letters: owner, coach, assistant, clinician, head coach, athlete (self).
LETTERS: Final = {
    "o": Role.OWNER,
    "c": Role.COACH,
    "a": Role.ASSISTANT,
    "k": Role.CLINICIAN,
    "h": Role.HEAD_COACH,
    "s": Role.ATHLETE,
}
# field -> (how it would read on a page, who may read it)
FIELDS: Final[dict[str, tuple[str, str]]] = {
    "name": ("Ingrid Moss", "ocakhs"),
    "date of birth": ("14 March 2001", "ocak"),
    "position": ("left back of the club", "ocakh"),
    "level": ("<dd>advanced</dd>", "ocak"),
    "private note": ("sleeps badly since spring", "ock"),
    "health alert": ("asthma: blue inhaler", "ocak"),
    "emergency contact": ("Bo Moss 01632 960123", "ocak"),
    "guardian": ("Sorrel Moss", "ocak"),
    "guardian's phone": ("tel:01632960777", "ocak"),
    "guardian's e-mail": ("sorrel@moss.example", "ock"),
    "consent": ("Consent Signer", "ocak"),
    "restriction: what": ("left lower leg", "ock"),
    "restriction: can do instead": ("rowing in place of running", "ocaks"),
    "restriction: diagnosis": ("stress reaction of the shin", "ock"),
    "restriction: on whose word": ("Dr Thistle", "ock"),
    "return stage: on whose word": ("Physio Larch", "ock"),
    "pain: where and how much": ("right elbow, 7 of 10", "ocak"),
    "pain: note": ("stings at night", "ock"),
    "red flag": ("Ingrid Moss: fainted or nearly", "ocak"),
    "red flag: note": ("fell on the stairs", "ock"),
    "availability": ("state care", "ocakh"),
    "availability: can do": ("bench work for a week", "ocakh"),
    "card": ("61.5", "ocaks"),
    "card: why a line changed": ("right foot", "ocas"),
    "set": ("67.5", "ocaks"),
    "known best": ("83.25", "ocak"),
}


@pytest.fixture
def known(cast: Cast) -> Cast:
    """An athlete of whom everything that can be written down is written down."""
    athlete = cast.athlete
    athlete.born_on, athlete.position, athlete.level = date(2001, 3, 14), "left back of the club", "advanced"
    athlete.note, athlete.health_alert = "sleeps badly since spring", "asthma: blue inhaler"
    athlete.emergency_contact = "Bo Moss 01632 960123"
    athlete.save()
    reach = {"guardian__phone": "01632 960777", "guardian__email": "sorrel@moss.example"}
    GuardianshipFactory.create(athlete=athlete, guardian__name="Sorrel Moss", **reach)
    for kind in ("data", "phone"):
        ConsentFactory.create(athlete=athlete, kind=kind, given_by="Consent Signer")
    AvailabilityFactory.create(athlete=athlete, can_do="bench work for a week")
    write_health(cast)
    write_training(cast)
    return cast


def write_health(cast: Cast) -> None:
    told = {"on_word_of": "Dr Thistle", "can_do": "rowing in place of running", "review_on": days_ago(1)}
    RestrictionFactory.create(
        athlete=cast.athlete, region="lower_leg", side="left", diagnosis="stress reaction of the shin", **told
    )
    ReturnStageFactory.create(athlete=cast.athlete, on_word_of="Physio Larch")
    PainReportFactory.create(athlete=cast.athlete, region="elbow", side="right", score=7, note="stings at night")
    RedFlagFactory.create(athlete=cast.athlete, kind="faint", note="fell on the stairs")


def write_training(cast: Cast) -> None:
    load: dict[str, Any] = {"load_unit": "kg", "load_rule": "fixed", "load_value": Decimal("61.5")}
    why = {"restriction": "1", "kind": "region", "region": "foot", "side": "right", "pattern": ""}
    trace = [{"code": "restricted", "params": why, "entries": []}]
    type(cast.line).objects.filter(pk=cast.line.pk).update(**load, trace=trace)
    a_card(cast)
    done = {"load_value": Decimal("67.5"), "load_unit": "kg", "load_kg": Decimal("67.5")}
    SetEntryFactory.create(line=cast.line, reps=6, **done)
    KnownBestFactory.create(athlete=cast.athlete, exercise=cast.exercise, load_value=Decimal("83.25"))


def all_that_is_read(cast: Cast, role: Role) -> Iterator[str]:
    """The text of every address that answers this role: pages, fragments, tables as files; not PDF."""
    client = cast.client_of(role)
    for name in sorted(TABLE):
        if name.endswith(("_pdf", "_xlsx")):
            continue
        with transaction.atomic():
            answer: Any = client.get(reverse(name, kwargs=TABLE[name].args(cast)))
            if answer.status_code == 200:
                yield (b"".join(answer) if answer.streaming else answer.content).decode("utf-8", "replace")
            transaction.set_rollback(True)


def read(cast: Cast, role: Role) -> set[str]:
    text = "\n".join(all_that_is_read(cast, role))
    return {field for field, (words, _who) in FIELDS.items() if words in text}


@pytest.mark.parametrize(("letter", "role"), LETTERS.items())
def test_role_reads_these_fields_and_no_other(known: Cast, letter: str, role: Role) -> None:
    expected = {field for field, (_words, who) in FIELDS.items() if letter in who}
    assert read(known, role) == expected


@pytest.mark.parametrize("role", [Role.OTHER_COACH, Role.TEAM_MATE, Role.GUARDIAN, Role.OUTSIDER, Role.ANONYMOUS])
def test_nobody_else_reads_anything(known: Cast, role: Role) -> None:
    assert read(known, role) - {"availability"} == set()
