"""The invented club that the demo shows."""

from __future__ import annotations

from typing import Final

from django.core.management import call_command
from django.db import transaction

from coachhub.library.starting import import_starting_library
from coachhub.people.actions import add_staff_account, set_up_club
from coachhub.people.models import Club, StaffRole

PASSWORD: Final = "tarn valley demo 1"  # noqa: S105 - shown to everyone who starts the demo
# User name, name, role; the owner's account comes with the club.
STAFF: Final = [
    ("coach", "Maren Holt", StaffRole.COACH),
    ("assistant", "Idris Pell", StaffRole.ASSISTANT),
    ("clinician", "Dr Ona Birk", StaffRole.CLINICIAN),
    ("headcoach", "Stellan Crake", StaffRole.HEAD_COACH),
]


def load_demo_club(*, reset: bool = False) -> list[str]:
    """Load what is missing; with `reset` throw everything in the database away first. Returns one login a role."""
    if reset:
        call_command("flush", interactive=False, verbosity=0)
    if not Club.objects.exists():
        make_club()
    names = [("owner", StaffRole.OWNER), *((username, role) for username, _name, role in STAFF)]
    return [f"{StaffRole(role).label}: user name {username}, password {PASSWORD}" for username, role in names]


@transaction.atomic
def make_club() -> None:
    import_starting_library()
    set_up_club(
        name="Tarn Valley Handball Club",
        unit="kg",
        time_zone="Europe/London",
        username="owner",
        email="",
        password=PASSWORD,
        is_demo=True,
    )
    for username, name, role in STAFF:
        add_staff_account(name=name, role=role, username=username, email="", password=PASSWORD)
