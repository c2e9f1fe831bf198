"""The coach's screens: one list of addresses an area."""

from __future__ import annotations

from django.urls import URLPattern

from coachhub.desk import (
    urls_calendar,
    urls_cards,
    urls_door,
    urls_insight,
    urls_library,
    urls_own,
    urls_people,
    urls_plans,
)

app_name = "desk"

urlpatterns: list[URLPattern] = [
    *urls_calendar.urlpatterns,
    *urls_cards.urlpatterns,
    *urls_door.urlpatterns,
    *urls_insight.urlpatterns,
    *urls_library.urlpatterns,
    *urls_own.urlpatterns,
    *urls_people.urlpatterns,
    *urls_plans.urlpatterns,
]
