"""Codes of the library, put into the words that people read."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from functools import reduce
from itertools import groupby

from django.utils.formats import number_format
from django.utils.translation import gettext as _

from coachhub.library.models import Direction, Equipment, EquipmentNeed, Exercise


def equipment_words(needs: Iterable[EquipmentNeed]) -> str:
    """ "barbell and rack and (safety arms or partner)"; "nothing" where nothing is needed. Needs in order of group."""
    groups = [[str(Equipment(n.kind).label) for n in group] for _group, group in groupby(needs, lambda n: n.group)]
    if len(groups) == 1:
        return _any_of(groups[0])
    return reduce(_both, (f"({_any_of(g)})" if len(g) > 1 else g[0] for g in groups)) if groups else _("nothing")


def pattern_words(exercise: Exercise) -> str:
    return ", ".join(str(pattern.get_pattern_display()) for pattern in exercise.patterns.all())


def direction_words(exercise: Exercise) -> str:
    return ", ".join(str(Direction(code).label) for code in exercise.directions)


def demand_words(exercise: Exercise) -> str:
    """ "impact, heavy grip"; empty where there is nothing special."""
    demands = (
        (exercise.is_impact, _("impact")),
        (exercise.is_overhead, _("overhead")),
        (exercise.is_grip, _("heavy grip")),
        (exercise.is_deep_range, _("near the end of range")),
    )
    return ", ".join(label for is_so, label in demands if is_so)


def mass_words(value: Decimal, unit: str) -> str:
    """ "2.5 kg", without zeros that say nothing and with a blank that does not break."""
    return f"{number_format(f'{value.normalize():f}')}\N{NO-BREAK SPACE}{unit}"


def _any_of(labels: list[str]) -> str:
    return reduce(lambda first, second: _("%(first)s or %(second)s") % {"first": first, "second": second}, labels)


def _both(first: str, second: str) -> str:
    return _("%(first)s and %(second)s") % {"first": first, "second": second}
