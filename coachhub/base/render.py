"""One URL, two shapes: the full page, or its named partial for htmx."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.cache import patch_vary_headers


def is_fragment(request: HttpRequest) -> bool:
    """True for a request that htmx made for a part of a page (a boosted or restored one wants the whole)."""
    headers = request.headers
    return (
        headers.get("HX-Request") == "true"
        and "HX-Boosted" not in headers
        and "HX-History-Restore-Request" not in headers
    )


def render_page(
    request: HttpRequest, template: str, page: object, *, partial: str = "", status: int = 200, **extra: Any
) -> HttpResponse:
    """Render `template` with the one typed object `page`; for a fragment only its partial `partial`.

    `page` is the audience's page object; `extra` holds a form where there is one.
    """
    name = f"{template}#{partial}" if partial and is_fragment(request) else template
    response = render(request, name, {"page": page, **extra}, status=status)
    patch_vary_headers(response, ["HX-Request"])
    return response
