"""Who is asking: one frozen value per request, made once, passed to queries and actions."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from django.core.exceptions import PermissionDenied
from django.http import HttpRequest


class ActorKind(StrEnum):
    ANONYMOUS = "anonymous"
    OWNER = "owner"
    COACH = "coach"
    ASSISTANT = "assistant"
    CLINICIAN = "clinician"
    HEAD_COACH = "head_coach"
    ATHLETE = "athlete"
    GUARDIAN = "guardian"


# Everyone who logs in with a password and works for the club.
STAFF: Final = frozenset(
    {ActorKind.OWNER, ActorKind.COACH, ActorKind.ASSISTANT, ActorKind.CLINICIAN, ActorKind.HEAD_COACH}
)
# Who may change people, plans and cards of the squads they see.
WRITERS: Final = frozenset({ActorKind.OWNER, ActorKind.COACH})
# Who stands on the floor: logs for athletes, marks a set clean or shaky.
FLOOR: Final = frozenset({ActorKind.OWNER, ActorKind.COACH, ActorKind.ASSISTANT})
# Who reads pain, restrictions and notes on health.
HEALTH: Final = frozenset({ActorKind.OWNER, ActorKind.COACH, ActorKind.CLINICIAN})
# Who reads training history of athletes they can see.
READERS: Final = frozenset({ActorKind.OWNER, ActorKind.COACH, ActorKind.ASSISTANT, ActorKind.CLINICIAN})


@dataclass(frozen=True, slots=True)
class Actor:
    """kind and, where there are any: user and staff row, own athletes (self or children), squads, bound phone."""

    kind: ActorKind = ActorKind.ANONYMOUS
    user_id: int | None = None
    staff_id: int | None = None
    athlete_ids: frozenset[int] = frozenset()
    squad_ids: frozenset[int] = frozenset()
    device_id: int | None = None
    name: str = ""

    @property
    def is_anonymous(self) -> bool:
        return self.kind is ActorKind.ANONYMOUS

    @property
    def is_staff(self) -> bool:
        return self.kind in STAFF

    @property
    def sees_all(self) -> bool:
        return self.kind is ActorKind.OWNER

    def require_user_id(self) -> int:
        """The user who signs for a record; PermissionDenied for a phone."""
        if self.user_id is None:
            raise PermissionDenied
        return self.user_id

    @property
    def may_write(self) -> bool:
        return self.kind in WRITERS

    @property
    def may_log(self) -> bool:
        return self.kind in FLOOR

    @property
    def sees_health(self) -> bool:
        return self.kind in HEALTH


class ActorRequest(HttpRequest):
    """The request as views see it, after the middleware has run."""

    actor: Actor
    htmx: object


ANONYMOUS: Final = Actor()
