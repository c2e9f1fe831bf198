"""The calendar: matches, trainings, gym slots, holidays, tests; what athletes have besides; private addresses."""

from __future__ import annotations

from django.urls import URLPattern, path

from coachhub.desk.views import (
    calendar_absences,
    calendar_dates,
    calendar_feed,
    calendar_matches,
    calendar_phases,
    calendar_season,
    match_extra,
    roster_export,
    roster_import,
)
from coachhub.people.models import ImportKind

DATES = {"kind": ImportKind.SEASON}
SLOT, HAPPENING = {"area": "slot"}, {"area": "happening"}

urlpatterns: list[URLPattern] = [
    path("season/", calendar_season.season, name="season"),
    path("season/matches/add/", calendar_matches.match_add, name="match_add"),
    path("season/matches/<int:pk>/", calendar_season.match, name="match"),
    path("season/matches/<int:pk>/edit/", calendar_matches.match_edit, name="match_edit"),
    path("season/matches/<int:pk>/minutes/", calendar_matches.match_minutes, name="match_minutes"),
    path("season/matches/<int:pk>/extra/", match_extra.match_extra, name="match_extra"),
    path("season/matches/<int:pk>/off/", calendar_matches.match_off, name="match_off"),
    path("season/matches/<int:pk>/again/", calendar_matches.match_again, name="match_again"),
    path("season/dates/add/", calendar_dates.happening_add, name="happening_add"),
    path("season/dates/<int:pk>/<slug:on>/", calendar_season.dated, HAPPENING, name="happening"),
    path("season/dates/<int:pk>/<slug:on>/off/", calendar_dates.date_off, HAPPENING, name="happening_off"),
    path(
        "season/dates/<int:pk>/<slug:on>/<slug:scope>/", calendar_dates.date_change, HAPPENING, name="happening_change"
    ),
    path("season/slots/add/", calendar_dates.slot_add, name="slot_add"),
    path("season/slots/<int:pk>/<slug:on>/", calendar_season.dated, SLOT, name="slot"),
    path("season/slots/<int:pk>/<slug:on>/off/", calendar_dates.date_off, SLOT, name="slot_off"),
    path("season/slots/<int:pk>/<slug:on>/<slug:scope>/", calendar_dates.date_change, SLOT, name="slot_change"),
    path("season/import/", roster_import.roster_upload, DATES, name="season_upload"),
    path("season/export.csv", roster_export.roster_export, DATES | {"form": "csv"}, name="season_csv"),
    path("season/export.xlsx", roster_export.roster_export, DATES | {"form": "xlsx"}, name="season_xlsx"),
    path("squads/<int:pk>/absences/", calendar_absences.absences, name="absences"),
    path("squads/<int:pk>/absences/add/", calendar_absences.absence_add, name="absence_add"),
    path("squads/<int:pk>/absences/<int:absence_pk>/end/", calendar_absences.absence_end, name="absence_end"),
    path("squads/<int:pk>/phases/", calendar_phases.phases, name="phases"),
    path("squads/<int:pk>/phases/add/", calendar_phases.phase_edit, name="phase_add"),
    path("squads/<int:pk>/phases/<int:phase_pk>/", calendar_phases.phase_edit, name="phase_edit"),
    path("squads/<int:pk>/phases/<int:phase_pk>/remove/", calendar_phases.phase_remove, name="phase_remove"),
    path("squads/<int:pk>/calendar-address/", calendar_feed.squad_feed, name="squad_feed"),
    path("athletes/<int:pk>/dates/", calendar_feed.own_dates, name="own_dates"),
    path("athletes/<int:pk>/dates/add/", calendar_dates.own_date_add, name="own_date_add"),
    path("athletes/<int:pk>/calendar-address/", calendar_feed.athlete_feed, name="athlete_feed"),
]
