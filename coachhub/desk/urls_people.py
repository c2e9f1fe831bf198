"""Squads, athletes, staff, the club."""

from __future__ import annotations

from django.urls import URLPattern, path

from coachhub.desk.views import (
    athletes_edit,
    athletes_read,
    club_edit,
    codes,
    consents,
    guardians,
    roster_export,
    roster_import,
    squads_edit,
    squads_read,
    staff_edit,
)
from coachhub.people.models import ImportKind

ROSTER, BESTS = {"kind": ImportKind.ROSTER}, {"kind": ImportKind.BESTS}
CSV, XLSX = {"form": "csv"}, {"form": "xlsx"}

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
    path("athletes/<int:pk>/return/", athletes_edit.athlete_return, name="athlete_return"),
    path("athletes/<int:pk>/availability/", athletes_edit.availability, name="availability"),
    path("athletes/<int:pk>/code/", codes.athlete_code, name="athlete_code"),
    path("athletes/<int:pk>/code/revoke/", codes.code_revoke, name="code_revoke"),
    path("athletes/<int:pk>/phones/<int:device_pk>/revoke/", codes.phone_revoke, name="phone_revoke"),
    path("athletes/<int:pk>/guardians/add/", guardians.guardian_add, name="guardian_add"),
    path("athletes/<int:pk>/guardians/<int:guardian_pk>/", guardians.guardian_edit, name="guardian_edit"),
    path("athletes/<int:pk>/guardians/<int:guardian_pk>/remove/", guardians.guardian_remove, name="guardian_remove"),
    path("guardians/<int:pk>/", guardians.guardian, name="guardian"),
    path("athletes/<int:pk>/consents/add/", consents.consent_give, name="consent_give"),
    path("athletes/<int:pk>/consents/<int:consent_pk>/withdraw/", consents.consent_withdraw, name="consent_withdraw"),
    path("athletes/import/", roster_import.roster_upload, ROSTER, name="roster_upload"),
    path("athletes/export.csv", roster_export.roster_export, ROSTER | CSV, name="roster_csv"),
    path("athletes/export.xlsx", roster_export.roster_export, ROSTER | XLSX, name="roster_xlsx"),
    path("athletes/bests/import/", roster_import.roster_upload, BESTS, name="bests_upload"),
    path("athletes/bests/export.csv", roster_export.roster_export, BESTS | CSV, name="bests_csv"),
    path("athletes/bests/export.xlsx", roster_export.roster_export, BESTS | XLSX, name="bests_xlsx"),
    path("athletes/imports/<int:pk>/", roster_import.roster_preview, name="roster_preview"),
    path("athletes/imports/<int:pk>/columns/", roster_import.roster_match, name="roster_match"),
    path("athletes/imports/<int:pk>/cancel/", roster_import.roster_cancel, name="roster_cancel"),
    path("staff/", staff_edit.staff, name="staff"),
    path("staff/add/", staff_edit.staff_add, name="staff_add"),
    path("staff/<int:pk>/", staff_edit.staff_edit, name="staff_edit"),
    path("staff/<int:pk>/password/", staff_edit.staff_password, name="staff_password"),
    path("staff/<int:pk>/archive/", staff_edit.staff_archive, name="staff_archive"),
    path("club/", club_edit.club, name="club"),
]
