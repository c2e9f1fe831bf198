"""A session as one table, notes to the coach, tables to take along."""

from __future__ import annotations

from django.urls import URLPattern, path

from coachhub.desk.views.day_table import day_table, note_read
from coachhub.desk.views.exports import day_file, history_file, squad_sets, squad_sets_file

CSV, XLSX = {"form": "csv"}, {"form": "xlsx"}

urlpatterns: list[URLPattern] = [
    path("assignments/<int:pk>/table/", day_table, name="day_table"),
    path("assignments/<int:pk>/table.csv", day_file, CSV, name="day_csv"),
    path("assignments/<int:pk>/table.xlsx", day_file, XLSX, name="day_xlsx"),
    path("notes/<int:pk>/read/", note_read, name="note_read"),
    path("squads/<int:pk>/sets/", squad_sets, name="squad_sets"),
    path("squads/<int:pk>/sets.csv", squad_sets_file, CSV, name="squad_sets_csv"),
    path("squads/<int:pk>/sets.xlsx", squad_sets_file, XLSX, name="squad_sets_xlsx"),
    path("athletes/<int:pk>/history.csv", history_file, CSV, name="history_csv"),
    path("athletes/<int:pk>/history.xlsx", history_file, XLSX, name="history_xlsx"),
]
