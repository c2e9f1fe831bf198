"""What the checks remark on sessions and weeks as they are written, and what was accepted of it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from django.db.models import Q, QuerySet

from coachhub.coaching.coverage import Movement
from coachhub.coaching.facts import ExerciseFacts
from coachhub.coaching.limits import MAXIMAL_AGE
from coachhub.coaching.notation import Dose
from coachhub.coaching.review import (
    Finding,
    Person,
    Phase,
    Setting,
    Thresholds,
    open_ones,
    review_session,
    review_week,
)
from coachhub.people.models import Athlete
from coachhub.plans.facts_review import Weeks, bare_minutes, facts_of, with_dose, written_facts
from coachhub.plans.models import FindingAcceptance, Plan, ReviewSetting, Session
from coachhub.plans.queries import load_plan, movements, weeks_of
from coachhub.plans.tree import Block, Line, SessionTree


@dataclass(frozen=True, slots=True)
class Reviewed:
    """What nobody has accepted, and what somebody has: each with its acceptance."""

    findings: tuple[Finding, ...]
    accepted: tuple[tuple[Finding, FindingAcceptance], ...]


@dataclass(frozen=True, slots=True)
class ReviewedWeek:
    """A week of a plan: what is remarked on it as a whole, and on each of its sessions as it stands in that week."""

    week: int
    whole: Reviewed
    sessions: tuple[tuple[Session, Reviewed], ...]


@dataclass(frozen=True, slots=True)
class Held:
    """What sessions are held to: the club's thresholds, the squad if it is for the young, the acceptances."""

    exercises: Mapping[int, ExerciseFacts]
    values: Weeks
    thresholds: Thresholds
    youth: Person | None
    acceptances: Sequence[FindingAcceptance]


def thresholds() -> Thresholds:
    rows = list(ReviewSetting.objects.all())
    off = frozenset(row.rule for row in rows if not row.is_on)
    return Thresholds(off, {row.rule: row.value for row in rows if row.value is not None})


def standing_acceptances(about: Q) -> QuerySet[FindingAcceptance]:
    return FindingAcceptance.objects.standing().filter(about).select_related("accepted_by__staff")


def parted(findings: Sequence[Finding], acceptances: Iterable[FindingAcceptance]) -> Reviewed:
    """Put findings and acceptances together; an acceptance whose finding is gone says nothing."""
    by_key = {row.key: row for row in acceptances}
    quiet = tuple((one, by_key[one.key]) for one in findings if one.key in by_key)
    return Reviewed(open_ones(findings, frozenset(by_key)), quiet)


def exercises_of(trees: Sequence[SessionTree], known: Mapping[int, Movement]) -> dict[int, ExerciseFacts]:
    """Facts of every exercise of a line or a swap; `known` by `movements`. No query."""
    return {pk: facts_of(row, known.get(pk)) for tree in trees for pk, row in tree.exercises.items()}


def youth_of(plan: Plan, day: date) -> Person | None:
    """The oldest of the plan's squad where all are under 16; None where somebody is older, or the plan is nobody's."""
    if plan.squad_id is None:
        return None
    members = Athlete.objects.members_of(plan.squad_id, day)
    oldest = members.order_by("born_on").first()
    if oldest is None or oldest.age_on(day) >= MAXIMAL_AGE:
        return None
    return Person(oldest.age_on(day))


def review_of_session(tree: SessionTree, known: Mapping[int, Movement], day: date) -> Reviewed:
    """The session as it is written, without what differs from week to week. Two queries, three for a squad's."""
    acceptances = list(standing_acceptances(Q(session=tree.session)))
    exercises, youth = exercises_of([tree], known), youth_of(tree.session.plan, day)
    return _session(tree, 0, Held(exercises, {}, thresholds(), youth, acceptances))


def review_of_line(tree: SessionTree, block: Block, line: Line, dose: Dose, day: date) -> Reviewed:
    """What would be remarked on the line with this dose, and on nothing else of the session."""
    known = movements(one.exercise.pk for one in tree.lines)
    facts = with_dose(written_facts(tree, exercises_of([tree], known)), block, line, dose)
    setting = Setting(tree.session.slot_minutes, bare_minutes(tree), youth_of(tree.session.plan, day))
    found = review_session(facts, setting, thresholds())
    about = [one for one in found if line.row.line_key in {where.key for where in one.where}]
    return parted(about, standing_acceptances(Q(session=tree.session)))


def review_of_plan(plan: Plan, day: date, phase: Phase | None = None) -> tuple[ReviewedWeek, ...]:
    """Every week of the plan, in the same queries for one week and fifty."""
    trees = load_plan(plan)
    lines = [line for tree in trees for line in tree.lines]
    known = movements(pk for tree in trees for pk in tree.exercises) if lines else {}
    about = Q(plan=plan) | Q(session__in=[tree.session for tree in trees])
    held = Held(
        exercises=exercises_of(trees, known),
        values=weeks_of(*(tree.session for tree in trees)),
        thresholds=thresholds(),
        youth=youth_of(plan, day),
        acceptances=list(standing_acceptances(about)),
    )
    return tuple(_week(week, trees, held, phase) for week in range(1, plan.weeks + 1))


def _week(week: int, trees: Sequence[SessionTree], held: Held, phase: Phase | None) -> ReviewedWeek:
    there = [tree for tree in trees if week in tree.session.weeks]
    facts = [written_facts(tree, held.exercises, held.values, week) for tree in there]
    whole = parted(review_week(facts, phase, held.thresholds), [row for row in held.acceptances if row.week == week])
    return ReviewedWeek(week, whole, tuple((tree.session, _session(tree, week, held)) for tree in there))


def _session(tree: SessionTree, week: int, held: Held) -> Reviewed:
    setting = Setting(tree.session.slot_minutes, bare_minutes(tree), held.youth)
    found = review_session(written_facts(tree, held.exercises, held.values, week), setting, held.thresholds)
    return parted(found, [row for row in held.acceptances if row.session_id == tree.session.pk])
