"""Today, giving a session, the floor, an athlete's health and history."""

from __future__ import annotations

from django.urls import URLPattern, path

from coachhub.desk.views.cards_assign import assign, assignment, assignment_cancel, assignment_renew
from coachhub.desk.views.cards_differences import assignment_differences
from coachhub.desk.views.cards_floor import floor, floor_attendance, floor_mark, floor_round, floor_take_back
from coachhub.desk.views.cards_health import (
    athlete_health,
    pain_clear,
    red_flag_clear,
    restriction_add,
    restriction_again,
    restriction_except,
    restriction_keep,
    restriction_lift,
)
from coachhub.desk.views.cards_history import history, history_exercise, known_bests
from coachhub.desk.views.cards_today import today
from coachhub.desk.views.coming_back import return_stage
from coachhub.desk.views.quick_entry import quick_entry
from coachhub.desk.views.waiting import copies_answer, waiting

urlpatterns: list[URLPattern] = [
    path("today/", today, name="today"),
    path("waiting/", waiting, name="waiting"),
    path("waiting/copies/", copies_answer, name="copies_answer"),
    path("assign/", assign, name="assign"),
    path("assignments/<int:pk>/", assignment, name="assignment"),
    path("assignments/<int:pk>/renew/", assignment_renew, name="assignment_renew"),
    path("assignments/<int:pk>/differences/", assignment_differences, name="assignment_differences"),
    path("assignments/<int:pk>/cancel/", assignment_cancel, name="assignment_cancel"),
    path("assignments/<int:pk>/floor/", floor, name="floor"),
    path("assignments/<int:pk>/floor/round/", floor_round, name="floor_round"),
    path("assignments/<int:pk>/floor/take-back/", floor_take_back, name="floor_take_back"),
    path("assignments/<int:pk>/floor/mark/", floor_mark, name="floor_mark"),
    path("assignments/<int:pk>/floor/attendance/", floor_attendance, name="floor_attendance"),
    path("assignments/<int:pk>/cards/", quick_entry, name="quick_entry"),
    path("athletes/<int:pk>/health/", athlete_health, name="athlete_health"),
    path("athletes/<int:pk>/restrict/", restriction_add, name="restriction_add"),
    path("athletes/<int:pk>/coming-back/", return_stage, name="return_stage"),
    path("restrictions/<int:pk>/except/", restriction_except, name="restriction_except"),
    path("restrictions/<int:pk>/keep/", restriction_keep, name="restriction_keep"),
    path("restrictions/<int:pk>/lift/", restriction_lift, name="restriction_lift"),
    path("restrictions/<int:pk>/again/", restriction_again, name="restriction_again"),
    path("pain/<int:pk>/clear/", pain_clear, name="pain_clear"),
    path("red-flags/<int:pk>/clear/", red_flag_clear, name="red_flag_clear"),
    path("athletes/<int:pk>/history/", history, name="history"),
    path("athletes/<int:pk>/history/<int:exercise_pk>/", history_exercise, name="history_exercise"),
    path("athletes/<int:pk>/bests/", known_bests, name="known_bests"),
]
