"""Who looks after an athlete and what they agreed to: on the athlete's page, in lists, and a guardian's own page."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.base.text import tel_address
from coachhub.desk.pages.forms import FormPage
from coachhub.people import queries_care as queries
from coachhub.people.access import sees_emergency, sees_guardian_email
from coachhub.people.models import Athlete, Consent, ConsentKind, Guardianship, Squad


@dataclass(frozen=True, slots=True)
class Reach:
    """A number as it is written, and the address that calls it; `tel` is empty where no number is in it."""

    text: str
    tel: str

    @classmethod
    def of(cls, text: str) -> Reach:
        return cls(text, tel_address(text))


@dataclass(frozen=True, slots=True)
class GuardianLine:
    """`email` is empty for whoever may not read it."""

    pk: int
    name: str
    relation: str
    phone: Reach
    email: str

    @classmethod
    def of(cls, actor: Actor, link: Guardianship) -> GuardianLine:
        guardian = link.guardian
        email = guardian.email if sees_guardian_email(actor) else ""
        return cls(guardian.pk, guardian.name, link.relation, Reach.of(guardian.phone), email)


@dataclass(frozen=True, slots=True)
class ConsentLine:
    """One kind of consent: the row that stands, or None where it is missing."""

    kind: str
    words: str
    row: Consent | None
    is_wanted: bool


@dataclass(frozen=True, slots=True)
class CarePart:
    """Of an athlete's page. `is_alone`: under 18, and no guardian is noted."""

    guardians: list[GuardianLine]
    consents: list[ConsentLine]
    withdrawn: list[Consent]
    is_minor: bool
    is_alone: bool

    @classmethod
    def of(cls, actor: Actor, athlete: Athlete, squads: Iterable[Squad]) -> CarePart | None:
        """None for whoever reads none of it."""
        if not sees_emergency(actor):
            return None
        links, consents = list(queries.guardians_of(athlete)), list(athlete.consents.all())
        is_minor = athlete.is_minor_on(today())
        return cls(
            guardians=[GuardianLine.of(actor, link) for link in links],
            consents=consent_lines([row for row in consents if row.withdrawn_on is None], squads),
            withdrawn=[row for row in consents if row.withdrawn_on],
            is_minor=is_minor,
            is_alone=is_minor and not links,
        )

    @property
    def missing(self) -> int:
        return sum(1 for line in self.consents if line.is_wanted and line.row is None)


def consent_lines(standing: Iterable[Consent], squads: Iterable[Squad]) -> list[ConsentLine]:
    rows = {row.kind: row for row in standing}
    wanted = queries.consents_wanted(squads)
    return [ConsentLine(kind, str(kind.label), rows.get(kind), kind in wanted) for kind in ConsentKind]


def missing_words(athlete: Any, *, has_guardian: bool, squads: Iterable[Squad]) -> list[str]:
    """What a list says of an athlete with `standing_consents`."""
    words = []
    if athlete.is_minor_on(today()) and not has_guardian:
        words.append(_("no guardian noted"))
    missing = queries.consents_missing(athlete.standing_consents, squads)
    if missing and not athlete.standing_consents:
        words.append(_("no consent on file"))
    elif missing:
        words.append(_("no consent for %(what)s") % {"what": ", ".join(str(kind.label) for kind in missing)})
    return words


@dataclass(frozen=True, slots=True)
class ChildLine:
    pk: int
    name: str
    relation: str


@dataclass(frozen=True, slots=True)
class GuardianPage:
    """Whose guardian, as far as the actor sees them, and how to reach them."""

    name: str
    phone: Reach
    email: str
    children: list[ChildLine]

    @classmethod
    def of(cls, actor: Actor, pk: int) -> GuardianPage:
        row: Any = get_object_or_404(queries.guardians_with_children(actor), pk=pk)
        return cls(
            name=row.name,
            phone=Reach.of(row.phone),
            email=row.email if sees_guardian_email(actor) else "",
            children=[ChildLine(link.athlete_id, link.athlete.name, link.relation) for link in row.seen_links],
        )


def find_link(athlete: Athlete, guardian_pk: int) -> Guardianship:
    """404 where this guardian does not look after the athlete."""
    return get_object_or_404(queries.guardians_of(athlete), guardian=guardian_pk)


def add_page(athlete: Athlete) -> FormPage:
    intro = _("Brothers and sisters share a guardian: choose them, so that a new number is written once.")
    return FormPage(_("A guardian of %(name)s") % {"name": athlete}, _("Add guardian"), athlete_url(athlete), intro)


def edit_page(link: Guardianship) -> FormPage:
    intro = _("Name, phone and e-mail change for every child of theirs; the relation for %(name)s alone.")
    told = {"name": link.athlete.name}
    return FormPage(_("Change %(name)s") % {"name": link.guardian}, _("Save"), athlete_url(link.athlete), intro % told)


def remove_page(link: Guardianship) -> FormPage:
    told = {"guardian": link.guardian.name, "name": link.athlete.name}
    return FormPage(
        _("%(guardian)s no longer looks after %(name)s?") % told,
        _("Remove"),
        athlete_url(link.athlete),
        _("Other children of theirs keep them. Where there is none, name, phone and e-mail are deleted."),
        is_stop=True,
    )


def give_page(athlete: Athlete) -> FormPage:
    intro = _("What was signed, by whom and when. The paper itself stays with the club.")
    return FormPage(_("Consent for %(name)s") % {"name": athlete}, _("Put on file"), athlete_url(athlete), intro)


def withdraw_page(consent: Consent) -> FormPage:
    told = {"what": consent.get_kind_display(), "name": consent.athlete.name}
    intro = _("Given by %(by)s. It stays on file as withdrawn; what was trained and written stays too.")
    return FormPage(
        _("Consent for %(what)s of %(name)s is withdrawn") % told,
        _("Withdraw"),
        athlete_url(consent.athlete),
        intro % {"by": consent.given_by},
        is_stop=True,
    )


def athlete_url(athlete: Athlete) -> str:
    return reverse("desk:athlete", kwargs={"pk": athlete.pk})
