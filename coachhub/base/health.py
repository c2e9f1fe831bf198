"""What a proxy or a watchdog asks: is the process alive, and can it reach its records?"""

from __future__ import annotations

from django.db import DatabaseError, connection
from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from coachhub.base.gates import open_to_all


@open_to_all
@require_safe
def alive(request: HttpRequest) -> HttpResponse:
    """Answers without the database."""
    return HttpResponse("ok\n", content_type="text/plain")


@open_to_all
@require_safe
def ready(request: HttpRequest) -> HttpResponse:
    """Answers 503 while the database cannot be read."""
    try:
        with connection.cursor() as cursor:
            cursor.execute("SELECT 1")
    except DatabaseError:
        return HttpResponse("database out of reach\n", status=503, content_type="text/plain")
    return HttpResponse("ok\n", content_type="text/plain")
