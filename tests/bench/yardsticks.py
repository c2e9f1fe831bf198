"""What pages are measured against, on the same server: a bare view, and one that reads a single indexed row."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.urls import include, path

from coachhub.cards.models import SetEntry
from coachhub.people.models import Athlete


def hello(request: HttpRequest) -> HttpResponse:
    return HttpResponse("hello")


def single_row(request: HttpRequest, pk: int) -> HttpResponse:
    return HttpResponse(Athlete.objects.get(pk=pk).name)


def written(request: HttpRequest) -> HttpResponse:
    """How many sets are stored, so that a tap which wrote nothing is noticed."""
    return HttpResponse(str(SetEntry.objects.count()))


urlpatterns = [
    path("bench/hello", hello),
    path("bench/row/<int:pk>", single_row),
    path("bench/written", written),
    path("", include("coachhub.urls")),
]
