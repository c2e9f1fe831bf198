"""The checks of a coach: what each holds a session, a week or an athlete's days to, and on whose word.

A rule has at most one threshold, which a club may edit within its range, or it may switch the rule off.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any, Final, Literal

from coachhub.coaching.review.findings import Finding, Severity

Scope = Literal["session", "floor", "week", "athlete"]
Unit = Literal[
    "", "s", "min", "reps", "sets", "percent", "contacts", "times", "patterns", "days", "athletes", "stations"
]

COMMON: Final = "common practice"
_LOADING: Final = "NSCA Essentials of Strength Training and Conditioning, rest by goal"
_YOUTH: Final = "NSCA position statement on youth resistance training, Faigenbaum et al. 2009, JSCR 23(5):S60–S79"
_CONSENSUS: Final = (
    "International consensus on youth resistance training, Lloyd et al. 2014, BJSM 48:498–505 (from memory)"
)
_SUPERVISION: Final = "NSCA Strength and Conditioning Professional Standards and Guidelines"


@dataclass(frozen=True, slots=True)
class Rule:
    """`default` None: it has no threshold. `source`: where it comes from, or common practice."""

    code: str
    scope: Scope
    severity: Severity
    source: str
    unit: Unit = ""
    default: Decimal | None = None
    lowest: Decimal = Decimal(0)
    highest: Decimal = Decimal(0)

    def accepts(self, value: Decimal) -> bool:
        return self.default is not None and self.lowest <= value <= self.highest


def _rule(
    code: str, scope: Scope, severity: Severity, source: str, unit: Unit = "", *figures: int | str
) -> tuple[str, Rule]:
    """`figures`: default, lowest, highest."""
    default, lowest, highest = map(Decimal, figures or (0, 0, 0))
    return code, Rule(code, scope, severity, source, unit, default if figures else None, lowest, highest)


RULES: Final[Mapping[str, Rule]] = dict(
    [
        _rule("pattern_missing", "session", "warning", COMMON, "patterns", 5, 1, 5),
        _rule("speed_after_strength", "session", "warning", COMMON),
        _rule("jump_pair_apart", "session", "warning", COMMON),
        _rule("jump_pair_reps", "session", "note", COMMON, "reps", 3, 0, 10),
        _rule("jump_dense", "session", "warning", COMMON, "s", 45, 15, 300),
        _rule("grip_in_row", "session", "note", COMMON, "s", 60, 15, 300),
        _rule("trunk_in_row", "session", "note", COMMON, "s", 60, 15, 300),
        _rule("rest_heavy", "session", "warning", _LOADING, "s", 120, 30, 600),
        _rule("rest_moderate", "session", "note", _LOADING, "s", 30, 10, 300),
        _rule("rest_long", "session", "note", _LOADING, "s", 300, 120, 900),
        _rule("over_slot", "session", "warning", COMMON, "min", 0, 0, 30),
        _rule("youth_sets", "session", "warning", _CONSENSUS, "sets", 4, 1, 10),
        _rule("youth_sets_novice", "session", "warning", _YOUTH, "sets", 3, 1, 10),
        _rule("youth_reps_few", "session", "warning", _YOUTH, "reps", 6, 1, 12),
        _rule("youth_reps_many", "session", "warning", _YOUTH, "reps", 15, 8, 30),
        _rule("youth_load", "session", "warning", _CONSENSUS, "percent", 80, 30, 100),
        _rule("youth_load_novice", "session", "warning", _CONSENSUS, "percent", 60, 30, 100),
        _rule("equipment_short", "floor", "warning", COMMON, "s", 60, 0, 600),
        _rule("equipment_missing", "floor", "warning", COMMON),
        _rule("alone", "floor", "warning", COMMON),
        _rule("ratio_to_14", "floor", "warning", f"{_SUPERVISION} (from memory)", "athletes", 10, 1, 40),
        _rule("ratio_to_17", "floor", "warning", _SUPERVISION, "athletes", 15, 1, 40),
        _rule("ratio_adults", "floor", "warning", _SUPERVISION, "athletes", 20, 1, 60),
        _rule("spotting_stations", "floor", "warning", COMMON, "stations", 2, 1, 10),
        _rule("week_push_pull", "week", "note", COMMON, "times", 2, 1, 5),
        _rule("week_knee_hip", "week", "note", COMMON, "times", 2, 1, 5),
        _rule("week_two_one_leg", "week", "note", COMMON, "times", 3, 1, 10),
        _rule("week_hard_sets", "week", "note", COMMON, "sets", 0, 0, 10),
        _rule("heavy_legs_near", "athlete", "warning", COMMON, "days", 2, 1, 4),
        _rule("heavy_legs_before_match", "athlete", "warning", COMMON, "days", 3, 1, 5),
        _rule("heavy_legs_after_match", "athlete", "warning", COMMON, "days", 2, 1, 4),
        _rule("contacts_before_match", "athlete", "note", COMMON, "contacts", 20, 0, 200),
        _rule("contacts_novice", "athlete", "warning", COMMON, "contacts", 100, 10, 400),
        _rule("contacts_intermediate", "athlete", "warning", COMMON, "contacts", 120, 10, 400),
        _rule("contacts_advanced", "athlete", "warning", COMMON, "contacts", 140, 10, 400),
        _rule("youth_days", "athlete", "warning", _YOUTH, "days", 3, 1, 7),
        _rule("youth_days_near", "athlete", "warning", _YOUTH, "days", 2, 1, 4),
        _rule("youth_no_day_off", "athlete", "warning", COMMON, "days", 1, 1, 3),
    ]
)


@dataclass(frozen=True, slots=True)
class Thresholds:
    """What a club has changed; everything else as it comes."""

    off: frozenset[str] = frozenset()
    values: Mapping[str, Decimal] = field(default_factory=dict)

    def is_on(self, code: str) -> bool:
        return code not in self.off

    def of(self, code: str) -> Decimal:
        """The club's own figure, else the rule's; KeyError for a rule that has none."""
        default = RULES[code].default
        if default is None:
            raise KeyError(code)
        return self.values.get(code, default)

    def whole(self, code: str) -> int:
        return int(self.of(code))


DEFAULTS: Final = Thresholds()


def finding(code: str, **parts: Any) -> Finding:
    """A finding of that rule, with its severity."""
    return Finding(code, RULES[code].severity, **parts)
