"""Puts the checks into words: what each remarks, what it suggests, what the rule is called. No other place does."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Final

from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext, pgettext_lazy

from coachhub.base.models import Pattern
from coachhub.coaching.rest import format_rest
from coachhub.coaching.review import COMMON, RULES, Finding, Rule

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

_TEXTS: Final[dict[str, StrOrPromise]] = {
    "pattern_missing": gettext_lazy("Missing of the five patterns: %(patterns)s."),
    "speed_after_strength": gettext_lazy("%(where)s %(name)s comes after %(after)s: speed is trained fresh."),
    "jump_pair_apart": gettext_lazy("%(where)s %(name)s belongs to %(lift)s, but does not come directly after it."),
    "jump_pair_reps": gettext_lazy(
        "%(where)s %(name)s and its lift %(lift)s differ in repetitions: %(reps)s and %(lift_reps)s."
    ),
    "jump_dense": gettext_lazy("%(where)s %(name)s comes round again after %(found)s, %(rounds)s times over."),
    "jump_conditioning": gettext_lazy("%(where)s %(name)s is a jump in a part for conditioning."),
    "grip_in_row": gettext_lazy("%(where)s: %(first)s and %(second)s tire the same grip."),
    "trunk_in_row": gettext_lazy("%(where)s: %(first)s and %(second)s tire the same trunk."),
    "rest_heavy": gettext_lazy("%(where)s %(name)s is heavy, and %(pattern)s comes round again after %(found)s."),
    "rest_moderate": gettext_lazy("%(where)s %(name)s: %(pattern)s comes round again after %(found)s."),
    "rest_long": gettext_lazy("Block %(where)s rests %(found)s between rounds."),
    "over_slot": gettext_lazy("It takes %(minutes)s minutes, its slot is %(slot)s."),
    "equipment_missing": gettext_lazy("%(where)s %(name)s cannot be done here, nor can any of its swaps."),
    "equipment_short": gettext_lazy(
        "%(where)s %(name)s, stations: %(stations)s for %(athletes)s athletes; the last one waits %(found)s each round."
    ),
    "alone": gettext_lazy("Not without a coach present: %(where)s."),
    "ratio_to_14": gettext_lazy("Athletes: %(athletes)s, the youngest 14 or under; coaches: %(staff)s."),
    "ratio_to_17": gettext_lazy("Athletes: %(athletes)s, the youngest under 18; coaches: %(staff)s."),
    "ratio_adults": gettext_lazy("Athletes: %(athletes)s; coaches: %(staff)s."),
    "spotting_stations": gettext_lazy("%(where)s: somebody spots at %(stations)s stations; coaches: %(staff)s."),
    "week_push_pull": gettext_lazy("Hard sets in the week: %(more)s %(most)s, %(less)s %(least)s."),
    "week_knee_hip": gettext_lazy("Hard sets of the legs in the week: %(more)s %(most)s, %(less)s %(least)s."),
    "week_two_one_leg": gettext_lazy("Hard sets of the legs in the week: %(more)s %(most)s, %(less)s %(least)s."),
    "week_hard_sets": gettext_lazy(
        "Hard sets of %(pattern)s in the week: %(sets)s. For %(phase)s it is %(low)s to %(high)s."
    ),
    "heavy_legs_near": gettext_lazy("Heavy legs on %(first_day)s (%(first)s) and on %(day)s (%(second)s)."),
    "heavy_legs_before_match": gettext_lazy(
        "Heavy legs on %(day)s (%(session)s: %(lines)s), days to the match on %(match)s: %(found)s."
    ),
    "heavy_legs_after_match": gettext_lazy(
        "Heavy legs on %(day)s (%(session)s: %(lines)s), days after the match on %(match)s: %(found)s."
    ),
    "contacts_before_match": gettext_lazy("%(session)s on %(day)s: %(found)s jump contacts so near to the match."),
    "contacts_novice": gettext_lazy("%(session)s on %(day)s: %(found)s jump contacts for a novice."),
    "contacts_intermediate": gettext_lazy("%(session)s on %(day)s: %(found)s jump contacts at intermediate level."),
    "contacts_advanced": gettext_lazy("%(session)s on %(day)s: %(found)s jump contacts."),
    "youth_days": gettext_lazy("Strength on %(found)s days in the week from %(day)s, under 18."),
    "youth_days_near": gettext_lazy(
        "Strength on %(first_day)s (%(first)s) and on %(day)s (%(second)s), under 18: too close."
    ),
    "youth_no_day_off": gettext_lazy("Under 18, days off in the week from %(day)s: %(found)s."),
    "youth_sets": gettext_lazy("%(what)s: %(found)s sets, under 18."),
    "youth_sets_novice": gettext_lazy("%(what)s: %(found)s sets, for a novice under 18."),
    "youth_reps_few": gettext_lazy("%(what)s: repetitions as few as %(found)s, under 18 and not yet advanced."),
    "youth_reps_many": gettext_lazy("%(what)s: %(found)s repetitions, under 18."),
    "youth_load": gettext_lazy("%(what)s: about %(found)s %% of the best, under 18 and not yet advanced."),
    "youth_load_novice": gettext_lazy("%(what)s: %(found)s %% of the best, for a novice under 18."),
}
_SUGGESTIONS: Final[dict[str, StrOrPromise]] = {
    "add_pattern": gettext_lazy("Add one, or accept it for a day with another purpose."),
    "put_first": gettext_lazy("Put it before the strength work, or directly after the heavy lift it belongs to."),
    "put_behind_lift": gettext_lazy("Move it directly after %(lift)s %(lift_name)s."),
    "match_reps": gettext_lazy("Few and about as many as the lift: quality, not fatigue."),
    "jump_apart": gettext_lazy("Jumps are deliberate, never conditioning: at least %(limit)s, or another exercise."),
    "other_between": gettext_lazy("Put something else between them, or rest at least %(limit)s."),
    "more_rest": gettext_lazy(
        "At least %(limit)s until the same pattern comes: more rest, or another exercise between."
    ),
    "shorter_rest": gettext_lazy("Up to %(limit)s is enough; fill the rest with another exercise."),
    "cut_time": gettext_lazy("Leave out a round, or mark a block as optional."),
    "allow_swap": gettext_lazy("Allow a swap that can be done here, or choose another venue."),
    "spread_out": gettext_lazy("Let half of them begin with another block, or add a swap that needs other equipment."),
    "supervise": gettext_lazy("Have a coach there, or give exercises cleared for training alone."),
    "more_staff": gettext_lazy("Coaches needed: %(needed)s. Or two groups, one after the other."),
    "fewer_stations": gettext_lazy("Use fewer of them at a time, or a lift that nobody has to spot."),
    "balance": gettext_lazy("No more than %(limit)s times as many of one side."),
    "more_sets": gettext_lazy("Add sets, or another exercise of the pattern."),
    "fewer_sets": gettext_lazy("Leave out sets."),
    "sets_at_most": gettext_lazy("Sets of an exercise at most: %(limit)s."),
    "move_apart": gettext_lazy("Move one of them, or make it lighter. Days apart at least: %(limit)s."),
    "earlier": gettext_lazy("Earlier, or a short, light primer. Days to a match at least: %(limit)s."),
    "later": gettext_lazy("Recover first. Days after a match at least: %(limit)s."),
    "fewer_jumps": gettext_lazy("At most %(limit)s: fewer jumps, or fewer sets."),
    "fewer_days": gettext_lazy("Strength days a week at most: %(limit)s."),
    "day_off": gettext_lazy("Keep at least %(limit)s free of training, school sport included."),
    "more_reps": gettext_lazy("At least %(limit)s, with a load that leaves room."),
    "more_load": gettext_lazy("At most %(limit)s."),
    "less_load": gettext_lazy("At most %(limit)s %%: technique before load."),
}
_SIDES: Final = {
    "push": gettext_lazy("push"),
    "pull": gettext_lazy("pull"),
    "knee": gettext_lazy("knee-dominant"),
    "hip": gettext_lazy("hip-dominant"),
    "two_legs": gettext_lazy("on two legs"),
    "one_leg": gettext_lazy("on one leg"),
}
PHASE_NAMES: Final[dict[str, StrOrPromise]] = {
    "general": pgettext_lazy("phase", "general preparation"),
    "strength": pgettext_lazy("phase", "strength"),
    "power": pgettext_lazy("phase", "power"),
    "in_season": pgettext_lazy("phase", "in season"),
    "deload": pgettext_lazy("phase", "deload"),
}
_SECONDS: Final = frozenset(
    {"jump_dense", "grip_in_row", "trunk_in_row", "rest_heavy", "rest_moderate", "rest_long", "equipment_short"}
)


def finding_text(finding: Finding) -> str:
    """What was found, as one sentence."""
    code = finding.code
    if code == "jump_dense" and dict(finding.params).get("part") == "conditioning":
        code = "jump_conditioning"
    return str(_TEXTS[code]) % _told(finding)


def suggestion_text(finding: Finding) -> str:
    return str(_SUGGESTIONS[finding.suggestion]) % _told(finding)


def _told(finding: Finding) -> dict[str, str]:
    """Every figure and name as people read it."""
    told = dict(finding.params)
    told |= {"where": ", ".join(finding.labels), "found": finding.found, "limit": finding.limit}
    if finding.code in _SECONDS:
        told |= {name: _rest(told[name]) for name in ("found", "limit")}
    if told.get("patterns"):
        told["patterns"] = ", ".join(_pattern(code) for code in told["patterns"].split(","))
    if told.get("pattern"):
        told["pattern"] = _pattern(told["pattern"])
    if "phase" in told:
        told["phase"] = str(PHASE_NAMES[told["phase"]])
    told |= {name: str(_SIDES[told[name]]) for name in ("more", "less") if told.get(name) in _SIDES}
    return told | _days(finding, told)


def _days(finding: Finding, told: dict[str, str]) -> dict[str, str]:
    """An athlete's findings stand at days where those of a session stand at lines."""
    if RULES[finding.code].scope != "athlete" and "session" not in told:
        return {"what": f"{told['where']} {told.get('name', '')}".strip()}
    days = {"first_day": _day(finding.labels[0]), "day": _day(finding.labels[-1])}
    if "match" in told:
        days["match"] = _day(told["match"])
    if "lines" in told:
        days["lines"] = told["lines"].replace(",", ", ")
        days["what"] = _("%(session)s on %(day)s, %(lines)s") % {**told, **days}
    return days


