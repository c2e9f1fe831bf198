from __future__ import annotations

from typing import Final

from django.http import Http404, HttpResponse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe

from coachhub.base.actor import WRITERS, ActorRequest
from coachhub.base.clock import today
from coachhub.base.gates import roles
from coachhub.base.tables import csv_bytes, xlsx_bytes
from coachhub.desk.pages.roster_kinds import SORTS
from coachhub.people.models import ImportKind
from coachhub.people.queries import live_squads

_TYPES: Final = {
    "csv": "text/csv; charset=utf-8",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}


@roles(WRITERS)
@require_safe
@never_cache
def roster_export(request: ActorRequest, kind: ImportKind, form: str) -> HttpResponse:
    """The same columns that an import reads; `?squad=` narrows it to one squad."""
    sort, chosen = SORTS[kind], request.GET.get("squad", "")
    squad = next((row for row in live_squads(request.actor) if str(row.pk) == chosen), None) if chosen else None
    if chosen and squad is None:
        raise Http404
    lines = sort.lines(request.actor, squad)
    content = csv_bytes(lines) if form == "csv" else xlsx_bytes(lines, sort.file_name)
    response = HttpResponse(content, content_type=_TYPES[form])
    response["Content-Disposition"] = f'attachment; filename="{sort.file_name}-{today().isoformat()}.{form}"'
    return response
