"""A code binds one phone, once, while it is good."""

from __future__ import annotations

from collections import Counter
from datetime import timedelta
from threading import Barrier, Thread

import pytest
from django.core.exceptions import ValidationError
from django.db import connection
from hypothesis import given
from hypothesis import strategies as st

from coachhub.base.actor import Actor, ActorKind
from coachhub.base.clock import now, today
from coachhub.people.access import (
    CODE_ALPHABET,
    CODE_LENGTH,
    code_hash,
    new_code,
    new_token,
    phone_actor,
    staff_actor,
)
from coachhub.people.actions import (
    archive_athlete,
    enrol_device,
    make_enrolment_code,
    make_enrolment_codes,
    note_phone_seen,
    revoke_code,
    revoke_device,
)
from coachhub.people.models import Device, EnrolmentCode, Staff
from tests.cast import Cast, Role
from tests.factories import AthleteFactory, StaffFactory, years_ago

MINUTES = timedelta(minutes=20)


def staff_of(staff: Staff) -> Actor:
    actor = staff_actor(staff.user)
    assert actor is not None
    return actor


def refused(**way_in: object) -> bool:
    try:
        enrol_device(**way_in)  # type: ignore[arg-type]
    except ValidationError as error:
        return error.code == "refused"
    return False


def test_code_binds_a_phone_that_acts_for_the_athlete(cast: Cast) -> None:
    made = make_enrolment_code(actor=cast.actor_of(Role.COACH), athlete=cast.athlete, lifetime=MINUTES)
    bound = enrol_device(code=made.code, label="Android")
    actor = phone_actor(bound.token)
    assert actor is not None
    assert (actor.kind, actor.athlete_ids) == (ActorKind.ATHLETE, frozenset([cast.athlete.pk]))
    assert bound.device.enrolment.created_by == cast.staff[Role.COACH].user


def test_link_binds_a_phone(cast: Cast) -> None:
    made = make_enrolment_code(actor=cast.actor_of(Role.COACH), athlete=cast.athlete, lifetime=MINUTES)
    assert enrol_device(token=made.token).device.athlete == cast.athlete


def test_code_is_read_as_meant(cast: Cast) -> None:
    make = {"actor": cast.actor_of(Role.COACH), "athlete": cast.athlete, "lifetime": MINUTES}
    for typed_as in (str.lower, lambda code: code.replace("-", ""), lambda code: f" {code.replace('-', ' ')} "):
        made = make_enrolment_code(**make)  # type: ignore[arg-type]
        assert enrol_device(code=typed_as(made.code)).device.athlete == cast.athlete


@given(st.text(alphabet="OoIiLl01-", min_size=1))
def test_letters_that_look_like_digits_are_digits(typed: str) -> None:
    meant = "".join({"O": "0", "I": "1", "L": "1"}.get(c, c) for c in typed.upper() if c != "-")
    assert code_hash(typed) == code_hash(meant)


@pytest.mark.parametrize("way_in", ["code", "token"])
def test_code_works_once(cast: Cast, way_in: str) -> None:
    made = make_enrolment_code(actor=cast.actor_of(Role.COACH), athlete=cast.athlete, lifetime=MINUTES)
    enrol_device(**{way_in: getattr(made, way_in)})
    assert refused(code=made.code)
    assert refused(token=made.token)


def test_code_expires(cast: Cast) -> None:
    made = make_enrolment_code(actor=cast.actor_of(Role.COACH), athlete=cast.athlete, lifetime=MINUTES)
    EnrolmentCode.objects.update(created_at=now() - timedelta(hours=1), expires_at=now() - timedelta(seconds=1))
    assert refused(code=made.code)
    assert refused(token=made.token)


def test_newer_code_replaces_the_one_that_waits(cast: Cast) -> None:
    first, second = (
        make_enrolment_code(actor=cast.actor_of(Role.COACH), athlete=cast.athlete, lifetime=MINUTES) for _ in range(2)
    )
    assert refused(code=first.code)
    assert enrol_device(code=second.code).device.athlete == cast.athlete


def test_code_taken_back_binds_nothing(cast: Cast) -> None:
    coach = cast.actor_of(Role.COACH)
    made = make_enrolment_code(actor=coach, athlete=cast.athlete, lifetime=MINUTES)
    revoke_code(actor=coach, athlete=cast.athlete)
    assert refused(code=made.code)


