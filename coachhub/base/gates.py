"""Access gates of views. Each view carries exactly one; a test walks the URLconf and asks for it.

Anonymous -> login (HX-Redirect in a fragment); an athlete or guardian on a staff page -> 404; a member of the
staff whose role may not -> 403. Which rows are seen is decided in the queries (`visible_to`), not here.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import wraps
from typing import Any, Concatenate, ParamSpec, cast

from django.conf import settings
from django.contrib.auth.views import redirect_to_login
from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import resolve_url

from coachhub.base.actor import STAFF, Actor, ActorKind, ActorRequest

P = ParamSpec("P")
View = Callable[Concatenate[ActorRequest, P], HttpResponse]
Gated = Callable[Concatenate[HttpRequest, P], HttpResponse]


def roles(*groups: ActorKind | Iterable[ActorKind]) -> Callable[[View[P]], Gated[P]]:
    """Let in the named kinds of actor only: `@roles(WRITERS)`, `@roles(FLOOR, ActorKind.ATHLETE)`."""
    allowed = frozenset(k for g in groups for k in ([g] if isinstance(g, ActorKind) else g))

    def gate(view: View[P]) -> Gated[P]:
        @wraps(view)
        def inner(request: HttpRequest, *args: P.args, **kwargs: P.kwargs) -> HttpResponse:
            actor: Actor = cast(ActorRequest, request).actor
            if actor.kind in allowed:
                return view(cast(ActorRequest, request), *args, **kwargs)
            if actor.is_anonymous:
                return to_login(request)
            if actor.kind in STAFF and allowed & STAFF:
                raise PermissionDenied
            raise Http404

        cast(Any, inner).access = allowed
        return cast("Gated[P]", inner)

    return gate


def open_to_all(view: View[P]) -> Gated[P]:
    """Mark a view as reachable by anyone; the view itself must show nothing of people."""
    marked = cast(Gated[P], view)
    cast(Any, marked).access = frozenset(ActorKind)
    return marked


def to_login(request: HttpRequest) -> HttpResponse:
    if request.headers.get("HX-Request") == "true":
        response = HttpResponse(status=200)
        response["HX-Redirect"] = resolve_url(settings.LOGIN_URL)
        return response
    return redirect_to_login(request.get_full_path())
