"""Plans, and the page on which a session is written."""

from __future__ import annotations

from django.urls import URLPattern, path

from coachhub.desk.views.plan_fit import fit_rules, plan_fit
from coachhub.desk.views.plans import plan, plan_add, plan_archive, plan_edit, plan_print, plans
from coachhub.desk.views.plans_copy import block_duplicate, plan_copy, session_copy
from coachhub.desk.views.plans_session import session_add, session_archive, session_edit, session_restore
from coachhub.desk.views.review import check_rules, plan_answer, plan_checks, session_answer
from coachhub.desk.views.review_squad import squad_answer, squad_checks
from coachhub.desk.views.runs import plan_give, run, run_cancel, run_resume
from coachhub.desk.views.writing import (
    dose_check,
    exercise_matches,
    line,
    line_add,
    line_options,
    session,
)
from coachhub.desk.views.writing_blocks import (
    block,
    block_add,
    block_move,
    part,
    part_add,
    part_move,
)
from coachhub.desk.views.writing_order import line_move, line_place
from coachhub.desk.views.writing_removal import block_remove, line_remove, part_remove, removal_undo
from coachhub.desk.views.writing_weeks import session_weeks

urlpatterns: list[URLPattern] = [
    path("plans/", plans, name="plans"),
    path("plans/add/", plan_add, name="plan_add"),
    path("plans/<int:pk>/", plan, name="plan"),
    path("plans/<int:pk>/edit/", plan_edit, name="plan_edit"),
    path("plans/<int:pk>/print/", plan_print, name="plan_print"),
    path("plans/<int:pk>/archive/", plan_archive, name="plan_archive"),
    path("plans/<int:pk>/copy/", plan_copy, name="plan_copy"),
    path("plans/<int:pk>/give/", plan_give, name="plan_give"),
    path("plans/<int:pk>/fit/", plan_fit, name="plan_fit"),
    path("squads/<int:pk>/fit-rules/", fit_rules, name="fit_rules"),
    path("plans/runs/<int:pk>/", run, name="run"),
    path("plans/runs/<int:pk>/stop/", run_cancel, name="run_cancel"),
    path("plans/runs/<int:pk>/go-on/", run_resume, name="run_resume"),
    path("plans/<int:pk>/checks/", plan_checks, name="plan_checks"),
    path("plans/<int:pk>/checks/answer/", plan_answer, name="plan_answer"),
    path("plans/<int:pk>/sessions/add/", session_add, name="session_add"),
    path("plans/sessions/<int:pk>/", session, name="session"),
    path("plans/sessions/<int:pk>/edit/", session_edit, name="session_edit"),
    path("plans/sessions/<int:pk>/checks/answer/", session_answer, name="session_answer"),
    path("plans/sessions/<int:pk>/archive/", session_archive, name="session_archive"),
    path("plans/sessions/<int:pk>/weeks/", session_weeks, name="session_weeks"),
    path("plans/sessions/<int:pk>/copy/", session_copy, name="session_copy"),
    path("plans/sessions/<int:pk>/restore/", session_restore, name="session_restore"),
    path("plans/sessions/<int:pk>/removals/<int:removal>/undo/", removal_undo, name="removal_undo"),
    path("plans/sessions/<int:pk>/parts/", part_add, name="part_add"),
    path("plans/parts/<int:pk>/", part, name="part"),
    path("plans/parts/<int:pk>/remove/", part_remove, name="part_remove"),
    path("plans/parts/<int:pk>/move/<slug:way>/", part_move, name="part_move"),
    path("plans/parts/<int:pk>/blocks/", block_add, name="block_add"),
    path("plans/blocks/<int:pk>/", block, name="block"),
    path("plans/blocks/<int:pk>/remove/", block_remove, name="block_remove"),
    path("plans/blocks/<int:pk>/duplicate/", block_duplicate, name="block_duplicate"),
    path("plans/blocks/<int:pk>/move/<slug:way>/", block_move, name="block_move"),
    path("plans/blocks/<int:pk>/lines/add/", line_add, name="line_add"),
    path("plans/blocks/<int:pk>/dose/", dose_check, name="dose_check"),
    path("plans/blocks/<int:pk>/options/", line_options, name="line_options"),
    path("plans/lines/<int:pk>/", line, name="line"),
    path("plans/lines/<int:pk>/remove/", line_remove, name="line_remove"),
    path("plans/lines/<int:pk>/move/<slug:way>/", line_move, name="line_move"),
    path("plans/lines/<int:pk>/place/", line_place, name="line_place"),
    path("checks/", check_rules, name="check_rules"),
    path("squads/<int:pk>/checks/", squad_checks, name="squad_checks"),
    path("squads/<int:pk>/checks/answer/", squad_answer, name="squad_answer"),
    path("plans/exercises/", exercise_matches, name="exercise_matches"),
]
