"""The rows that sheets are made of, as plain tuples."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import Any, Final, cast

from django.db.models import F, OuterRef, Subquery

from coachhub.base.statements import Statement
from coachhub.cards.models import Attendance, CardLine, CardRevision, SetEntry, SetMark
from coachhub.people.models import RedFlag

LINE: Final = (
    "pk", "revision_id", "line_key", "group_key", "label", "status", "exercise_id", "written_exercise_id",
    "written_exercise__name", "name", "cues", "measure", "load_meaning", "laterality", "spotting", "sets", "dose_kind",
    "low", "high", "per", "directions", "load_rule", "load_value", "load_unit", "load_high", "load_words", "rir_half",
    "tempo", "cue", "rest_after_s", "ramp_ups", "plates", "steps", "last", "trace",
)  # fmt: skip
ENTRY: Final = (
    "pk", "uuid", "supersedes_uuid", "seq", "kind", "card_id", "line_id", "line_key", "exercise_id", "round", "side",
    "reps", "time_s", "distance_m", "height_cm", "load_value", "load_unit", "rir_half", "note", "is_flagged",
    "received_at", "quality",
)  # fmt: skip
HEAD: Final = (
    "pk", "number", "reason", "layout", "made_at", "attendance_status",
    "card_id", "card__session_revision", "card__started_at", "card__is_behind",
    "card__athlete_id", "card__athlete__given_name", "card__athlete__family_name", "card__athlete__unit",
    "card__athlete__born_on", "card__athlete__is_rir_taught",
    "card__assignment_id", "card__assignment__on_date", "card__assignment__week",
    "card__assignment__session__name", "card__assignment__session__revision", "card__assignment__session__plan__name",
    "card__assignment__squad__name", "card__assignment__venue__name", "card__assignment__venue__is_supervised",
    "card__venue__name", "card__venue__is_supervised", "change__steps",
)  # fmt: skip

_ATTENDANCE: Final = Attendance.objects.filter(card=OuterRef("card")).order_by("-pk").values("status")[:1]
_MARK: Final = SetMark.objects.filter(entry=OuterRef("pk")).order_by("-pk").values("quality")[:1]

_HEADS: Final = Statement(
    HEAD,
    lambda cards: (
        CardRevision.objects.filter(card__in=cards, number=F("card__revision_number"))
        .annotate(attendance_status=Subquery(_ATTENDANCE))
        .order_by("card__athlete__search_key", "card")
    ),
)
_LINES: Final = Statement(
    LINE, lambda revisions: CardLine.objects.filter(revision__in=revisions).order_by("position", "pk")
)
_LINES_AT: Final = Statement(
    LINE,
    lambda card, number: CardLine.objects.filter(revision__card=card, revision__number=number).order_by(
        "position", "pk"
    ),
)
_LINES_BY_KEY: Final = Statement(
    LINE, lambda lines: CardLine.objects.filter(pk__in=lines).order_by("-revision__number", "pk")
)
_ENTRIES: Final = Statement(
    ENTRY,
    lambda cards: SetEntry.objects.filter(card__in=cards).annotate(quality=Subquery(_MARK)).order_by("pk"),
)
_FLAGS: Final = Statement(
    ("athlete_id", "kind"),
    lambda athletes: RedFlag.objects.filter(athlete__in=athletes, cleared_at=None).order_by("pk"),
)


def heads_of(card_ids: Sequence[int]) -> list[Any]:
    """Return each card's newest revision with whose it is and what for, in the order of names."""
    return _HEADS.rows(card_ids)


def lines_of(revision_ids: Sequence[int]) -> defaultdict[int, list[Any]]:
    found: defaultdict[int, list[Any]] = defaultdict(list)
    for row in _LINES.rows(revision_ids):
        found[row.revision_id].append(row)
    return found


def lines_at(card_id: int, number: int) -> list[Any]:
    """Return the lines of that revision of the card."""
    return _LINES_AT.rows(card_id, number)


def lines_behind(cards: Iterable[tuple[Sequence[Any], Sequence[SetEntry]]]) -> list[Any]:
    """Return the lines on which sets stand that were done before a swap, the newest first.

    For each card its lines as they are now, and its entries. No query where nothing was swapped.
    """
    behind = {
        entry.line_id
        for lines, entries in cards
        for now in [{line.line_key: line.exercise_id for line in lines}]
        for entry in entries
        if now.get(entry.line_key, entry.exercise_id) != entry.exercise_id
    }
    return _LINES_BY_KEY.rows(sorted(behind)) if behind else []


def entries_of(card_ids: Sequence[int]) -> defaultdict[int, list[SetEntry]]:
    """Return per card its entries, oldest first; `quality` is their newest mark."""
    found: defaultdict[int, list[SetEntry]] = defaultdict(list)
    for row in _ENTRIES.rows(card_ids):
        found[row.card_id].append(cast(SetEntry, row))
    return found


def flags_of(athlete_ids: Sequence[int]) -> defaultdict[int, list[str]]:
    found: defaultdict[int, list[str]] = defaultdict(list)
    for row in _FLAGS.rows(athlete_ids):
        found[row.athlete_id].append(row.kind)
    return found
