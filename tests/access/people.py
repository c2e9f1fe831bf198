"""Squads, athletes, staff, the club. Objects belong to the Seniors, the squad of the cast's coach."""

from __future__ import annotations

from tests.access import Row
from tests.cast import Cast, Role
from tests.factories import ConsentFactory, GuardianshipFactory


def squad(cast: Cast) -> dict[str, object]:
    return {"pk": cast.squad.pk}


def membership(cast: Cast) -> dict[str, object]:
    return {"pk": cast.squad.pk, "membership_pk": cast.athlete.memberships.get().pk}


def athlete(cast: Cast) -> dict[str, object]:
    return {"pk": cast.athlete.pk}


def phone(cast: Cast) -> dict[str, object]:
    return {"pk": cast.athlete.pk, "device_pk": cast.device.pk}


def assistant(cast: Cast) -> dict[str, object]:
    return {"pk": cast.staff[Role.ASSISTANT].pk}


def guardian(cast: Cast) -> dict[str, object]:
    """Of an athlete in the Seniors."""
    return {"pk": GuardianshipFactory.create(athlete=cast.athlete).guardian_id}


def link(cast: Cast) -> dict[str, object]:
    return {"pk": cast.athlete.pk, "guardian_pk": guardian(cast)["pk"]}


def consent(cast: Cast) -> dict[str, object]:
    standing = cast.athlete.consents.filter(withdrawn_on=None).first() or ConsentFactory.create(athlete=cast.athlete)
    return {"pk": cast.athlete.pk, "consent_pk": standing.pk}


#    anonymous owner coach other-coach assistant clinician head-coach athlete team-mate guardian outsider
ALL_STAFF = "login 200   200   200         200       200       200        404     404       login    login"
SEES_THEM = "login 200   200   404         200       200       200        404     404       login    login"
WRITES_ANY = "login 200  200   200         403       403       403        404     404       login    login"
WRITES_BAD = "login 422  422   422         403       403       403        404     404       login    login"
WRITES = "   login 200   200   404         403       403       403        404     404       login    login"
WRITES_422 = "login 422  422   404         403       403       403        404     404       login    login"
WRITES_302 = "login 302  302   404         403       403       403        404     404       login    login"
POST_ONLY = "login 405   405   405         403       403       403        404     404       login    login"
EMERGENCY = "login 200  200   404         200       200       403        404     404       login    login"
EMERGENCY_405 = "login 405 405 405 405 405 403 404 404 login login"
HEALTH = "   login 200   200   404         403       200       403        404     404       login    login"
HEALTH_422 = "login 422  422   404         403       422       403        404     404       login    login"
OWNER = "    login 200   403   403         403       403       403        404     404       login    login"
OWNER_422 = "login 422   403   403         403       403       403        404     404       login    login"
OWNER_302 = "login 302   403   403         403       403       403        404     404       login    login"
READ_ONLY = "login 405   405   405         405       405       405        404     404       login    login"
OWNER_405 = "login 405   403   403         403       403       403        404     404       login    login"

TABLE = {
    "desk:squads": Row(ALL_STAFF, READ_ONLY, ALL_STAFF),
    "desk:squad_add": Row(OWNER, OWNER_422, OWNER),
    "desk:squad": Row(SEES_THEM, READ_ONLY, SEES_THEM, squad),
    "desk:squad_edit": Row(WRITES, WRITES_422, WRITES, squad),
    "desk:squad_join": Row(WRITES, WRITES_422, WRITES, squad),
    "desk:squad_leave": Row(WRITES, WRITES_422, WRITES, membership),
    "desk:squad_codes": Row(WRITES, WRITES, WRITES, squad),
    "desk:athletes": Row(ALL_STAFF, READ_ONLY, ALL_STAFF),
    "desk:athlete_add": Row(WRITES_ANY, WRITES_BAD, WRITES_ANY),
    "desk:athlete": Row(SEES_THEM, READ_ONLY, SEES_THEM, athlete),
    "desk:athlete_edit": Row(WRITES, WRITES_422, WRITES, athlete),
    "desk:athlete_archive": Row(OWNER, OWNER_302, OWNER, athlete),
    "desk:athlete_return": Row(OWNER, OWNER_302, OWNER, athlete),
    "desk:availability": Row(HEALTH, HEALTH_422, HEALTH, athlete),
    "desk:athlete_code": Row(WRITES, WRITES, WRITES, athlete),
    "desk:code_revoke": Row(POST_ONLY, WRITES_302, POST_ONLY, athlete),
    "desk:phone_revoke": Row(POST_ONLY, WRITES_302, POST_ONLY, phone),
    "desk:guardian": Row(EMERGENCY, EMERGENCY_405, EMERGENCY, guardian),
    "desk:guardian_add": Row(WRITES, WRITES_422, WRITES, athlete),
    "desk:guardian_edit": Row(WRITES, WRITES_422, WRITES, link),
    "desk:guardian_remove": Row(WRITES, WRITES_302, WRITES, link),
    "desk:consent_give": Row(WRITES, WRITES_422, WRITES, athlete),
    "desk:consent_withdraw": Row(WRITES, WRITES_422, WRITES, consent),
    "desk:staff": Row(OWNER, OWNER_405, OWNER),
    "desk:staff_add": Row(OWNER, OWNER_422, OWNER),
    "desk:staff_edit": Row(OWNER, OWNER_422, OWNER, assistant),
    "desk:staff_password": Row(OWNER, OWNER_422, OWNER, assistant),
    "desk:staff_archive": Row(OWNER, OWNER_302, OWNER, assistant),
    "desk:club": Row(OWNER, OWNER_422, OWNER),
}
