"""What every page of the club has at its top."""

from __future__ import annotations

from dataclasses import dataclass
from typing import cast

from django.http import HttpRequest
from django.urls import resolve, reverse
from django.utils.functional import Promise, SimpleLazyObject
from django.utils.translation import gettext_lazy as _

from coachhub.base.actor import Actor
from coachhub.people.middleware import ClubRequest

# In the order of a coach's day.
ENTRIES: tuple[tuple[str, str | Promise], ...] = (
    ("desk:today", _("Today")),
    ("desk:waiting", _("Waiting")),
    ("desk:season", _("Calendar")),
    ("desk:plans", _("Plans")),
    ("desk:squads", _("Squads")),
    ("desk:athletes", _("Athletes")),
    ("desk:library", _("Library")),
    ("desk:venues", _("Venues")),
    ("desk:staff", _("Staff")),
    ("desk:club", _("Club")),
)


@dataclass(frozen=True, slots=True)
class NavItem:
    label: str | Promise
    url: str
    is_current: bool


def club_and_nav(request: HttpRequest) -> dict[str, object]:
    """`club` and `nav`, each looked up only by a template that shows it."""
    if not hasattr(request, "club"):  # an error from before the middleware ran
        return {}
    asked = cast(ClubRequest, request)
    return {"club": asked.club, "nav": SimpleLazyObject(lambda: nav_for(asked.actor, asked.path))}


def nav_for(actor: Actor, path: str) -> list[NavItem]:
    """What this member of the staff may open: the gate of each page decides, so nothing here leads to a refusal."""
    if not actor.is_staff:
        return []
    items = []
    for name, label in ENTRIES:
        url = reverse(name)
        if actor.kind in getattr(resolve(url).func, "access", ()):
            items.append(NavItem(label, url, is_current=path.startswith(url)))
    return items
