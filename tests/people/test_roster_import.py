"""A reviewed roster is written as it was looked at: once, whole, and only by its owner."""

from __future__ import annotations

import io
from datetime import date, timedelta

import pytest
from django.core.exceptions import PermissionDenied, ValidationError
from django.db import transaction
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from coachhub.base.clock import now, today
from coachhub.base.tables import csv_bytes, read_table, xlsx_bytes
from coachhub.people.actions import drop_draft, edit_athlete, import_roster, keep_draft
from coachhub.people.models import Athlete, Club, ImportDraft, ImportKind, Membership
from coachhub.people.roster.export import roster_lines
from tests.cast import Cast, Role
from tests.factories import AthleteFactory, GuardianshipFactory, ImportDraftFactory, MembershipFactory, SquadFactory
from tests.people.rosters import counts, import_table, review, table_of, upload

HEADER = "given name|family name|date of birth|squad|position"
RUNA = "Runa|Beck|30.4.2012|Seniors|wing"
words = st.text(st.characters(exclude_categories=["Cs", "Cc"]), min_size=1, max_size=20).filter(str.strip)
odd_words = words | st.builds(str.__add__, st.sampled_from(list("=+-@'")), words)


def test_new_athlete_is_written_with_squad_and_club_unit(cast: Cast) -> None:
    Club.objects.update(unit="lb")
    assert import_table(cast.actor_of(Role.COACH), table_of(HEADER, RUNA)) == counts(new=1)
    runa = Athlete.objects.get(family_name="Beck")
    assert (runa.born_on, runa.unit, runa.level, runa.position) == (date(2012, 4, 30), "lb", "novice", "wing")
    assert runa.search_key == "beck runa"
    assert list(runa.memberships.values_list("squad", "started_on", "ended_on")) == [(cast.squad.pk, today(), None)]


def test_second_import_of_the_same_file_changes_nothing(cast: Cast) -> None:
    coach, table = cast.actor_of(Role.COACH), table_of(HEADER, RUNA)
    import_table(coach, table)
    assert import_table(coach, table) == counts(unchanged=1)
    assert Athlete.objects.filter(family_name="Beck").count() == 1


def test_update_writes_only_what_the_row_says(cast: Cast) -> None:
    coach, athlete = cast.actor_of(Role.COACH), cast.athlete
    edit_athlete(actor=coach, athlete=athlete, note="calm", position="pivot")
    line = f"Ingrid|Moss|{athlete.born_on}||wing"
    assert import_table(coach, table_of(HEADER, line)) == counts(updated=1)
    athlete.refresh_from_db()
    assert (athlete.position, athlete.note, athlete.memberships.count()) == ("wing", "calm", 1)


def test_rows_in_error_are_left_out_and_the_others_written(cast: Cast) -> None:
    table = table_of(HEADER, RUNA, "Odd||1.1.2012|Seniors|")
    assert import_table(cast.actor_of(Role.COACH), table) == counts(new=1, error=1)


def test_member_who_comes_later_is_not_made_a_member_twice(cast: Cast) -> None:
    later = AthleteFactory.create(squad=cast.other_squad)
    MembershipFactory.create(athlete=later, squad=cast.squad, started_on=today() + timedelta(days=7))
    line = f"{later.given_name}|{later.family_name}|{later.born_on}|Seniors|"
    assert import_table(cast.actor_of(Role.OWNER), table_of(HEADER, line)) == counts(unchanged=1)
    assert Membership.objects.filter(athlete=later).count() == 2


def test_what_was_not_looked_at_is_not_written(cast: Cast) -> None:
    draft = upload(cast.actor_of(Role.COACH), table_of(HEADER, RUNA))
    with pytest.raises(ValidationError) as caught:
        import_roster(actor=cast.actor_of(Role.COACH), draft_pk=draft.pk, seen="something else")
    assert caught.value.code == "changed"
    assert list(Athlete.objects.filter(family_name="Beck")) == []
    assert ImportDraft.objects.filter(pk=draft.pk).exists()


