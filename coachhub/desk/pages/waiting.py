"""What waits for whose word, the oldest first; and who still holds a copy of a card that has changed."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.urls import reverse
from django.utils.formats import date_format
from django.utils.timezone import localtime
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor, ActorKind
from coachhub.base.clock import today
from coachhub.base.text import fold
from coachhub.cards import queries
from coachhub.cards.access import may_lift
from coachhub.cards.models import Card
from coachhub.cards.words import red_flag_text
from coachhub.cards.words_health import exception_text, pain_text, restriction_text, stage_text
from coachhub.desk.pages.cards_today import CopyLine, copy_lines
from coachhub.desk.pages.own import list_url, list_words
from coachhub.people.models import (
    Athlete,
    PainReport,
    RedFlag,
    Restriction,
    RestrictionException,
    ReturnStage,
    StaffRole,
)
from coachhub.people.queries_levels import stages_standing
from coachhub.plans.models import OwnItem
from coachhub.plans.queries_own import own_reviews_due

Coaches = Mapping[int, list[str]]


@dataclass(frozen=True, slots=True)
class Question:
    """`since` is the day from which it stands; `links` are what may be done about it, label and address.

    `is_due`: an answer is wanted now, not on a day to come.

    `athlete` is None where it is about a squad's list: `about` then names it, with its address.
    """

    whose: str
    athlete: Athlete | None
    what: str
    why: str
    since: date
    links: tuple[tuple[str, str], ...]
    is_urgent: bool = False
    is_due: bool = True
    about: tuple[str, str] = ("", "")

    @property
    def who(self) -> tuple[str, str]:
        """Name and address."""
        return self.about if self.athlete is None else (self.athlete.name, _url("athlete_health", self.athlete.pk))


@dataclass(frozen=True, slots=True)
class Group:
    """All that waits for one word: what is due first, the oldest first."""

    whose: str
    questions: list[Question]


@dataclass(frozen=True, slots=True)
class WaitingPage:
    day: date
    groups: list[Group]
    copies: list[CopyLine]

    @classmethod
    def of(cls, actor: Actor) -> WaitingPage:
        day = today()
        copies = copy_lines(queries.old_copies(Card.objects.visible_to(actor), day))
        return cls(day, groups_of(actor, all_questions(actor, day)), copies)

    @property
    def count(self) -> int:
        return sum(len(group.questions) for group in self.groups)


def all_questions(actor: Actor, day: date) -> list[Question]:
    flags, pains = list(queries.standing_flags(actor)), list(queries.open_pains(actor))
    held = list(queries.restrictions_waiting(actor, day))
    over = list(queries.exceptions_over(actor, day))
    full: list[Any] = list(queries.still_full(actor, day))
    coaches = queries.coaches_of({pain.athlete_id for pain in pains} | {row.pk for row in full}, day)
    return [
        *(flag_question(row) for row in flags),
        *(pain_question(row, coaches) for row in pains),
        *(full_question(row, coaches) for row in full),
        *(restriction_question(actor, row, day) for row in held),
        *(exception_question(actor, row) for row in over),
        *(stage_question(row) for row in stages_standing(actor, day)),
        *(own_question(actor, row) for row in own_reviews_due(actor, day)),
    ]


def groups_of(actor: Actor, questions: Iterable[Question]) -> list[Group]:
    """The actor's own first, then the clinician's, then by name."""
    found: defaultdict[str, list[Question]] = defaultdict(list)
    names: dict[str, str] = {}
    for question in questions:
        key = fold(question.whose)
        names.setdefault(key, question.whose)
        found[key].append(question)
    mine = fold(clinician() if actor.kind is ActorKind.CLINICIAN else actor.name)

    def order(key: str) -> tuple[bool, bool, str]:
        return (mine not in key, key != fold(clinician()), key)

    return [Group(names[key], sorted(found[key], key=by_age)) for key in sorted(found, key=order)]


def by_age(question: Question) -> tuple[bool, bool, date, str]:
    name = question.athlete.search_key if question.athlete else fold(question.about[0])
    return (not question.is_urgent, not question.is_due, question.since, name)


def clinician() -> str:
    return _("a clinician or doctor")


def flag_question(row: RedFlag) -> Question:
    links = ((_("Record the clearance"), _url("red_flag_clear", row.pk)),)
    why = _("red flag: the cards wait")
    return Question(clinician(), row.athlete, red_flag_text(row.kind), why, row.on_date, links, is_urgent=True)


def pain_question(row: PainReport, coaches: Coaches) -> Question:
    links = ((_("Clear"), _url("pain_clear", row.pk)),)
    return Question(
        coach_of(row.athlete_id, coaches),
        row.athlete,
        pain_text(row),
        _("something hurts: loads are held"),
        row.on_date,
        links,
    )


def coach_of(athlete_id: int, coaches: Coaches) -> str:
    names = coaches.get(athlete_id, [])
    return _(" or ").join(names) if names else _("the club's owner: no coach has this athlete")


def full_question(row: Any, coaches: Coaches) -> Question:
    """`row`: an athlete of `still_full`. Nothing sets it but a person."""
    since = min(at for at in (row.held_at, row.hurt_at, row.flagged_at) if at)
    links = ((_("Set availability"), _url("availability", row.pk)),)
    why = _("restricted or hurting; the head coach reads “full”")
    what = _("availability still says full")
    return Question(coach_of(row.pk, coaches), row, what, why, localtime(since).date(), links)


def restriction_question(actor: Actor, row: Restriction, day: date) -> Question:
    return Question(
        word_of(row),
        row.athlete,
        restriction_text(row),
        review_words(row, day),
        row.starts_on,
        tuple(answers(actor, row)),
        is_due=row.needs_review_on(day),
    )


def word_of(row: Restriction) -> str:
    return clinician() if row.is_clinical else row.on_word_of


def review_words(row: Restriction, day: date) -> str:
    hold = _("a clinician's hold, ") if row.is_clinical else ""
    if row.review_on is None:
        return hold + _("no day set to look at it again")
    told = {"day": date_format(row.review_on, "j M"), "word": row.on_word_of}
    if row.review_on <= day:
        return hold + _("was to be looked at again on %(day)s (%(word)s)") % told
    return hold + _("to be looked at again on %(day)s (%(word)s)") % told


def answers(actor: Actor, row: Restriction) -> Iterator[tuple[str, str]]:
    if may_lift(actor, row):
        yield _("It stays"), _url("restriction_keep", row.pk)
        yield _("Lift"), _url("restriction_lift", row.pk)


def exception_question(actor: Actor, row: RestrictionException) -> Question:
    held: Any = row.restriction
    links: Sequence[tuple[str, str]] = ()
    if may_lift(actor, held):
        links = ((_("Allow it again"), _url("restriction_except", held.pk)),)
    why = _("exception over: restricted again")
    since = row.until_on or held.starts_on
    whose = clinician() if held.is_clinical else row.on_word_of
    return Question(whose, held.athlete, exception_text(row), why, since, tuple(links))


def stage_question(row: ReturnStage) -> Question:
    """Nothing moves a stage but a person, so each one that stands is a question."""
    set_by: Any = row.set_by
    is_clinical = hasattr(set_by, "staff") and set_by.staff.role == StaffRole.CLINICIAN
    whose = clinician() if is_clinical else row.on_word_of
    what = _("coming back, %(stage)s") % {"stage": stage_text(row.stage)}
    why = _("on to the next stage, or not? (%(word)s)") % {"word": row.on_word_of}
    links = ((_("Set the stage"), _url("return_stage", row.athlete_id)),)
    return Question(whose, row.athlete, what, why, row.from_on, links)


def own_question(actor: Actor, row: OwnItem) -> Question:
    """Own activation work whose day to be looked at again has come."""
    links = ((_("It stays"), _url("own_item_keep", row.pk)), (_("Change or end it"), list_url(row)))
    what = _("own activation: %(exercise)s") % {"exercise": row.exercise.name}
    why = _("was to be looked at again on %(day)s") % {"day": date_format(row.review_on or row.from_on, "j M")}
    return Question(
        giver_of(row),
        row.athlete,
        what,
        why,
        row.from_on,
        links if actor.may_write else (),
        about=(list_words(row), list_url(row)),
    )


def giver_of(row: OwnItem) -> str:
    given_by: Any = row.added_by
    return str(given_by.staff.name) if given_by else _("the club's owner")


def _url(name: str, pk: int) -> str:
    return reverse(f"desk:{name}", kwargs={"pk": pk})
