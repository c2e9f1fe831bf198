"""Each factory makes a row that the database takes, and the cast is who it says."""

from __future__ import annotations

import pytest
from django.db.models import Model
from factory.django import DjangoModelFactory

from coachhub.base.actor import ActorKind
from tests import factories
from tests.cast import Cast, Role

FACTORIES = sorted(name for name in factories.__all__ if name.endswith("Factory"))


@pytest.mark.django_db
@pytest.mark.parametrize("name", FACTORIES)
def test_factory_makes_a_row(name: str) -> None:
    maker: type[DjangoModelFactory[Model]] = getattr(factories, name)
    row = maker.create()
    assert list(type(row)._default_manager.filter(pk=row.pk)) == [row]


def test_cast_has_the_actors_it_names(cast: Cast) -> None:
    assert {role: cast.actor_of(role).kind for role in Role} == {
        Role.ANONYMOUS: ActorKind.ANONYMOUS,
        Role.OWNER: ActorKind.OWNER,
        Role.COACH: ActorKind.COACH,
        Role.OTHER_COACH: ActorKind.COACH,
        Role.ASSISTANT: ActorKind.ASSISTANT,
        Role.CLINICIAN: ActorKind.CLINICIAN,
        Role.HEAD_COACH: ActorKind.HEAD_COACH,
        Role.ATHLETE: ActorKind.ATHLETE,
        Role.TEAM_MATE: ActorKind.ATHLETE,
        Role.GUARDIAN: ActorKind.GUARDIAN,
        Role.OUTSIDER: ActorKind.ANONYMOUS,
    }


def test_cast_can_train(cast: Cast) -> None:
    assert cast.line.revision.card.assignment.session.plan.squad == cast.squad
    assert cast.line.line_key == cast.prescription.line_key
