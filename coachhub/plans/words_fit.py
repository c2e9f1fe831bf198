"""Days around a match, rules and reasons of a fitted plan put into words."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Final

from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from coachhub.coaching.facts import Note
from coachhub.coaching.fitting import FitRule
from coachhub.plans.models import SessionRole

WHY: Final = {
    "fits_rule": gettext_lazy("%(role)s: %(day)s, as the rules want it"),
    "not_preferred": gettext_lazy("%(role)s: wanted at %(days)s, where no slot is left for it"),
    "free_slot": gettext_lazy("a free slot; no rule names a day"),
    "slot_too_short": gettext_lazy("the slot has %(minutes)s min, the session needs %(needs)s"),
    "day_taken": gettext_lazy("another session of the plan is that day"),
    "not_its_day": gettext_lazy("only wanted at %(days)s"),
    "match_day": gettext_lazy("match day"),
    "near_match": gettext_lazy("heavy for the legs, and it is %(day)s"),
    "heavy_next_to_heavy": gettext_lazy("heavy legs on the day before or after"),
    "slot_taken": gettext_lazy("another session of the plan has the slot"),
    "closed": gettext_lazy("%(reason)s"),
    "other_week": gettext_lazy("it is meant for other weeks: with or without a match"),
    "no_slot": gettext_lazy("no gym slot is left in this week"),
}
CLOSED: Final = {
    "holiday": gettext_lazy("holiday"),
    "given": gettext_lazy("a session of the squad stays on that day"),
}


def md_words(day: int) -> str:
    """ "MD-4", "MD", "MD+1"."""
    return f"MD{day:+d}" if day else "MD"


def md_list(days: Iterable[int]) -> str:
    return ", ".join(md_words(day) for day in days)


def rule_words(rule: FitRule) -> str:
    """ "MD-4, else MD-3", "only MD-1"."""
    if not rule.days:
        return _("any day")
    days = _(", else ").join(md_words(day) for day in rule.days)
    return _("only %(days)s") % {"days": days} if rule.only else days


def note_words(step: Note) -> str:
    """One reason, with the day it is about where it is about one."""
    told = dict(step.params)
    for name in ("day", "days"):
        if told.get(name):
            told[name] = md_list(int(day) for day in str(told[name]).split(","))
    if "role" in told:
        told["role"] = str(SessionRole(str(told["role"])).label).capitalize()
    if "reason" in told:
        told["reason"] = str(CLOSED[str(told["reason"])])
    text = str(WHY[step.code]) % told
    if "on" not in told:
        return text
    return f"{date_format(date.fromisoformat(str(told['on'])), 'D j M')}: {text}"
