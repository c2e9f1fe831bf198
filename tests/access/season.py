"""The calendar: read by a squad's staff, of a head coach matches and trainings alone; written by its coaches."""

from __future__ import annotations

from coachhub.base.clock import today
from coachhub.season.models import Absence, GymSlot, Happening, MatchDay, SeasonPhase
from tests.access import Row
from tests.access.front import a_link
from tests.access.people import athlete, squad
from tests.cast import Cast


def a_match(cast: Cast) -> dict[str, object]:
    row, _ = MatchDay.objects.get_or_create(squad=cast.squad, on_date=today(), opponent="Fen Gate")
    return {"pk": row.pk}


def a_training(cast: Cast) -> dict[str, object]:
    """Of the Seniors, every day of the week."""
    row, _ = Happening.objects.get_or_create(squad=cast.squad, kind="training", from_on=today(), weekdays=127)
    return {"pk": row.pk, "on": today().isoformat()}


def a_slot(cast: Cast) -> dict[str, object]:
    row, _ = GymSlot.objects.get_or_create(
        squad=cast.squad,
        venue=cast.venue,
        weekday=today().weekday(),
        from_on=today(),
        defaults={"starts_at": "18:00", "minutes": 60},
    )
    return {"pk": row.pk, "on": today().isoformat()}


def own_sport(cast: Cast) -> dict[str, object]:
    row, _ = Happening.objects.get_or_create(athlete=cast.athlete, kind="sport", from_on=today(), to_on=today())
    return {"pk": row.pk}


def a_phase(cast: Cast) -> dict[str, object]:
    row, _ = SeasonPhase.objects.get_or_create(squad=cast.squad, code="power", from_on=today(), to_on=today())
    return {"pk": cast.squad.pk, "phase_pk": row.pk}


def an_absence(cast: Cast) -> dict[str, object]:
    row, _ = Absence.objects.get_or_create(athlete=cast.athlete, from_on=today(), to_on=today(), reason="ill")
    return {"pk": row.pk}


def squads_absence(cast: Cast) -> dict[str, object]:
    return {"pk": cast.squad.pk, "absence_pk": an_absence(cast)["pk"]}


def one_training(cast: Cast) -> dict[str, object]:
    return a_training(cast) | {"scope": "one"}


def one_slot(cast: Cast) -> dict[str, object]:
    return a_slot(cast) | {"scope": "from"}


#    anonymous owner coach other-coach assistant clinician head-coach athlete team-mate guardian outsider
ALL_STAFF = "login 200   200   200         200       200       200        404     404       login    login"
SEES_THEM = "login 200   200   404         200       200       200        404     404       login    login"
NOT_HEAD = " login 200   200   404         200       200       404        404     404       login    login"
READS = "    login 200   200   404         200       200       403        404     404       login    login"
READ_405 = " login 405   405   405         405       405       403        404     404       login    login"
READ_ONLY = "login 405   405   405         405       405       405        404     404       login    login"
ANY = "      login 200   200   200         403       403       403        404     404       login    login"
ANY_422 = "  login 422   422   422         403       403       403        404     404       login    login"
WRITES = "   login 200   200   404         403       403       403        404     404       login    login"
WRITES_422 = "login 422  422   404         403       403       403        404     404       login    login"
WRITES_302 = "login 302  302   404         403       403       403        404     404       login    login"
POST_ONLY = "login 405   405   405         403       403       403        404     404       login    login"
OWN = "      login 404   404   404         404       404       404        200     200       login    login"
OWN_405 = "  login 404   404   404         404       404       404        405     405       login    login"
OWN_422 = "  login 404   404   404         404       404       404        422     422       login    login"
MINE = "     login 404   404   404         404       404       404        200     404       login    login"
MINE_422 = " login 404   404   404         404       404       404        422     404       login    login"
MINE_302 = " login 404   404   404         404       404       404        302     404       login    login"

TABLE = {
    "front:feed": Row("404", "405", "404", a_link),
    "desk:season": Row(ALL_STAFF, READ_ONLY, ALL_STAFF),
    "desk:match_add": Row(ANY, ANY_422, ANY),
    "desk:match": Row(SEES_THEM, READ_ONLY, SEES_THEM, a_match),
    "desk:match_edit": Row(WRITES, WRITES_422, WRITES, a_match),
    "desk:match_minutes": Row(WRITES, WRITES_302, WRITES, a_match),
    "desk:match_off": Row(WRITES, WRITES_422, WRITES, a_match),
    "desk:match_again": Row(POST_ONLY, WRITES_302, POST_ONLY, a_match),
    "desk:happening_add": Row(ANY, ANY_422, ANY),
    "desk:happening": Row(SEES_THEM, READ_ONLY, SEES_THEM, a_training),
    "desk:happening_change": Row(WRITES, WRITES_422, WRITES, one_training),
    "desk:happening_off": Row(WRITES, WRITES_422, WRITES, a_training),
    "desk:slot_add": Row(ANY, ANY_422, ANY),
    "desk:slot": Row(NOT_HEAD, READ_ONLY, NOT_HEAD, a_slot),
    "desk:slot_change": Row(WRITES, WRITES_422, WRITES, one_slot),
    "desk:slot_off": Row(WRITES, WRITES_422, WRITES, a_slot),
    "desk:season_upload": Row(ANY, ANY_422, ANY),
    "desk:season_csv": Row(ANY, POST_ONLY, ANY),
    "desk:season_xlsx": Row(ANY, POST_ONLY, ANY),
    "desk:squad_feed": Row(WRITES, WRITES, WRITES, squad),
    "desk:absences": Row(SEES_THEM, READ_ONLY, SEES_THEM, squad),
    "desk:absence_add": Row(WRITES, WRITES_422, WRITES, squad),
    "desk:absence_end": Row(POST_ONLY, WRITES_302, POST_ONLY, squads_absence),
    "gym:absence": Row(OWN, OWN_422, OWN),
    "gym:back": Row(OWN_405, MINE_302, OWN_405, an_absence),
    "desk:phases": Row(READS, READ_405, READS, squad),
    "desk:phase_add": Row(WRITES, WRITES_422, WRITES, squad),
    "desk:phase_edit": Row(WRITES, WRITES_422, WRITES, a_phase),
    "desk:phase_remove": Row(WRITES, WRITES_302, WRITES, a_phase),
    "desk:own_dates": Row(READS, READ_405, READS, athlete),
    "desk:own_date_add": Row(WRITES, WRITES_422, WRITES, athlete),
    "desk:athlete_feed": Row(WRITES, WRITES, WRITES, athlete),
    "gym:dates": Row(OWN, OWN_405, OWN),
    "gym:date_add": Row(OWN, OWN_422, OWN),
    "gym:date_edit": Row(MINE, MINE_422, MINE, own_sport),
    "gym:date_remove": Row(OWN_405, MINE_302, OWN_405, own_sport),
    "gym:feed": Row(OWN, OWN, OWN),
}
