"""Today, giving a session, the floor, health and history."""

from __future__ import annotations

from tests.access import Row
from tests.cast import Cast
from tests.factories import PainReportFactory, RedFlagFactory, RestrictionFactory

#        anonymous owner coach other-coach assistant clinician head-coach athlete team-mate guardian outsider
STAFF = "login 200 200 200 200 200 200 404 404 login login"
STAFF_POST = "login 405 405 405 405 405 405 404 404 login login"
READ = "login 200 200 404 200 200 403 404 404 login login"
READ_POST = "login 405 405 405 405 405 403 404 404 login login"
WRITE = "login 200 200 404 403 403 403 404 404 login login"
HEALTH = "login 200 200 404 403 200 403 404 404 login login"
HEALTH_POST = "login 405 405 405 403 405 403 404 404 login login"
HEALTH_BAD = "login 422 422 404 403 422 403 404 404 login login"
HEALTH_GONE = "login 302 302 404 403 302 403 404 404 login login"
WRITE_ONLY_POST = "login 405 405 405 403 403 403 404 404 login login"
LOG = "login 200 200 404 200 403 403 404 404 login login"
LOG_BAD = "login 422 422 404 422 403 403 404 404 login login"
FLOOR_ONLY_POST = "login 405 405 405 405 403 403 404 404 login login"
FLOOR_NOTHING = "login 404 404 404 404 403 403 404 404 login login"


def assignment(cast: Cast) -> dict[str, object]:
    assert cast.line.pk
    return {"pk": cast.assignment.pk}


def athlete(cast: Cast) -> dict[str, object]:
    return {"pk": cast.athlete.pk}


def restriction(cast: Cast) -> dict[str, object]:
    return {"pk": RestrictionFactory.create(athlete=cast.athlete).pk}


def pain(cast: Cast) -> dict[str, object]:
    return {"pk": PainReportFactory.create(athlete=cast.athlete).pk}


def flag(cast: Cast) -> dict[str, object]:
    return {"pk": RedFlagFactory.create(athlete=cast.athlete).pk}


def exercise(cast: Cast) -> dict[str, object]:
    return {"pk": cast.athlete.pk, "exercise_pk": cast.exercise.pk}


TABLE = {
    "desk:today": Row(get=STAFF, post=STAFF_POST, htmx=STAFF),
    "desk:waiting": Row(
        get="login 200 200 200 403 200 403 404 404 login login",
        post="login 405 405 405 403 405 403 404 404 login login",
        htmx="login 200 200 200 403 200 403 404 404 login login",
    ),
    "desk:copies_answer": Row(
        get="login 405 405 405 405 405 403 404 404 login login",
        post="login 302 302 302 302 302 403 404 404 login login",
        htmx="login 405 405 405 405 405 403 404 404 login login",
    ),
    "desk:assign": Row(
        get="login 200 200 200 403 403 403 404 404 login login",
        post="login 422 422 422 403 403 403 404 404 login login",
        htmx="login 200 200 200 403 403 403 404 404 login login",
    ),
    "desk:assignment": Row(get=READ, post=READ_POST, htmx=READ, args=assignment),
    "desk:assignment_differences": Row(get=READ, post=READ_POST, htmx=READ, args=assignment),
    "desk:assignment_renew": Row(
        get=WRITE_ONLY_POST,
        post="login 302 302 404 403 403 403 404 404 login login",
        htmx=WRITE_ONLY_POST,
        args=assignment,
    ),
    "desk:assignment_cancel": Row(
        get=WRITE, post="login 302 302 404 403 403 403 404 404 login login", htmx=WRITE, args=assignment
    ),
    "desk:floor": Row(get=READ, post=READ_POST, htmx=READ, args=assignment),
    "desk:floor_round": Row(
        get=FLOOR_ONLY_POST,
        post="login 422 422 404 422 403 403 404 404 login login",
        htmx=FLOOR_ONLY_POST,
        args=assignment,
    ),
    "desk:floor_take_back": Row(get=FLOOR_ONLY_POST, post=FLOOR_NOTHING, htmx=FLOOR_ONLY_POST, args=assignment),
    "desk:floor_mark": Row(get=FLOOR_ONLY_POST, post=FLOOR_NOTHING, htmx=FLOOR_ONLY_POST, args=assignment),
    "desk:floor_attendance": Row(get=FLOOR_ONLY_POST, post=FLOOR_NOTHING, htmx=FLOOR_ONLY_POST, args=assignment),
    "desk:quick_entry": Row(get=LOG, post=LOG_BAD, htmx=LOG, args=assignment),
    "desk:athlete_health": Row(get=HEALTH, post=HEALTH_POST, htmx=HEALTH, args=athlete),
    "desk:restriction_add": Row(get=HEALTH, post=HEALTH_BAD, htmx=HEALTH, args=athlete),
    "desk:return_stage": Row(get=HEALTH, post=HEALTH_BAD, htmx=HEALTH, args=athlete),
    "desk:restriction_except": Row(get=HEALTH, post=HEALTH_BAD, htmx=HEALTH, args=restriction),
    "desk:restriction_keep": Row(get=HEALTH, post=HEALTH_BAD, htmx=HEALTH, args=restriction),
    "desk:restriction_lift": Row(get=HEALTH, post=HEALTH_BAD, htmx=HEALTH, args=restriction),
    "desk:restriction_again": Row(get=HEALTH_POST, post=HEALTH_GONE, htmx=HEALTH_POST, args=restriction),
    "desk:pain_clear": Row(get=HEALTH, post=HEALTH_GONE, htmx=HEALTH, args=pain),
    "desk:red_flag_clear": Row(get=HEALTH, post=HEALTH_BAD, htmx=HEALTH, args=flag),
    "desk:history": Row(get=READ, post=READ_POST, htmx=READ, args=athlete),
    "desk:history_exercise": Row(get=READ, post=READ_POST, htmx=READ, args=exercise),
    "desk:known_bests": Row(
        get=READ, post="login 422 422 404 403 403 403 404 404 login login", htmx=READ, args=athlete
    ),
}
