"""Restrictions, pain and the way back in words, for whoever may read them."""

from __future__ import annotations

from django.utils.formats import date_format
from django.utils.translation import gettext as _

from coachhub.base.models import Pattern
from coachhub.cards.words import number, region_text
from coachhub.coaching.easing import STAGES, Share
from coachhub.people.models import PainReport, Restriction, RestrictionException, RestrictionKind


def restriction_text(row: Restriction) -> str:
    """What must not be done: "left knee", "hinge", "Back squat", "overhead work", "at most 40 kg"."""
    if row.kind == RestrictionKind.REGION:
        return region_text(row.region, row.side)
    if row.kind == RestrictionKind.PATTERN:
        return str(Pattern(row.pattern).label)
    if row.exercise is not None:
        return row.exercise.name
    if row.cap_value is not None:
        return _("at most %(mass)s") % {"mass": f"{number(row.cap_value)} {row.cap_unit}"}
    return str(RestrictionKind(row.kind).label)


def exception_text(row: RestrictionException) -> str:
    """What is allowed all the same: "Split squat to 20 kg, on the word of Dr Alder"."""
    told = {"exercise": row.exercise.name, "word": row.on_word_of}
    if row.cap_value is None:
        text = _("%(exercise)s, on the word of %(word)s") % told
    else:
        told["mass"] = f"{number(row.cap_value)} {row.cap_unit}"
        text = _("%(exercise)s to %(mass)s, on the word of %(word)s") % told
    if row.until_on is None:
        return text
    return _("%(what)s, until %(day)s") % {"what": text, "day": date_format(row.until_on, "j M Y")}


def pain_text(row: PainReport) -> str:
    """Where and how much: "left knee, 4 of 10", "thigh, muscle sore"."""
    told = {"region": region_text(row.region, row.side), "score": row.score}
    if row.is_sore_only:
        return _("%(region)s, muscle sore") % told
    return _("%(region)s, %(score)s of 10") % told


def stage_text(stage: int) -> str:
    """What the stage asks for: "stage 1: half of the sets, 70 % of the load"; 0: "back in full: nothing is eased"."""
    if not stage:
        return _("back in full: nothing is eased")
    return _("stage %(stage)s: %(share)s") % {"stage": stage, "share": share_text(STAGES[stage])}


def share_text(share: Share) -> str:
    """How much of the sets and of the load."""
    parts = {50: _("half of the sets"), 75: _("three quarters of the sets"), 100: _("all sets")}
    sets = parts.get(share.sets) or _("%(n)s %% of the sets") % {"n": share.sets}
    return _("%(sets)s, %(load)s %% of the load") % {"sets": sets, "load": share.load}
