"""Own activation work and its saved sets; levels in families of exercises."""

from __future__ import annotations

from django.urls import URLPattern, path

from coachhub.desk.views import levels, own_edit, own_read, own_sets

ATHLETE, SQUAD = {"kind": "athlete"}, {"kind": "squad"}

urlpatterns: list[URLPattern] = [
    path("athletes/<int:pk>/levels/", levels.levels, name="levels"),
    path("athletes/<int:pk>/levels/steps/", levels.athlete_steps, name="athlete_steps"),
    path("athletes/<int:pk>/levels/<int:exercise_pk>/step/", levels.level_step, name="level_step"),
    path("squads/<int:pk>/levels/", levels.squad_levels, name="squad_levels"),
    path("squads/<int:pk>/levels/steps/", levels.squad_steps, name="squad_steps"),
    path("athletes/<int:pk>/own/", own_read.own_athlete, name="own_athlete"),
    path("athletes/<int:pk>/own/add/", own_edit.own_add, ATHLETE, name="own_athlete_add"),
    path("athletes/<int:pk>/own/save/", own_sets.own_save, ATHLETE, name="own_athlete_save"),
    path("squads/<int:pk>/own/", own_read.own_squad, name="own_squad"),
    path("squads/<int:pk>/own/add/", own_edit.own_add, SQUAD, name="own_squad_add"),
    path("squads/<int:pk>/own/save/", own_sets.own_save, SQUAD, name="own_squad_save"),
    path("own/items/<int:pk>/", own_edit.own_item, name="own_item"),
    path("own/items/<int:pk>/move/<slug:way>/", own_edit.own_item_move, name="own_item_move"),
    path("own/items/<int:pk>/end/", own_edit.own_item_end, name="own_item_end"),
    path("own/items/<int:pk>/keep/", own_edit.own_item_keep, name="own_item_keep"),
    path("own/dose/", own_read.own_dose_check, name="own_dose_check"),
    path("own/sets/", own_sets.own_sets, name="own_sets"),
    path("own/sets/<int:pk>/", own_sets.own_set, name="own_set"),
    path("own/sets/<int:pk>/archive/", own_sets.own_set_archive, name="own_set_archive"),
]
