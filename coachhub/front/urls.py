from __future__ import annotations

from django.urls import URLPattern, path

from coachhub.front.views import enrol, feed, home

app_name = "front"

urlpatterns: list[URLPattern] = [
    path("", home.home, name="home"),
    path("enrol/", enrol.enrol, name="enrol"),
    path("enrol/phone/", enrol.enrol_phone, name="enrol_phone"),
    path("e/<str:token>", enrol.enrol_link, name="enrol_link"),
    path("feed/<str:token>.ics", feed.feed, name="feed"),
]
