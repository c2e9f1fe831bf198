"""A calendar as lines for a spreadsheet: the same columns that an import reads."""

from __future__ import annotations

from coachhub.base.actor import Actor
from coachhub.people.models import Squad
from coachhub.people.queries import live_squads
from coachhub.season.files.changes import words
from coachhub.season.files.columns import COLUMNS, DAY_CODES, FileKind
from coachhub.season.models import Happening, MatchDay


def date_lines(actor: Actor, squad: Squad | None) -> list[list[str]]:
    """Header first; matches and other dates by day, of one squad or all that the actor sees."""
    squads = [squad] if squad else list(live_squads(actor))
    matches = MatchDay.objects.visible_to(actor).filter(squad__in=squads).select_related("squad")
    rows = Happening.objects.visible_to(actor).filter(squad__in=squads).select_related("squad")
    cells = [*(_match(row) for row in matches), *(_happening(row) for row in rows.prefetch_related("skipped_days"))]
    header = [str(column.label) for column in COLUMNS]
    cells.sort(key=lambda line: (line["from_on"], line["starts_at"]))
    return [header, *([line.get(column.key, "") for column in COLUMNS] for line in cells)]


def _match(row: MatchDay) -> dict[str, str]:
    return {
        "kind": FileKind.MATCH.value,
        "name": row.opponent,
        "squad": row.squad.name,
        "from_on": words("from_on", row.on_date),
        "starts_at": words("starts_at", row.starts_at),
        "is_home": "yes" if row.is_home else "no",
        "state": "cancelled" if row.cancelled_at else "",
        "uid": row.uid,
    }


def _happening(row: Happening) -> dict[str, str]:
    keys = ("name", "place", "from_on", "to_on", "starts_at", "minutes")
    return {key: words(key, getattr(row, key)) for key in keys} | {
        "kind": row.kind,
        "squad": row.squad.name if row.squad else "",
        "weekdays": " ".join(DAY_CODES[day] for day in sorted(row.weekday_set)),
        "every_weeks": str(row.every_weeks) if row.every_weeks > 1 else "",
        "not_on": " ".join(skipped.on_date.isoformat() for skipped in row.skipped_days.all()),
        "state": "cancelled" if row.cancelled_at else "",
        "uid": row.uid,
    }
