"""The columns of a table of dates, in the order in which they are written."""

from __future__ import annotations

from typing import Final

from django.db.models import TextChoices
from django.utils.translation import gettext_lazy as _

from coachhub.base.columns import Column

_WHAT: Final = _("What it is")
_WHEN: Final = _("When")
_MORE: Final = _("What else is known")


class FileKind(TextChoices):
    """What a row of a file may be; gym slots are entered by hand, since each needs a venue that the club has."""

    MATCH = "match", _("match")
    TRAINING = "training", _("training")
    HOLIDAY = "holiday", _("holiday")
    TEST = "test", _("test")
    OTHER = "other", _("other")


class FileState(TextChoices):
    """Of a date that is called off."""

    CANCELLED = "cancelled", _("called off")
    CONFIRMED = "confirmed", _("takes place")


COLUMNS: Final = (
    Column("kind", _("what"), ("kind", "type", "category"), group=_WHAT),
    Column("name", _("name"), ("summary", "subject", "title", "opponent", "against", "event"), group=_WHAT),
    Column("squad", _("squad"), ("team", "group"), group=_WHAT),
    Column("from_on", _("day"), ("date", "start date", "from", "first day"), True, _WHEN),
    Column("to_on", _("last day"), ("end date", "to", "until"), group=_WHEN),
    Column("starts_at", _("start"), ("start time", "time", "starts at", "kick-off", "throw-off"), group=_WHEN),
    Column("minutes", _("minutes"), ("duration", "length", "min"), group=_WHEN),
    Column("weekdays", _("every week on"), ("weekdays", "repeats on", "repeats"), group=_WHEN),
    Column("every_weeks", _("every … weeks"), ("every weeks", "interval"), group=_WHEN),
    Column("not_on", _("but not on"), ("except", "left out"), group=_WHEN),
    Column("place", _("place"), ("location", "venue", "where"), group=_MORE),
    Column("is_home", _("at home"), ("home", "home match"), group=_MORE),
    Column("state", _("state"), ("status",), group=_MORE),
    Column("uid", _("uid"), ("id",), group=_MORE),
)
KEYS: Final = tuple(column.key for column in COLUMNS)
# Weekdays as they stand in a cell and in iCalendar (RFC 5545, 3.3.10).
DAY_CODES: Final = ("mo", "tu", "we", "th", "fr", "sa", "su")