def _day(text: str) -> str:
    return date_format(date.fromisoformat(text), "D j M")


def _rest(seconds: str) -> str:
    return format_rest(int(seconds)) if seconds else ""


def _pattern(code: str) -> str:
    """A pattern's name, in the middle of a sentence."""
    return str(Pattern(code).label) if code in Pattern.values else code


RULE_NAMES: Final[dict[str, StrOrPromise]] = {
    "pattern_missing": gettext_lazy("Of the five primary patterns, each session has at least"),
    "speed_after_strength": gettext_lazy("Speed and power work comes before strength work"),
    "jump_pair_apart": gettext_lazy("A jump comes directly after the lift it is paired with"),
    "jump_pair_reps": gettext_lazy("Repetitions of a jump and its lift differ by at most"),
    "jump_dense": gettext_lazy("Until the same jumps come round again, at least"),
    "grip_in_row": gettext_lazy("Two exercises that tire the grip, in a block for strength or power: rest between"),
    "trunk_in_row": gettext_lazy("Two exercises that tire the trunk, in a block for strength or power: rest between"),
    "rest_heavy": gettext_lazy("Heavy work: until the same pattern comes round again, at least"),
    "rest_moderate": gettext_lazy("Moderate loads: until the same pattern comes round again, at least"),
    "rest_long": gettext_lazy("Rest between rounds, at most"),
    "over_slot": gettext_lazy("A session goes over its slot by at most"),
    "youth_sets": gettext_lazy("Under 18: sets of an exercise, at most"),
    "youth_reps_few": gettext_lazy("Under 18 and not advanced: repetitions, at least"),
    "youth_reps_many": gettext_lazy("Under 18: repetitions, at most"),
    "youth_load": gettext_lazy("Under 18 and not advanced: load, at most"),
    "equipment_short": gettext_lazy("Waiting at a shared station in each round, at most"),
    "equipment_missing": gettext_lazy("Every line, or a swap of it, can be done at the venue"),
    "alone": gettext_lazy("What wants a supervisor is not done without one"),
    "ratio_to_14": gettext_lazy("Athletes for one coach, the youngest 14 or under, at most"),
    "ratio_to_17": gettext_lazy("Athletes for one coach, the youngest 15 to 17, at most"),
    "ratio_adults": gettext_lazy("Athletes for one coach, all adults, at most"),
    "spotting_stations": gettext_lazy("Stations with a spotter that one coach watches, at most"),
    "week_push_pull": gettext_lazy("Push to pull in a week, either way, at most"),
    "week_knee_hip": gettext_lazy("Knee- to hip-dominant in a week, either way, at most"),
    "week_two_one_leg": gettext_lazy("Legs on two to on one in a week, either way, at most"),
    "week_hard_sets": gettext_lazy("Hard sets of a pattern outside its phase’s range by at most"),
    "heavy_legs_near": gettext_lazy("Days from heavy legs to heavy legs, at least"),
    "heavy_legs_before_match": gettext_lazy("Days from heavy legs to a match, at least"),
    "heavy_legs_after_match": gettext_lazy("Days from a match to heavy legs, at least"),
    "contacts_before_match": gettext_lazy("Jump contacts from two days before a match, at most"),
    "contacts_novice": gettext_lazy("Jump contacts in a session, novice, at most"),
    "contacts_intermediate": gettext_lazy("Jump contacts in a session, intermediate, at most"),
    "contacts_advanced": gettext_lazy("Jump contacts in a session, advanced, at most"),
    "youth_days": gettext_lazy("Under 18: strength days in a week, at most"),
    "youth_days_near": gettext_lazy("Under 18: days from one strength day to the next, at least"),
    "youth_no_day_off": gettext_lazy("Under 18: days off in a week, at least"),
    "youth_sets_novice": gettext_lazy("Novice under 18: sets of an exercise, at most"),
    "youth_load_novice": gettext_lazy("Novice under 18: load, at most"),
}
_UNITS: Final[dict[str, StrOrPromise]] = {
    "s": gettext_lazy("s"),
    "min": gettext_lazy("min"),
    "reps": gettext_lazy("repetitions"),
    "sets": gettext_lazy("sets"),
    "percent": gettext_lazy("% of the best"),
    "contacts": gettext_lazy("contacts"),
    "times": gettext_lazy("times as many"),
    "patterns": gettext_lazy("patterns"),
    "days": gettext_lazy("days"),
    "athletes": gettext_lazy("athletes"),
    "stations": gettext_lazy("stations"),
}
SCOPE_NAMES: Final[dict[str, StrOrPromise]] = {
    "session": gettext_lazy("A session as it is written"),
    "week": gettext_lazy("A week of a plan"),
    "floor": gettext_lazy("A session given to a squad"),
    "athlete": gettext_lazy("An athlete’s own days"),
}


def unit_text(rule: Rule) -> str:
    return str(_UNITS[rule.unit]) if rule.unit else ""


def source_text(rule: Rule) -> str:
    """Titles of books and statements stay as they are printed."""
    return _("common practice") if rule.source == COMMON else rule.source


def looked_at_text(lines: int) -> str:
    """What a session without a remark was looked at for."""
    return ngettext(
        "Looked at: %(n)s exercise, for patterns, order, rest and time.",
        "Looked at: %(n)s exercises, for patterns, order, rest and time.",
        lines,
    ) % {"n": lines}