def test_birthday_must_be_the_athletes_where_asked(cast: Cast) -> None:
    made = make_enrolment_code(actor=cast.actor_of(Role.COACH), athlete=cast.athlete, lifetime=MINUTES)
    assert refused(code=made.code, born_on=years_ago(30))
    assert enrol_device(code=made.code, born_on=cast.athlete.born_on).device.athlete == cast.athlete


def test_phone_of_another_is_let_go(cast: Cast) -> None:
    made = make_enrolment_code(actor=cast.actor_of(Role.COACH), athlete=cast.team_mate, lifetime=MINUTES)
    enrol_device(code=made.code, replaces=cast.device.pk)
    assert phone_actor(cast.tokens[Role.ATHLETE]) is None


def test_revoked_phone_acts_for_nobody(cast: Cast) -> None:
    revoke_device(actor=cast.actor_of(Role.COACH), device=cast.device)
    assert phone_actor(cast.tokens[Role.ATHLETE]) is None
    assert phone_actor(cast.tokens[Role.TEAM_MATE]) is not None


def test_athlete_who_left_has_neither_phone_nor_code(cast: Cast) -> None:
    owner = cast.actor_of(Role.OWNER)
    made = make_enrolment_code(actor=owner, athlete=cast.athlete, lifetime=MINUTES)
    archive_athlete(actor=owner, athlete=cast.athlete)
    assert phone_actor(cast.tokens[Role.ATHLETE]) is None
    assert refused(code=made.code)


def test_phone_seen_is_noted_once_a_day(cast: Cast) -> None:
    note_phone_seen(actor=cast.actor_of(Role.ATHLETE))
    assert dict(Device.objects.values_list("athlete", "last_seen_on")) == {
        cast.athlete.pk: today(),
        cast.team_mate.pk: None,
    }


def test_nothing_stored_opens_anything(cast: Cast) -> None:
    made = make_enrolment_code(actor=cast.actor_of(Role.COACH), athlete=cast.athlete, lifetime=MINUTES)
    bound = enrol_device(code=made.code)
    stored = " ".join(str(v) for model in (EnrolmentCode, Device) for row in model.objects.values_list() for v in row)
    for secret in (made.code, made.code.replace("-", ""), made.token, bound.token):
        assert secret not in stored


def test_codes_and_tokens_cannot_be_guessed() -> None:
    """The brake lets 100 wrong codes through in ten minutes, from all addresses together; a slip is good for 7 days.

    A club of 200 that waits all at once: fewer than one chance in 20,000 that a week of guessing hits any of them.
    Beyond the brake a date of birth must be right too: 1 in 3,650 for ten years of births, at 100 tries a second.
    """
    codes, waiting, week_s = len(CODE_ALPHABET) ** CODE_LENGTH, 200, 7 * 24 * 3600
    assert codes == 2**40
    free_tries, dated_tries = 100 * week_s // 600, 100 * week_s
    chance = (free_tries + dated_tries / 3650) * waiting / codes
    assert chance < 1 / 20_000
    # ASVS 5.0, 11.5: at least 128 bits of entropy for what cannot be braked.
    assert len(new_token()) * 6 >= 256


def test_codes_use_the_whole_alphabet_evenly() -> None:
    seen = Counter("".join(new_code().replace("-", "") for _ in range(2000)))
    assert set(seen) == set(CODE_ALPHABET)
    # 16,000 letters, 500 expected of each; seven standard deviations (22) either way.
    assert all(350 < count < 650 for count in seen.values())


@pytest.mark.django_db
def test_squad_gets_one_code_each() -> None:
    athletes = AthleteFactory.create_batch(3)
    coach = StaffFactory.create()
    made = make_enrolment_codes(actor=staff_of(coach), athletes=athletes, lifetime=MINUTES)
    assert [code.athlete for code in made] == athletes
    assert len({code.code for code in made}) == 3


@pytest.mark.django_db(transaction=True)
def test_two_phones_race_for_one_code_and_one_gets_it() -> None:
    athlete, coach = AthleteFactory.create(), StaffFactory.create()
    made = make_enrolment_code(actor=staff_of(coach), athlete=athlete, lifetime=MINUTES)
    start, won = Barrier(4), []

    def attempt() -> None:
        start.wait()
        won.append(not refused(code=made.code))
        connection.close()

    threads = [Thread(target=attempt) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(won) == [False, False, False, True]
    assert Device.objects.count() == 1