@pytest.mark.parametrize("role", [Role.OWNER, Role.OTHER_COACH])
def test_draft_of_somebody_else_is_not_there(cast: Cast, role: Role) -> None:
    draft = upload(cast.actor_of(Role.COACH), table_of(HEADER, RUNA))
    with pytest.raises(ValidationError) as caught:
        import_roster(actor=cast.actor_of(role), draft_pk=draft.pk, seen="")
    drop_draft(actor=cast.actor_of(role), draft=draft)
    assert (caught.value.code, ImportDraft.objects.count()) == ("gone", 1)


@pytest.mark.parametrize("role", [Role.ASSISTANT, Role.CLINICIAN, Role.HEAD_COACH, Role.ATHLETE])
def test_who_does_not_write_does_not_import(cast: Cast, role: Role) -> None:
    with pytest.raises(PermissionDenied):
        upload(cast.actor_of(role), table_of(HEADER, RUNA))
    assert ImportDraft.objects.count() == 0


def test_draft_is_gone_once_it_is_written(cast: Cast) -> None:
    import_table(cast.actor_of(Role.COACH), table_of(HEADER, RUNA))
    assert ImportDraft.objects.count() == 0


def test_expired_drafts_of_anybody_go_with_the_next_upload(cast: Cast) -> None:
    old = ImportDraftFactory.create(created_at=now() - timedelta(hours=2), expires_at=now() - timedelta(hours=1))
    kept = ImportDraftFactory.create()
    mine = upload(cast.actor_of(Role.COACH), table_of(HEADER, RUNA))
    assert set(ImportDraft.objects.values_list("pk", flat=True)) == {kept.pk, mine.pk} - {old.pk}


def test_new_upload_takes_the_place_of_the_one_before(cast: Cast) -> None:
    coach = cast.actor_of(Role.COACH)
    first, second = (upload(coach, table_of(HEADER, RUNA)) for _ in range(2))
    keep_draft(actor=coach, kind=ImportKind.BESTS, file_name="b.csv", table=table_of(HEADER, RUNA))
    assert not ImportDraft.objects.filter(pk=first.pk).exists()
    assert ImportDraft.objects.filter(pk=second.pk).exists()


def test_export_holds_nobody_of_another_squad(cast: Cast) -> None:
    lines = roster_lines(cast.actor_of(Role.COACH), None)
    assert [line[1:3] for line in lines[1:]] == [["Ingrid", "Moss"], ["Petra", "Vane"]]
    owned = roster_lines(cast.actor_of(Role.OWNER), cast.other_squad)
    assert [line[1] for line in owned[1:]] == ["Juno"]


@given(given=odd_words, family=odd_words, note=odd_words, contact=odd_words, guardian=odd_words)
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None, max_examples=20)
def test_export_imports_without_a_change(cast: Cast, **texts: str) -> None:
    with transaction.atomic():
        athlete = AthleteFactory.create(
            given_name=texts["given"],
            family_name=texts["family"],
            note=f"{texts['note']}\r\n{texts['note']}",
            emergency_contact=texts["contact"],
            health_alert="+ and - of =1",
            dominant_side="both",
            squad=cast.squad,
        )
        GuardianshipFactory.create(athlete=athlete, guardian__name=texts["guardian"], guardian__phone="+44 1632 960111")
        MembershipFactory.create(athlete=athlete, squad=SquadFactory.create(name=f"{texts['given']} B"))
        owner = cast.actor_of(Role.OWNER)
        lines = roster_lines(owner, None)
        for content in (csv_bytes(lines), xlsx_bytes(lines, "athletes")):
            outcomes = review(owner, read_table(io.BytesIO(content)))
            assert [(o.name, o.changes, o.errors) for o in outcomes if o.changes or o.errors or o.is_new] == []
            assert len(outcomes) == 4
        transaction.set_rollback(True)
