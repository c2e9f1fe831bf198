"""One story in one browser: a club from its first minute to printed cards. The coach has no mouse."""

from __future__ import annotations

from pathlib import Path

from coachhub.cards.models import SetEntry
from tests.e2e import steps_athlete, steps_coach, steps_owner
from tests.e2e.conftest import DESK, PHONE, OpenContext


def test_story_from_empty_database_to_printed_cards(server: str, open_context: OpenContext, tmp_path: Path) -> None:
    owner, coach = open_context(viewport=DESK).new_page(), open_context(viewport=DESK).new_page()
    athlete = open_context(viewport=PHONE, has_touch=True, is_mobile=True).new_page()
    steps_owner.set_up_club(owner, server, tmp_path)
    steps_owner.add_squad_and_coach(owner)
    steps_owner.add_athletes(owner)
    steps_owner.add_venue(owner)

    steps_coach.log_in(coach, server)
    steps_coach.start_plan(coach)
    steps_coach.write_session(coach)
    steps_coach.give_it(coach)
    steps_athlete.enrol(athlete, server, steps_coach.make_code(coach))

    steps_coach.watch_floor(coach)
    steps_athlete.tap_round(athlete, "A", 1)
    steps_coach.sees(coach, "1/4")
    assert steps_athlete.tap_rest(athlete) == 6
    assert SetEntry.objects.count() == 24
    steps_coach.sees(coach, "4/4", "3/3")

    steps_athlete.correct_squat(athlete, 4, "3")
    steps_coach.sees(coach, "60 kg × 3")
    steps_coach.reads_history(coach, "60 kg × 5", "60 kg × 3")
    assert steps_coach.prints(coach, tmp_path) == 3
