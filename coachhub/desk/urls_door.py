"""At the door of the gym: the session changed on the spot, a guest, late, partners."""

from __future__ import annotations

from django.urls import URLPattern, path

from coachhub.desk.views.door import door, door_change, door_undo
from coachhub.desk.views.door_partners import partners, wish_add, wish_end
from coachhub.desk.views.door_people import floor_guest, floor_late

urlpatterns: list[URLPattern] = [
    path("assignments/<int:pk>/door/", door, name="door"),
    path("assignments/<int:pk>/door/change/", door_change, name="door_change"),
    path("assignments/<int:pk>/door/undo/", door_undo, name="door_undo"),
    path("assignments/<int:pk>/floor/guest/", floor_guest, name="floor_guest"),
    path("assignments/<int:pk>/floor/late/", floor_late, name="floor_late"),
    path("assignments/<int:pk>/partners/", partners, name="partners"),
    path("assignments/<int:pk>/partners/wish/", wish_add, name="wish_add"),
    path("assignments/<int:pk>/partners/wish/<int:wish_pk>/end/", wish_end, name="wish_end"),
]
