"""Squads, athletes, staff, the club."""

from __future__ import annotations

from django.urls import URLPattern, path

from coachhub.desk.views import athletes_edit, athletes_read, club_edit, codes, squads_edit, squads_read, staff_edit

urlpatterns: list[URLPattern] = [
    path("squads/", squads_read.squads, name="squads"),
    path("squads/add/", squads_edit.squad_add, name="squad_add"),
    path("squads/<int:pk>/", squads_read.squad, name="squad"),
    path("squads/<int:pk>/edit/", squads_edit.squad_edit, name="squad_edit"),
    path("squads/<int:pk>/join/", squads_edit.squad_join, name="squad_join"),
    path("squads/<int:pk>/leave/<int:membership_pk>/", squads_edit.squad_leave, name="squad_leave"),
    path("squads/<int:pk>/codes/", codes.squad_codes, name="squad_codes"),
    path("athletes/", athletes_read.athletes, name="athletes"),
    path("athletes/add/", athletes_edit.athlete_add, name="athlete_add"),
    path("athletes/<int:pk>/", athletes_read.athlete, name="athlete"),
    path("athletes/<int:pk>/edit/", athletes_edit.athlete_edit, name="athlete_edit"),
    path("athletes/<int:pk>/archive/", athletes_edit.athlete_archive, name="athlete_archive"),
    path("athletes/<int:pk>/availability/", athletes_edit.availability, name="availability"),
    path("athletes/<int:pk>/code/", codes.athlete_code, name="athlete_code"),
    path("athletes/<int:pk>/code/revoke/", codes.code_revoke, name="code_revoke"),
    path("athletes/<int:pk>/phones/<int:device_pk>/revoke/", codes.phone_revoke, name="phone_revoke"),
    path("staff/", staff_edit.staff, name="staff"),
    path("staff/add/", staff_edit.staff_add, name="staff_add"),
    path("staff/<int:pk>/", staff_edit.staff_edit, name="staff_edit"),
    path("staff/<int:pk>/password/", staff_edit.staff_password, name="staff_password"),
    path("staff/<int:pk>/archive/", staff_edit.staff_archive, name="staff_archive"),
    path("club/", club_edit.club, name="club"),
]
