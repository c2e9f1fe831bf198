"""A plan fitted to the season: each session's day with why, before anything is written; the rules it follows."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from urllib.parse import urlencode

from django.urls import reverse
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.cards.queries.fitting import PlanFit, Standing, fit_plan, plans_under_way, slot_of, start_of
from coachhub.coaching.fitting import FitRule, Placed, Unplaced, distances
from coachhub.people.models import Athlete, Squad
from coachhub.plans.models import Plan, SessionRole
from coachhub.plans.queries_fit import rules_of
from coachhub.plans.words_fit import md_list, note_words, rule_words
from coachhub.season.models import MatchDay


@dataclass(frozen=True, slots=True)
class FitLine:
    """One session on its day. `state`: new, moves, stays or fixed."""

    on: date
    time: str
    md: str
    name: str
    session_pk: int
    venue: str
    state: str
    words: str
    why: str


@dataclass(frozen=True, slots=True)
class FitWeek:
    week: int
    lines: tuple[FitLine, ...]


@dataclass(frozen=True, slots=True)
class LeftLine:
    """A session without a place; `stands`: the day on which it is given all the same."""

    week: int
    name: str
    session_pk: int
    stands: str
    why: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RuleLine:
    role: str
    words: str


def rule_lines(squad: Squad) -> tuple[RuleLine, ...]:
    return tuple(RuleLine(_role(rule), rule_words(rule)) for rule in rules_of(squad))


def _role(rule: FitRule) -> str:
    return str(SessionRole(rule.role).label).capitalize()


@dataclass(frozen=True, slots=True)
class FitPage:
    """`found`: None while the form says no week, or the plan is of no squad."""

    plan: Plan
    rules: tuple[RuleLine, ...]
    athletes: int
    found: PlanFit | None
    weeks: tuple[FitWeek, ...] = ()
    left: tuple[LeftLine, ...] = ()

    @classmethod
    def of(cls, plan: Plan, starts_on: date | None) -> FitPage:
        if plan.squad is None:
            return cls(plan, (), 0, None)
        athletes = Athlete.objects.members_of(plan.squad.pk, today()).count()
        rules = rule_lines(plan.squad)
        if starts_on is None:
            return cls(plan, rules, athletes, None)
        found = fit_plan(plan, plan.squad, starts_on)
        left = tuple(_left_line(found, one) for one in found.unplaced)
        return cls(plan, rules, athletes, found, _weeks(found), left)

    @property
    def digest(self) -> str:
        return self.found.digest if self.found else ""

    @property
    def summary(self) -> str:
        """ "3 sessions to give, 2 sessions to move": what confirming writes; empty where it would be nothing."""
        if self.found is None:
            return ""
        new, moves = len(self.found.new), len(self.found.moves)
        told = [
            ngettext("%(n)d session to give", "%(n)d sessions to give", new) % {"n": new} if new else "",
            ngettext("%(n)d session to move", "%(n)d sessions to move", moves) % {"n": moves} if moves else "",
        ]
        return ", ".join(text for text in told if text)


def moved_words(count: int) -> str:
    return ngettext("%(n)d session is moved.", "%(n)d sessions are moved.", count) % {"n": count}


def _weeks(found: PlanFit) -> tuple[FitWeek, ...]:
    lines: dict[int, list[FitLine]] = {}
    for one in found.placed:
        lines.setdefault(one.session.week, []).append(_line(found, one))
    for (pk, week), given in found.standing.items():
        if given.is_fixed:
            lines.setdefault(week, []).append(_fixed_line(found, pk, given))
    return tuple(
        FitWeek(week, tuple(sorted(those, key=lambda one: (one.on, one.time)))) for week, those in sorted(lines.items())
    )


def _line(found: PlanFit, one: Placed) -> FitLine:
    stood = found.standing.get(slot_of(one.session))
    state, words = _state(found, one, stood)
    return FitLine(
        on=one.opening.on,
        time=f"{one.opening.starts_at:%H:%M}",
        md=md_list(distances(one.opening.on, found.matches)[:1]),
        name=found.sessions[one.session.session_id].name,
        session_pk=one.session.session_id,
        venue=found.venues.get(one.opening.venue_id, ""),
        state=state,
        words=words,
        why="; ".join(note_words(step) for step in one.why),
    )


def _state(found: PlanFit, one: Placed, stood: Standing | None) -> tuple[str, str]:
    if stood is None:
        return "new", _("new")
    if found.stays(one):
        return "stays", _("stays")
    return "moves", _("moves from %(day)s") % {"day": date_format(stood.assignment.on_date, "D j M")}


def _fixed_line(found: PlanFit, pk: int, given: Standing) -> FitLine:
    row = given.assignment
    is_over = row.on_date < today()
    return FitLine(
        on=row.on_date,
        time="",
        md=md_list(distances(row.on_date, found.matches)[:1]),
        name=found.sessions[pk].name,
        session_pk=pk,
        venue=found.venues.get(row.venue_id, ""),
        state="fixed",
        words=_("stays"),
        why=_("its day is over") if is_over else _("it is begun"),
    )


def _left_line(found: PlanFit, one: Unplaced) -> LeftLine:
    stood = found.standing.get(slot_of(one.session))
    return LeftLine(
        week=one.session.week,
        name=found.sessions[one.session.session_id].name,
        session_pk=one.session.session_id,
        stands=date_format(stood.assignment.on_date, "D j M") if stood else "",
        why=tuple(dict.fromkeys(note_words(step) for step in one.why)),
    )


def fit_url(plan: Plan, starts_on: date | None = None) -> str:
    url = reverse("desk:plan_fit", kwargs={"pk": plan.pk})
    return f"{url}?{urlencode({'starts_on': starts_on.isoformat()})}" if starts_on else url


@dataclass(frozen=True, slots=True)
class WouldMove:
    words: str
    url: str


def would_move(actor: Actor, match: MatchDay) -> WouldMove | None:
    """The first of the squad's plans of which sessions would move, now that its matches are as they are."""
    for plan in _own_plans(actor, match.squad):
        found = fit_plan(plan, match.squad, start_of(plan))
        if found.moves:
            n = len(found.moves)
            words = ngettext(
                "%(n)d session of “%(plan)s” would move for the match. Nothing moves until you confirm.",
                "%(n)d sessions of “%(plan)s” would move for the match. Nothing moves until you confirm.",
                n,
            )
            return WouldMove(words % {"n": n, "plan": plan.name}, fit_url(plan))
    return None


def _own_plans(actor: Actor, squad: Squad) -> Iterable[Plan]:
    return [plan for plan in plans_under_way(squad) if actor.may_write and plan.squad_id == squad.pk]
