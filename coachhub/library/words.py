"""Codes of the library, put into the words that people read."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from functools import reduce
from itertools import groupby, pairwise

from django.utils.formats import number_format
from django.utils.translation import gettext as _

from coachhub.base.models import LoadUnit
from coachhub.library.models import Direction, Equipment, EquipmentNeed, Exercise, StockItem, StockScale


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


def setting_words(scale: StockScale) -> str:
    """ "5–100 kg in steps of 5", "5, 7.5, 12.5 kg", "plates 1–15"."""
    settings = [Decimal(text) for text in scale.settings]
    steps = {after - before for before, after in pairwise(settings)}
    is_spaced = len(settings) > 2 and len(steps) == 1
    plain = [number_format(text) for text in scale.settings]
    text = f"{plain[0]}–{plain[-1]}" if is_spaced else ", ".join(plain)
    if scale.unit == LoadUnit.PLATE:
        return _("plates %(numbers)s") % {"numbers": text}
    text = f"{text}\N{NO-BREAK SPACE}{scale.unit}"
    if not is_spaced:
        return text
    return _("%(settings)s in steps of %(step)s") % {
        "settings": text,
        "step": number_format(f"{steps.pop().normalize():f}"),
    }


def item_words(item: StockItem) -> str:
    """ "mini-band, red", "box, 45 cm"."""
    height = f"{number_format(f'{item.height_value.normalize():f}')}\N{NO-BREAK SPACE}{item.height_unit}"
    return ", ".join(
        [str(Equipment(item.kind).label), *filter(None, [item.label, height if item.height_value else ""])]
    )


def _any_of(labels: list[str]) -> str:
    return reduce(lambda first, second: _("%(first)s or %(second)s") % {"first": first, "second": second}, labels)


def _both(first: str, second: str) -> str:
    return _("%(first)s and %(second)s") % {"first": first, "second": second}
