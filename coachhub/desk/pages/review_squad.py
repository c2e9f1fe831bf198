"""A squad's fortnight, looked at as a coach would: the floor of each session, and each athlete's own days."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final
from urllib.parse import urlencode

from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.cards.queries import SquadReview, review_of_squad
from coachhub.coaching import series
from coachhub.coaching.review import Finding
from coachhub.desk.pages.review import Answering, FindingList, FindingRow, accepted_row, finding_row
from coachhub.people.models import Athlete, Squad
from coachhub.people.queries import live_squads
from coachhub.plans.forms_review import AcceptForm
from coachhub.plans.models import FindingAcceptance
from coachhub.plans.queries_review import parted

DAYS: Final = 14


@dataclass(frozen=True, slots=True)
class FloorRows:
    """One session given to the squad; `title` says day, session and venue."""

    assignment_id: int
    title: str
    found: FindingList


@dataclass(frozen=True, slots=True)
class SquadChecks:
    squad: Squad
    first: date
    last: date
    floors: tuple[FloorRows, ...]
    athletes: FindingList
    at: str

    @property
    def before(self) -> date:
        return self.first - timedelta(days=DAYS)

    @property
    def after(self) -> date:
        return self.first + timedelta(days=DAYS)

    @classmethod
    def of(
        cls, actor: Actor, pk: int, *, from_on: str = "", at: str = "", refused: AcceptForm | None = None
    ) -> SquadChecks:
        """`at`: the list that was just answered."""
        squad = get_object_or_404(live_squads(actor), pk=pk)
        first = monday_of(from_on)
        last = first + timedelta(days=DAYS - 1)
        answering = Answering(reverse("desk:squad_answer", kwargs={"pk": pk}), actor.may_write, refused)
        review = review_of_squad(actor, squad, first, last)
        hidden = (("from", first.isoformat()),)
        return cls(squad, first, last, _floors(review, answering, hidden), _athletes(review, answering, hidden), at)


def monday_of(text: str) -> date:
    """The Monday of the week of that day, of today where it is none that can be shown."""
    try:
        day = date.fromisoformat(text)
    except ValueError:
        day = today()
    if not 2000 <= day.year <= 2100:
        day = today()
    return series.monday_of(day)


def squad_checks_url(pk: int, from_on: str, at: str) -> str:
    query = urlencode({"from": monday_of(from_on), "at": at})
    return f"{reverse('desk:squad_checks', kwargs={'pk': pk})}?{query}"


def _floors(review: SquadReview, answering: Answering, hidden: tuple[tuple[str, str], ...]) -> tuple[FloorRows, ...]:
    own = [row for row in review.acceptances if row.squad_id is not None]
    floors = []
    for day in review.days:
        found = parted(day.findings, own)
        floors.append(
            FloorRows(
                day.assignment_id,
                f"{date_format(day.on_date, 'D j M')}, {day.session}, {day.venue}",
                FindingList(
                    id=f"floor-{day.assignment_id}",
                    rows=tuple(finding_row(one, answering, hidden) for one in found.findings),
                    accepted=tuple(accepted_row(one, [row], hidden) for one, row in found.accepted),
                    looked_at="",
                    answer_url=answering.url,
                    may_answer=answering.may,
                ),
            )
        )
    return tuple(floors)


def _athletes(review: SquadReview, answering: Answering, hidden: tuple[tuple[str, str], ...]) -> FindingList:
    """The same remark on several athletes is one, answered for all of them."""
    own: dict[int, list[FindingAcceptance]] = {}
    for row in review.acceptances:
        if row.athlete_id is not None:
            own.setdefault(row.athlete_id, []).append(row)
    found: dict[Finding, list[Athlete]] = {}
    quiet: dict[tuple[Finding, str], list[tuple[Athlete, FindingAcceptance]]] = {}
    for athlete, findings in review.athletes:
        reviewed = parted(findings, own.get(athlete.pk, ()))
        for one in reviewed.findings:
            found.setdefault(one, []).append(athlete)
        for one, row in reviewed.accepted:
            quiet.setdefault((one, row.word), []).append((athlete, row))
    return FindingList(
        id="athletes",
        rows=_rows(found, answering, hidden),
        accepted=tuple(
            accepted_row(one, [row for _athlete, row in rows], hidden, tuple(athlete.name for athlete, _row in rows))
            for (one, _word), rows in quiet.items()
        ),
        looked_at=_looked_at(len(review.athletes)),
        answer_url=answering.url,
        may_answer=answering.may,
    )


def _rows(
    found: Mapping[Finding, Sequence[Athlete]], answering: Answering, hidden: tuple[tuple[str, str], ...]
) -> tuple[FindingRow, ...]:
    """Warnings first, then by day; each with the athletes it is about."""
    order = sorted(found, key=lambda one: (one.severity != "warning", one.labels[-1], one.code))
    return tuple(
        finding_row(
            one,
            answering,
            (*hidden, *(("athlete", str(athlete.pk)) for athlete in found[one])),
            tuple(athlete.name for athlete in found[one]),
        )
        for one in order
    )


def _looked_at(athletes: int) -> str:
    if not athletes:
        return _("Nobody is in this squad in these two weeks.")
    return ngettext(
        "Looked at: %(n)s athlete’s own days, with all that their squads have, school and other sport.",
        "Looked at: the own days of %(n)s athletes, with all that their squads have, school and other sport.",
        athletes,
    ) % {"n": athletes}
