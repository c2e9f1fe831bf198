"""What phones open."""

from __future__ import annotations

from django.urls import URLPattern, path

from coachhub.gym.views import absence, cards, dates, end, history, hurts, logging

app_name = "gym"

urlpatterns: list[URLPattern] = [
    path("", cards.home, name="home"),
    path("cards/<int:pk>", cards.card, name="card"),
    path("cards/<int:pk>/log", logging.log, name="log"),
    path("cards/<int:pk>/hurts", hurts.hurts, name="hurts"),
    path("cards/<int:pk>/stop", hurts.red_flag, name="red_flag"),
    path("cards/<int:pk>/told/<slug:what>", hurts.told, name="told"),
    path("cards/<int:pk>/end", end.end, name="end"),
    path("absence/", absence.absence, name="absence"),
    path("absence/<int:pk>/back", absence.back, name="back"),
    path("dates/", dates.dates, name="dates"),
    path("dates/add", dates.date_add, name="date_add"),
    path("dates/address", dates.feed, name="feed"),
    path("dates/<int:pk>", dates.date_edit, name="date_edit"),
    path("dates/<int:pk>/remove", dates.date_remove, name="date_remove"),
    path("history/", history.history, name="history"),
    path("history/<int:pk>/", history.history_exercise, name="history_exercise"),
    path("cards/<int:pk>/<slug:group>/<int:number>", logging.round_page, name="round"),
]
