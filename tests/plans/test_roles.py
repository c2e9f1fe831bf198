"""What a session is for, and in which weeks it is done."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from coachhub.coaching.fitting import ROLES
from coachhub.plans import actions_copy
from coachhub.plans.models import Session, SessionRole
from tests.cast import Cast

pytestmark = pytest.mark.django_db


def sent(**more: object) -> dict[str, object]:
    return {"name": "Squat", "day": 1, "week_from": 1, "week_to": 1, "slot_minutes": 60, "note": "", **more}


def edit(client: Client, cast: Cast, **more: object) -> int:
    return client.post(reverse("desk:session_edit", kwargs={"pk": cast.session.pk}), sent(**more)).status_code


def test_every_role_of_the_fitting_has_a_name() -> None:
    assert sorted(SessionRole.values) == sorted(ROLES)


def test_role_and_weeks_are_written_in_the_form_and_shown_in_the_plan(cast: Cast) -> None:
    coach, _written = cast.client_of("coach"), cast.prescription
    assert edit(coach, cast, role="main", variant="match_week") == 302
    html = coach.get(reverse("desk:plan", kwargs={"pk": cast.plan.pk})).content.decode()
    assert "main strength · only weeks with a match" in html
    paper = coach.get(reverse("desk:plan_print", kwargs={"pk": cast.plan.pk})).content.decode()
    assert "main strength · only weeks with a match" in paper


def test_session_without_a_role_may_go_on_any_day(cast: Cast) -> None:
    edit(cast.client_of("coach"), cast)
    assert (Session.objects.get().role, Session.objects.get().variant) == ("any", "")


def test_unknown_role_is_refused_beside_the_field(cast: Cast) -> None:
    assert edit(cast.client_of("coach"), cast, role="lunch") == 422
    assert Session.objects.get().role == "any"


def test_copy_of_a_plan_keeps_roles_and_weeks(cast: Cast) -> None:
    Session.objects.filter(pk=cast.session.pk).update(role="primer", variant="free_week")
    added = actions_copy.copy_plan(actor=cast.actor_of("coach"), plan=cast.plan, squad=cast.squad, name="Copy")
    assert list(added.sessions.values_list("role", "variant")) == [("primer", "free_week")]
