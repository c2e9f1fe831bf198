"""What is measured and told beside the sets."""

from __future__ import annotations

import uuid

from factory.declarations import LazyFunction, SubFactory
from factory.django import DjangoModelFactory

from coachhub.base.clock import now
from coachhub.insight.models import EffortLoad, SessionNote
from tests.factories.training import CardFactory


class EffortLoadFactory(DjangoModelFactory[EffortLoad]):
    class Meta:
        model = EffortLoad

    card = SubFactory(CardFactory)
    effort = 6
    minutes = 55
    received_at = LazyFunction(now)


class SessionNoteFactory(DjangoModelFactory[SessionNote]):
    class Meta:
        model = SessionNote

    uuid = LazyFunction(uuid.uuid4)
    card = SubFactory(CardFactory)
    text = "Slept badly, the last round was slow."
    received_at = LazyFunction(now)
