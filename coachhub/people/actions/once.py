"""Two that save the same at once: the database lets in one, the other is told."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.db import IntegrityError, models, transaction


def save_once(*, row: models.Model, told: str) -> None:
    """Insert; ValidationError "twice" with `told` where another request was first."""
    try:
        with transaction.atomic():
            row.save()
    except IntegrityError as error:
        raise ValidationError(told, code="twice") from error
