"""The library and the venues."""

from __future__ import annotations

from django.urls import URLPattern, path

from coachhub.desk.views.library_edit import exercise_add, exercise_edit
from coachhub.desk.views.library_exercise import exercise
from coachhub.desk.views.library_keep import exercise_archive, exercise_newer, exercise_restore
from coachhub.desk.views.library_list import library
from coachhub.desk.views.library_media import exercise_file, exercise_file_remove, exercise_link, exercise_media
from coachhub.desk.views.venues_edit import venue_add, venue_archive, venue_edit, venue_restore
from coachhub.desk.views.venues_read import venue, venues
from coachhub.desk.views.venues_stock import venue_series, venue_stock

urlpatterns: list[URLPattern] = [
    path("library/", library, name="library"),
    path("library/add/", exercise_add, name="exercise_add"),
    path("library/<int:pk>/", exercise, name="exercise"),
    path("library/<int:pk>/edit/", exercise_edit, name="exercise_edit"),
    path("library/<int:pk>/archive/", exercise_archive, name="exercise_archive"),
    path("library/<int:pk>/restore/", exercise_restore, name="exercise_restore"),
    path("library/<int:pk>/newer/", exercise_newer, name="exercise_newer"),
    path("library/<int:pk>/media/", exercise_media, name="exercise_media"),
    path("library/<int:pk>/link/", exercise_link, name="exercise_link"),
    path("library/files/<int:pk>/", exercise_file, name="exercise_file"),
    path("library/files/<int:pk>/remove/", exercise_file_remove, name="exercise_file_remove"),
    path("venues/", venues, name="venues"),
    path("venues/add/", venue_add, name="venue_add"),
    path("venues/<int:pk>/", venue, name="venue"),
    path("venues/<int:pk>/edit/", venue_edit, name="venue_edit"),
    path("venues/<int:pk>/archive/", venue_archive, name="venue_archive"),
    path("venues/<int:pk>/restore/", venue_restore, name="venue_restore"),
    path("venues/<int:pk>/stock/", venue_stock, name="venue_stock"),
    path("venues/<int:pk>/series/", venue_series, name="venue_series"),
]
