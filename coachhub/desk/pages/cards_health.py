"""An athlete's health: what stands, on whose word, and who still holds a card from before. Also part of their page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from django.urls import reverse
from django.utils.formats import date_format
from django.utils.timezone import localtime
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.cards import queries
from coachhub.cards.access import may_lift
from coachhub.cards.models import Card, CardQuerySet
from coachhub.cards.words import red_flag_text
from coachhub.cards.words_health import exception_text, pain_text, restriction_text
from coachhub.desk.pages.athletes import find_athlete
from coachhub.desk.pages.cards_today import CopyLine, FlagLine, PainLine, copy_lines
from coachhub.desk.pages.forms import FormPage
from coachhub.people.access import sees_diagnosis
from coachhub.people.models import Athlete, PainReport, RedFlag, Restriction

PAST_AT_MOST: Final = 20


@dataclass(frozen=True, slots=True)
class RestrictionLine:
    """`diagnosis` is empty for whoever may not read it."""

    row: Restriction
    what: str
    diagnosis: str
    exceptions: tuple[str, ...]
    is_due: bool
    may_lift: bool


@dataclass(frozen=True, slots=True)
class HealthPart:
    """What stands now, for `desk/parts/athlete_health.html`."""

    athlete: Athlete
    day: date
    flags: tuple[FlagLine, ...]
    pains: tuple[PainLine, ...]
    restrictions: tuple[RestrictionLine, ...]
    copies: list[CopyLine]

    @classmethod
    def of(cls, actor: Actor, athlete: Athlete) -> HealthPart:
        day = today()
        flags = queries.flags_to_read(actor).filter(athlete=athlete, cleared_at=None)
        pains = queries.pains_to_read(actor).filter(athlete=athlete, cleared_at=None)
        standing = queries.restrictions_to_read(actor).filter(athlete=athlete, lifted_at=None)
        return cls(
            athlete=athlete,
            day=day,
            flags=tuple(FlagLine(row, red_flag_text(row.kind)) for row in flags),
            pains=tuple(PainLine(row, pain_text(row)) for row in pains),
            restrictions=tuple(restriction_line(actor, row, day) for row in standing),
            copies=copy_lines(queries.with_outdated_copy(cards_of(actor, athlete), day)),
        )

    @property
    def is_clear(self) -> bool:
        return not (self.flags or self.pains or self.restrictions)


@dataclass(frozen=True, slots=True)
class HealthPage:
    """The part, and what is over."""

    health: HealthPart
    past_restrictions: tuple[RestrictionLine, ...]
    past_pains: tuple[PainLine, ...]
    past_flags: tuple[FlagLine, ...]

    @classmethod
    def of(cls, actor: Actor, pk: int) -> HealthPage:
        athlete = find_athlete(actor, pk)
        part = HealthPart.of(actor, athlete)
        day = part.day
        lifted = queries.restrictions_to_read(actor).filter(athlete=athlete, lifted_at__isnull=False)
        pains = queries.pains_to_read(actor).filter(athlete=athlete, cleared_at__isnull=False)
        flags = queries.flags_to_read(actor).filter(athlete=athlete, cleared_at__isnull=False)
        return cls(
            part,
            tuple(restriction_line(actor, row, day) for row in lifted[:PAST_AT_MOST]),
            tuple(PainLine(row, pain_text(row)) for row in pains[:PAST_AT_MOST]),
            tuple(FlagLine(row, red_flag_text(row.kind)) for row in flags[:PAST_AT_MOST]),
        )

    @property
    def has_past(self) -> bool:
        return bool(self.past_restrictions or self.past_pains or self.past_flags)


def lift_form_page(row: Restriction) -> FormPage:
    return FormPage(
        _("Lift the restriction of %(name)s: %(what)s") % _who(row, restriction_text(row)),
        _("Lift it"),
        health_url(row.athlete_id),
        _("On the word of %(word)s since %(day)s. What comes back is eased in, lighter than before.") % _word(row),
        is_stop=True,
    )


def exception_form_page(row: Restriction) -> FormPage:
    return FormPage(
        _("Exception for %(name)s: %(what)s") % _who(row, restriction_text(row)),
        _("Allow it"),
        health_url(row.athlete_id),
        _("The restriction stays; one exercise is allowed by name, up to a load if you say one."),
    )


def pain_form_page(row: PainReport) -> FormPage:
    intro = _("Reported %(when)s. Once it is cleared loads may rise again, and lines that were off come back.")
    return FormPage(
        _("Clear the pain of %(name)s: %(what)s") % _who(row, pain_text(row)),
        _("Clear it"),
        health_url(row.athlete_id),
        intro % {"when": date_format(localtime(row.reported_at), "j M, H:i")},
    )


def flag_form_page(row: RedFlag) -> FormPage:
    intro = _("%(day)s. The cards of this athlete wait until a clearance with name and date is recorded.")
    return FormPage(
        _("Clearance of %(name)s after: %(what)s") % _who(row, red_flag_text(row.kind)),
        _("Record the clearance"),
        health_url(row.athlete_id),
        intro % {"day": date_format(row.on_date, "j F")},
    )


def restrict_form_page(athlete: Athlete) -> FormPage:
    return FormPage(
        _("Restrict %(name)s") % {"name": athlete.name},
        _("Set the restriction"),
        health_url(athlete.pk),
        _("It changes the cards of today and later at once, also those that are begun."),
    )


def _who(row: Restriction | PainReport | RedFlag, what: str) -> dict[str, str]:
    return {"name": row.athlete.name, "what": what}


def _word(row: Restriction) -> dict[str, str]:
    return {"word": row.on_word_of, "day": date_format(row.starts_on, "j F")}


def health_part(actor: Actor, athlete: Athlete) -> HealthPart | None:
    """None for whoever reads no health: head coach and assistants."""
    return HealthPart.of(actor, athlete) if actor.sees_health else None


def health_url(pk: int) -> str:
    return reverse("desk:athlete_health", kwargs={"pk": pk})


def cards_of(actor: Actor, athlete: Athlete) -> CardQuerySet:
    return Card.objects.visible_to(actor).filter(athlete=athlete)


def restriction_line(actor: Actor, row: Restriction, day: date) -> RestrictionLine:
    return RestrictionLine(
        row=row,
        what=restriction_text(row),
        diagnosis=row.diagnosis if sees_diagnosis(actor) else "",
        exceptions=tuple(exception_text(one) for one in row.exceptions.all()),
        is_due=row.needs_review_on(day),
        may_lift=may_lift(actor, row),
    )


def reached(actor: Actor, athlete: Athlete, cards: Sequence[Card]) -> str:
    """Say loudly what a change in health did to cards that exist."""
    begun = sum(1 for card in cards if card.started_at)
    text = ngettext("%(n)s card changed", "%(n)s cards changed", len(cards)) % {"n": len(cards)}
    if begun:
        text += ngettext(", %(n)s of them begun", ", %(n)s of them begun", begun) % {"n": begun}
    held = queries.with_outdated_copy(cards_of(actor, athlete), today()).count()
    if not held:
        return f"{text}."
    copies = ngettext(
        "%(n)s printed or offline copy is out of date: take it back or correct it by hand.",
        "%(n)s printed or offline copies are out of date: take them back or correct them by hand.",
        held,
    ) % {"n": held}
    return f"{text}. {copies}"


def nothing_new() -> str:
    return _("This was done already.")
