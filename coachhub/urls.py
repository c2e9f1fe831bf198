"""Every address: each audience has its own list."""

from __future__ import annotations

from django.urls import include, path

from coachhub.base import health

urlpatterns = [
    path("healthz", health.alive, name="healthz"),
    path("readyz", health.ready, name="readyz"),
    path("", include("coachhub.front.account_urls")),
    path("", include("coachhub.front.urls")),
    path("", include("coachhub.desk.urls")),
    path("g/", include("coachhub.gym.urls")),
    path("print/", include("coachhub.paper.urls")),
]
