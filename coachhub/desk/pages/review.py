"""What the checks show beside a session and on the page of a plan: findings, and what was accepted of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import groupby
from typing import Any
from urllib.parse import urlencode

from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.coaching.coverage import Movement
from coachhub.coaching.notation import Dose
from coachhub.coaching.review import PHASES, USUAL, Finding
from coachhub.plans.access import may_edit
from coachhub.plans.forms_review import AcceptForm
from coachhub.plans.models import FindingAcceptance, Plan, Session
from coachhub.plans.queries_review import ReviewedWeek, review_of_line, review_of_plan, review_of_session
from coachhub.plans.tree import Block, Line, SessionTree
from coachhub.plans.words_review import PHASE_NAMES, finding_text, looked_at_text, suggestion_text
from coachhub.season.queries_phases import phase_on

Hidden = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class FindingRow:
    """`form` to accept it with; None where the actor may not. `names`: the athletes it is about."""

    text: str
    suggestion: str
    is_warning: bool
    form: AcceptForm | None
    hidden: Hidden = ()
    names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class AcceptedRow:
    """`ids` of the acceptances that are withdrawn together; `hidden`: where that leads back to."""

    text: str
    word: str
    by: str
    at: datetime
    ids: tuple[int, ...]
    names: tuple[str, ...] = ()
    hidden: Hidden = ()


@dataclass(frozen=True, slots=True)
class FindingList:
    """`id`: of its heading; `looked_at`: what there is to say where nothing is remarked."""

    id: str
    rows: tuple[FindingRow, ...]
    accepted: tuple[AcceptedRow, ...]
    looked_at: str
    answer_url: str
    may_answer: bool

    @property
    def title(self) -> str:
        if not self.rows:
            return _("Nothing to remark")
        return ngettext("%(n)s remark", "%(n)s remarks", len(self.rows)) % {"n": len(self.rows)}


@dataclass(frozen=True, slots=True)
class Answering:
    """Who may answer findings, where that goes, and the answer that could not be taken."""

    url: str
    may: bool
    refused: AcceptForm | None = None

    def form_for(self, finding: Finding, hidden: Hidden = ()) -> AcceptForm | None:
        """The refused one for its own finding, with what was typed and what is wrong."""
        if not self.may:
            return None
        refused = self.refused
        if refused is not None and _is_about(refused, finding, hidden):
            return refused
        name = "-".join((finding.key, *(value for _name, value in hidden)))
        return AcceptForm(initial={"key": finding.key}, auto_id=f"accept-{_plain(name)}-%s")


def _is_about(form: AcceptForm, finding: Finding, hidden: Hidden) -> bool:
    """`hidden` may name one thing several times, of which the data gives the last."""
    told = dict(hidden)
    return form.data.get("key") == finding.key and all(form.data.get(name, "") == told[name] for name in told)


def _plain(text: str) -> str:
    """As the id of an element."""
    return "".join(letter if letter.isalnum() else "-" for letter in text)


def finding_row(finding: Finding, answering: Answering, hidden: Hidden = (), names: tuple[str, ...] = ()) -> FindingRow:
    return FindingRow(
        finding_text(finding),
        suggestion_text(finding),
        finding.severity == "warning",
        answering.form_for(finding, hidden),
        hidden,
        names,
    )


def accepted_row(
    finding: Finding, rows: list[FindingAcceptance], hidden: Hidden = (), names: tuple[str, ...] = ()
) -> AcceptedRow:
    first = rows[0]
    staff = getattr(first.accepted_by, "staff", None)
    ids = tuple(row.pk for row in rows)
    by = staff.name if staff else ""
    return AcceptedRow(finding_text(finding), first.word, by, first.accepted_at, ids, names, hidden)


def session_findings(
    actor: Actor, tree: SessionTree, known: Mapping[int, Movement], refused: AcceptForm | None = None
) -> FindingList | None:
    """None while nothing is written: there is nothing to look at yet."""
    if not tree.lines:
        return None
    session = tree.session
    may = may_edit(actor, session.plan) and not session.is_archived
    answering = Answering(reverse("desk:session_answer", kwargs={"pk": session.pk}), may, refused)
    reviewed = review_of_session(tree, known, today())
    return FindingList(
        id="checks",
        rows=tuple(finding_row(one, answering) for one in reviewed.findings),
        accepted=tuple(accepted_row(one, [row]) for one, row in reviewed.accepted),
        looked_at=looked_at_text(len(tree.lines)),
        answer_url=answering.url,
        may_answer=answering.may,
    )


def line_remarks(tree: SessionTree, block: Block, line: Line | None, dose: Dose) -> tuple[str, ...]:
    """What the checks would say of the line with this dose; nothing of a new line, whose exercise is still open."""
    if line is None:
        return ()
    return tuple(map(finding_text, review_of_line(tree, block, line, dose, today()).findings))


@dataclass(frozen=True, slots=True)
class PlanChecks:
    """`weeks`: what is remarked on whole weeks; `sessions`: on each session, in whatever week it first shows.

    `phase`: the code of the phase whose hard sets are asked for; empty for none. `at`: the list that was just answered.
    """

    plan: Plan
    weeks: FindingList
    sessions: tuple[tuple[Session, FindingList], ...]
    phase: str
    phases: tuple[tuple[str, str], ...]
    at: str

    @classmethod
    def of(
        cls, actor: Actor, pk: int, *, phase: str | None = None, at: str = "", refused: AcceptForm | None = None
    ) -> PlanChecks:
        """Without a word on the phase (None) it is the one that the squad is in today, with its own targets."""
        plan = get_object_or_404(Plan.objects.visible_to(actor).select_related("squad"), pk=pk)
        current = phase_on(plan.squad_id, today()) if plan.squad_id else None
        asked = phase if phase is not None else current.code if current else ""
        chosen = next((code for code in PHASES if code == asked), None)
        weighed = current if current and current.code == chosen else USUAL[chosen] if chosen else None
        answering = Answering(reverse("desk:plan_answer", kwargs={"pk": pk}), may_edit(actor, plan), refused)
        reviewed = review_of_plan(plan, today(), weighed)
        hidden = (("phase", chosen or ""),)
        return cls(
            plan=plan,
            weeks=_weeks(reviewed, answering, hidden),
            sessions=_sessions(reviewed, answering, hidden),
            phase=chosen or "",
            phases=tuple((code, str(PHASE_NAMES[code])) for code in PHASES),
            at=at,
        )


def _weeks(reviewed: Sequence[ReviewedWeek], answering: Answering, hidden: Hidden) -> FindingList:
    """The same remark on several weeks is one, answered for all of them."""
    found: dict[Finding, list[int]] = {}
    quiet: dict[tuple[Finding, str], list[tuple[int, FindingAcceptance]]] = {}
    for week in reviewed:
        for one in week.whole.findings:
            found.setdefault(one, []).append(week.week)
        for one, row in week.whole.accepted:
            quiet.setdefault((one, row.word), []).append((week.week, row))
    rows = [
        finding_row(one, answering, (*hidden, *(("week", str(week)) for week in weeks)), (weeks_text(weeks),))
        for one, weeks in found.items()
    ]
    accepted = [
        accepted_row(one, [row for _week, row in rows], hidden, (weeks_text([week for week, _row in rows]),))
        for (one, _word), rows in quiet.items()
    ]
    looked_at = _(
        "Looked at: what is pushed and pulled, knee and hip, two legs and one; hard sets where a phase is chosen."
    )
    return FindingList("weeks", tuple(rows), tuple(accepted), looked_at, answering.url, answering.may)


def _sessions(
    reviewed: Sequence[ReviewedWeek], answering: Answering, hidden: Hidden
) -> tuple[tuple[Session, FindingList], ...]:
    """What is remarked on a session in several weeks is shown once: its acceptance holds for all of them."""
    found: dict[Session, dict[str, tuple[Finding, list[int]]]] = {}
    quiet: dict[Session, dict[str, tuple[Finding, FindingAcceptance]]] = {}
    for week in reviewed:
        for session, own in week.sessions:
            for one in own.findings:
                found.setdefault(session, {}).setdefault(one.key, (one, []))[1].append(week.week)
            quiet.setdefault(session, {}).update({one.key: (one, row) for one, row in own.accepted})
    return tuple(
        (
            session,
            FindingList(
                id=f"session-{session.pk}",
                rows=tuple(
                    finding_row(one, answering, (*hidden, ("session", str(session.pk))), (weeks_text(weeks),))
                    for one, weeks in found.get(session, {}).values()
                ),
                accepted=tuple(accepted_row(one, [row], hidden) for one, row in accepted.values()),
                looked_at="",
                answer_url=answering.url,
                may_answer=answering.may,
            ),
        )
        for session, accepted in quiet.items()
    )


def weeks_text(weeks: Sequence[int]) -> str:
    """Week 3; weeks 1–3, 5."""
    runs = [list(run) for _gap, run in groupby(enumerate(weeks), key=lambda pair: pair[1] - pair[0])]
    spans = [(run[0][1], run[-1][1]) for run in runs]
    text = ", ".join(str(first) if first == last else f"{first}–{last}" for first, last in spans)
    return ngettext("Week %(weeks)s", "Weeks %(weeks)s", len(weeks)) % {"weeks": text}


def checks_url(pk: int, phase: str, at: str = "") -> str:
    asked = {"phase": phase if phase in PHASES else "", "at": _plain(at)}
    query = urlencode({name: value for name, value in asked.items() if value})
    url = reverse("desk:plan_checks", kwargs={"pk": pk})
    return f"{url}?{query}" if query else url


def posted_ids(data: Any, name: str) -> list[int]:
    """Keys of rows that were posted; what is no number is left out."""
    return [int(text) for text in data.getlist(name) if text.isdecimal() and len(text) < 12]
