"""Guardians of a roster: found by name, filled in, shared between brothers and sisters."""

from __future__ import annotations

from coachhub.base.changes import Change
from coachhub.people.models import Athlete, Guardian, Guardianship
from tests.cast import Cast, Role
from tests.people.rosters import counts, import_table, review, table_of

WHO = "given name|family name|date of birth|squad"
HEADER = f"{WHO}|guardian name|guardian phone|guardian e-mail|guardian relation"
TWO = f"{HEADER}|guardian 2 name|guardian 2 phone"
PHONE, EMAIL = "+44 1632 960111", "bo@club.example"


def line_of(athlete: Athlete) -> str:
    return f"{athlete.given_name}|{athlete.family_name}|{athlete.born_on}|"


def links() -> list[tuple[str, str, str, str, str]]:
    """Child, guardian, phone, e-mail, relation; without the cast's own."""
    fields = ("athlete__given_name", "guardian__name", "guardian__phone", "guardian__email", "relation")
    return list(Guardianship.objects.exclude(athlete__given_name="Juno").order_by("pk").values_list(*fields))


def test_guardians_come_with_the_athlete(cast: Cast) -> None:
    line = f"Runa|Beck|30.4.2012|Seniors|Bo Beck|{PHONE}|{EMAIL}|mother|Wim Beck|01632 960222"
    assert import_table(cast.actor_of(Role.COACH), table_of(TWO, line)) == counts(new=1)
    assert links() == [
        ("Runa", "Bo Beck", PHONE, EMAIL, "mother"),
        ("Runa", "Wim Beck", "01632 960222", "", ""),
    ]
    assert Guardian.objects.get(name="Bo Beck").search_key == "bo beck"


def test_known_guardian_is_filled_in_and_keeps_the_rest(cast: Cast) -> None:
    line = f"{line_of(cast.child)}|WREN reed|{PHONE}||aunt"
    table = table_of(HEADER, line)
    (outcome,) = review(cast.actor_of(Role.OTHER_COACH), table)
    assert outcome.changes == (
        Change("phone of Wren Reed", "", PHONE),
        Change("relation of Wren Reed", "", "aunt"),
    )
    Guardian.objects.update(email=EMAIL)
    assert import_table(cast.actor_of(Role.OTHER_COACH), table) == counts(updated=1)
    row = Guardianship.objects.get(athlete=cast.child)
    found = (row.guardian.name, row.guardian.phone, row.guardian.email, row.relation)
    assert found == ("Wren Reed", PHONE, EMAIL, "aunt")
    assert import_table(cast.actor_of(Role.OTHER_COACH), table) == counts(unchanged=1)


def test_brothers_and_sisters_in_a_file_share_a_guardian(cast: Cast) -> None:
    lines = [
        f"{name}|Beck|30.4.2012|Seniors|Bo Beck|{phone}|{EMAIL}|" for name, phone in (("Runa", PHONE), ("Odd", ""))
    ]
    import_table(cast.actor_of(Role.COACH), table_of(HEADER, *lines))
    assert [(child, name, phone) for child, name, phone, *_ in links()] == [
        ("Runa", "Bo Beck", PHONE),
        ("Odd", "Bo Beck", PHONE),
    ]
    assert Guardian.objects.filter(name="Bo Beck").count() == 1


def test_two_of_one_name_without_a_number_are_two_people(cast: Cast) -> None:
    lines = [f"{name}|Beck|30.4.2012|Seniors|Bo Beck|||" for name in ("Runa", "Odd")]
    import_table(cast.actor_of(Role.COACH), table_of(HEADER, *lines))
    assert Guardian.objects.filter(name="Bo Beck").count() == 2


def test_guardian_of_a_sister_in_the_club_is_shared(cast: Cast) -> None:
    Guardian.objects.update(phone=PHONE)
    line = "Runa|Reed|30.4.2012|Under-18|Wren Reed|+44 (1632) 960-111|bo@club.example|"
    import_table(cast.actor_of(Role.OTHER_COACH), table_of(HEADER, line))
    assert Guardian.objects.count() == 1
    assert cast.guardian.guardianships.count() == 2


def test_guardian_of_a_squad_not_seen_is_left_alone(cast: Cast) -> None:
    Guardian.objects.update(phone=PHONE)
    line = f"Runa|Reed|30.4.2012|Seniors|Wren Reed|{PHONE}|{EMAIL}|"
    import_table(cast.actor_of(Role.COACH), table_of(HEADER, line))
    assert Guardian.objects.get(pk=cast.guardian.pk).email == ""
    assert Guardian.objects.count() == 2


def test_one_guardian_named_twice_in_a_row_is_one(cast: Cast) -> None:
    line = f"{line_of(cast.child)}|Wren Reed|{PHONE}|||Wren Reed|{PHONE}"
    import_table(cast.actor_of(Role.OTHER_COACH), table_of(TWO, line))
    assert import_table(cast.actor_of(Role.OTHER_COACH), table_of(TWO, line)) == counts(unchanged=1)
    assert list(Guardian.objects.values_list("name", "phone")) == [("Wren Reed", PHONE)]
