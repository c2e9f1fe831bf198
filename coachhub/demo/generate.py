"""The invented club that the demo shows."""

from __future__ import annotations

import gc
import logging
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import timedelta
from typing import Final

from django.core.management import call_command
from django.db import transaction
from django.utils import timezone

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.cards.models import Assignment
from coachhub.demo import bests, health, history, own, tonight
from coachhub.demo.club import PASSWORD, add_members, fill_calendar, fill_season, make_staff, staff
from coachhub.demo.data import SESSIONS, Scale, SquadStory, full, lifts, read, squad_story
from coachhub.demo.days import training_days
from coachhub.demo.lifting import Lift
from coachhub.demo.plan import make_plan, sessions_of
from coachhub.demo.rows import go_on_counting
from coachhub.demo.stage import Stage
from coachhub.demo.venue import make_venues
from coachhub.library.models import Exercise, Venue
from coachhub.library.starting import import_starting_library
from coachhub.people.actions import make_enrolment_code
from coachhub.people.models import Athlete, Club, Squad, Staff
from coachhub.plans.actions_copy import copy_plan
from coachhub.plans.models import Plan

CODE_LIFETIME: Final = timedelta(days=1)


def load_demo_club(*, reset: bool = False, scale: Scale | None = None) -> list[str]:
    """Load the club if it is missing; with `reset` throw everything in the database away first.

    Returns lines to print: one login a role, and fresh codes for an athlete or two of each squad. `scale` is the
    whole story unless said otherwise.
    """
    if reset:
        call_command("flush", interactive=False, verbosity=0)
    with timezone.override(read("club")["time_zone"]), _quiet():
        if not Club.objects.exists():
            tell(scale or full())
        return [*login_lines(), *code_lines(), *age_lines()]


@contextmanager
def _quiet() -> Iterator[None]:
    """A story of a hundred verbs would fill the screen with what was done about whom.

    Nothing it makes is garbage before its end, so there is no use in looking for some.
    """
    logging.disable(logging.INFO)
    gc.disable()
    try:
        yield
    finally:
        gc.enable()
        logging.disable(logging.NOTSET)


@transaction.atomic
def tell(scale: Scale) -> list[Stage]:
    """Make the club and let it train up to today; returns each squad's stage as it stands in the end."""
    import_starting_library()
    stories = [squad_story(key) for key in scale.squads]
    squads = make_staff(stories)
    venues = make_venues(staff("owner"))
    plans: dict[str, Plan] = {}
    stages = [_set_stage(story, squads[story.key], venues, plans) for story in stories]
    for stage in stages:
        _play(stage, scale.first)
        go_on_counting(*history.WRITTEN)
        own.begin(stage)
        tonight.begin(stage, stage.today)
        tonight.look_ahead(stage, stage.today)
    go_on_counting(*history.WRITTEN)
    return stages


def _set_stage(story: SquadStory, squad: Squad, venues: dict[str, Venue], plans: dict[str, Plan]) -> Stage:
    """The squad as it stood before its first session."""
    days = training_days(today(), story.weekdays, SESSIONS)
    actors = {username: staff(username) for username in ("assistant", "clinician", story.coach)}
    coach = actors[story.coach]
    fill_calendar(squad, story, venues[story.venue], today(), days[0])
    fill_season(coach, squad, story, today(), days[0])
    return Stage(
        seed=read("club")["seed"],
        today=today(),
        days=days,
        story=story,
        squad=squad,
        staff=actors,
        members=add_members(coach, squad, story, today(), days[0]),
        venues=venues,
        sessions=sessions_of(_plan(coach, story, squad, plans)),
        lifts=_lifts(),
    )


def _plan(coach: Actor, story: SquadStory, squad: Squad, written: dict[str, Plan]) -> Plan:
    """A plan that another squad has already is copied, as a coach would."""
    if story.plan in written:
        return copy_plan(actor=coach, plan=written[story.plan], squad=squad, name=story.plan_name)
    written[story.plan] = make_plan(coach, squad, story)
    return written[story.plan]


def _lifts() -> dict[int, Lift]:
    kg = lifts().kg
    rows = Exercise.objects.filter(origin_key__in=kg).values_list("pk", "origin_key")
    return {pk: Lift(key, kg[key]) for pk, key in rows if key}


def _play(stage: Stage, first: int) -> None:
    """Health is told from the beginning, sets from the first session on."""
    bests.note_start(stage, lifts(), first, stage.days[first] - timedelta(days=10))
    for number, on_date in enumerate(stage.days):
        health.before_session(stage, number, on_date)
        if number >= first:
            history.train(stage, number, on_date)
            if number in lifts().renewed_after:
                bests.note_done(stage, lifts(), on_date)
        health.after_session(stage, number, on_date)
    health.before_session(stage, SESSIONS, stage.today)


def login_lines() -> list[str]:
    rows = Staff.objects.select_related("user").order_by("pk")
    return [f"{row.get_role_display()}: user name {row.user.username}, passphrase {PASSWORD}" for row in rows]


def code_lines() -> list[str]:
    """Make a new code for those of the story who have no phone yet; older codes stop working."""
    return [line for key in full().squads for line in _codes_of(squad_story(key))]


def _codes_of(story: SquadStory) -> list[str]:
    squad = Squad.objects.filter(name=story.name).first()
    if squad is None:
        return []
    athletes = Athlete.objects.live().filter(memberships__squad=squad, given_name__in=story.codes)
    codes = [
        make_enrolment_code(actor=staff(story.coach), athlete=athlete, lifetime=CODE_LIFETIME)
        for athlete in athletes.order_by("search_key")
    ]
    return [
        f"athlete ({story.name}): {made.athlete.name}, code {made.code} at /enrol/ (once, within a day)"
        for made in codes
    ]


def age_lines() -> list[str]:
    """Say so where "today's session" has become yesterday's."""
    newest = (
        Assignment.objects.filter(on_date__lte=today()).order_by("-on_date").values_list("on_date", flat=True).first()
    )
    if newest is None or newest >= today():
        return []
    return [f"The last session here was on {newest}. Start with --reset for one that is today."]
