"""The page of a private calendar address: whether there is one; a new one in clear, once."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from django.http import HttpRequest
from django.urls import reverse

from coachhub.desk.pages.calendar_edit import season_url
from coachhub.people.models import Athlete, Squad
from coachhub.season.queries import live_feed


@dataclass(frozen=True, slots=True)
class FeedPage:
    """`address` is empty unless it was made just now."""

    name: str
    is_squad: bool
    made_at: datetime | None
    address: str
    back_url: str

    @classmethod
    def of(
        cls, request: HttpRequest, *, squad: Squad | None = None, athlete: Athlete | None = None, token: str = ""
    ) -> FeedPage:
        link = live_feed(squad=squad, athlete=athlete)
        back_url = season_url(squad.pk) if squad else ""
        if athlete is not None:
            back_url = reverse("desk:own_dates", kwargs={"pk": athlete.pk})
        return cls(
            name=squad.name if squad else athlete.name if athlete else "",
            is_squad=squad is not None,
            made_at=link.made_at if link else None,
            address=request.build_absolute_uri(reverse("front:feed", kwargs={"token": token})) if token else "",
            back_url=back_url,
        )
