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
from coachhub.desk.pages.cards_today import CopyLine, FlagLine, PainLine, copy_lines
from coachhub.desk.pages.coming_back import StageLine
from coachhub.desk.pages.forms import FormPage
from coachhub.people.access import sees_diagnosis
from coachhub.people.models import Athlete, PainReport, RedFlag, Restriction
from coachhub.people.queries_levels import stage_of

# Of each kind: enough to see a pattern.
PAST_AT_MOST: Final = 50


@dataclass(frozen=True, slots=True)
class RestrictionLine:
    """`diagnosis` is empty for whoever may not read it; `set_by` typed it in."""

    row: Restriction
    what: str
    set_by: str
    diagnosis: str
    exceptions: tuple[str, ...]
    is_due: bool
    may_lift: bool


@dataclass(frozen=True, slots=True)
class Health:
    """An athlete's page shows what stands (`desk/parts/athlete_health.html`); their health page is whole.

    Whole: with what is over, and with the copies that are out of date.
    """

    athlete: Athlete
    day: date
    all_flags: tuple[FlagLine, ...]
    all_pains: tuple[PainLine, ...]
    all_restrictions: tuple[RestrictionLine, ...]
    copies: list[CopyLine]
    is_still_full: bool
    stage: StageLine | None

    @classmethod
    def of(cls, actor: Actor, athlete: Athlete, *, is_whole: bool = False) -> Health:
        day = today()
        flags = queries.flags_to_read(actor).filter(athlete=athlete)
        pains = queries.pains_to_read(actor).filter(athlete=athlete)
        held = queries.restrictions_to_read(actor).filter(athlete=athlete)
        if not is_whole:
            flags, pains, held = (
                flags.filter(cleared_at=None),
                pains.filter(cleared_at=None),
                held.filter(lifted_at=None),
            )
        return cls(
            athlete=athlete,
            day=day,
            all_flags=tuple(FlagLine(row, red_flag_text(row.kind)) for row in flags),
            all_pains=tuple(PainLine(row, pain_text(row)) for row in pains),
            all_restrictions=tuple(restriction_line(actor, row, day) for row in held),
            copies=copy_lines(queries.old_copies(cards_of(actor, athlete), day)) if is_whole else [],
            is_still_full=queries.still_full(actor, day).filter(pk=athlete.pk).exists(),
            stage=StageLine.of(stage) if (stage := stage_of(athlete, day)) else None,
        )

    @property
    def flags(self) -> list[FlagLine]:
        return [line for line in self.all_flags if line.row.cleared_at is None]

    @property
    def pains(self) -> list[PainLine]:
        return [line for line in self.all_pains if line.row.cleared_at is None]

    @property
    def restrictions(self) -> list[RestrictionLine]:
        return [line for line in self.all_restrictions if line.row.lifted_at is None]

    @property
    def past_flags(self) -> list[FlagLine]:
        return [line for line in self.all_flags if line.row.cleared_at][:PAST_AT_MOST]

    @property
    def past_pains(self) -> list[PainLine]:
        return [line for line in self.all_pains if line.row.cleared_at][:PAST_AT_MOST]

    @property
    def past_restrictions(self) -> list[RestrictionLine]:
        return [line for line in self.all_restrictions if line.row.lifted_at][:PAST_AT_MOST]

    @property
    def is_clear(self) -> bool:
        return not (self.flags or self.pains or self.restrictions)

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


def keep_form_page(row: Restriction) -> FormPage:
    return FormPage(
        _("%(name)s: %(what)s stays restricted") % _who(row, restriction_text(row)),
        _("It stays"),
        health_url(row.athlete_id),
        _("On the word of %(word)s since %(day)s. Say when the question is asked again.") % _word(row),
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


def health_part(actor: Actor, athlete: Athlete) -> Health | None:
    """None for whoever reads no health: head coach and assistants."""
    return Health.of(actor, athlete) if actor.sees_health else None


def instead_part(actor: Actor, athlete: Athlete) -> list[str]:
    """For those on the floor who read no health."""
    return queries.can_do_instead([athlete.pk]) if actor.may_log and not actor.sees_health else []


def health_url(pk: int) -> str:
    return reverse("desk:athlete_health", kwargs={"pk": pk})


def cards_of(actor: Actor, athlete: Athlete) -> CardQuerySet:
    return Card.objects.visible_to(actor).filter(athlete=athlete)


def restriction_line(actor: Actor, row: Restriction, day: date) -> RestrictionLine:
    return RestrictionLine(
        row=row,
        what=restriction_text(row),
        set_by=row.set_by.staff.name if hasattr(row.set_by, "staff") else "",
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
    held = len(copy_lines(queries.old_copies(cards_of(actor, athlete), today())))
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
