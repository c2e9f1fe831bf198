"""The coach's screens: one list of addresses an area."""

from __future__ import annotations

from django.urls import URLPattern

from coachhub.desk import urls_library

app_name = "desk"

urlpatterns: list[URLPattern] = [
    *urls_library.urlpatterns,
]
