"""What is printed."""

from __future__ import annotations

from django.urls import URLPattern, path

from coachhub.paper.views import cards

app_name = "paper"

urlpatterns: list[URLPattern] = [
    path("assignments/<int:pk>", cards.assignment_pdf, name="assignment_pdf"),
    path("cards/<int:pk>", cards.card_pdf, name="card_pdf"),
]
