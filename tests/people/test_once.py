"""Whoever comes second at the same moment is told, and gets no traceback."""

from __future__ import annotations

import pytest
from django.core.exceptions import ValidationError

from coachhub.people.actions.once import save_once
from coachhub.people.models import Consent
from tests.cast import Cast
from tests.factories import ConsentFactory, days_ago


def test_second_of_two_is_told(cast: Cast) -> None:
    ConsentFactory.create(athlete=cast.athlete)
    row = Consent(athlete=cast.athlete, kind="training", given_by="Wren Reed", given_on=days_ago(1))
    with pytest.raises(ValidationError, match="on file already"):
        save_once(row=row, told="on file already")
    assert Consent.objects.count() == 1
