"""A dose read out in words, for whoever wants to be sure of the short line."""

from __future__ import annotations

from decimal import Decimal

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from coachhub.coaching.notation import Dose
from coachhub.science.tempo import parse_tempo


def dose_in_words(dose: Dose) -> str:
    """One sentence without a full stop: "3 to 4 sets of 6 to 8 repetitions, with a load that leaves 2 in reserve"."""
    parts = [_sets(dose), _load(dose), _ceiling(dose), _reserve(dose), _tempo(dose)]
    return ", ".join(part for part in parts if part)


def _sets(dose: Dose) -> str:
    amount = f"{_amount(dose)} {_per(dose)}".strip()
    if dose.sets_min is None or dose.sets_max is None:
        return amount
    count = _range(dose.sets_min, dose.sets_max if dose.sets_max != dose.sets_min else None)
    text = ngettext("%(count)s set of %(amount)s", "%(count)s sets of %(amount)s", dose.sets_max)
    return text % {"count": count, "amount": amount}


def _amount(dose: Dose) -> str:
    most = int(dose.high or dose.low)
    text = {
        "reps": ngettext("%(n)s repetition", "%(n)s repetitions", most),
        "time": ngettext("%(n)s second", "%(n)s seconds", most),
        "distance": ngettext("%(n)s metre", "%(n)s metres", most),
        "contacts": ngettext("%(n)s ground contact", "%(n)s ground contacts", most),
        "hold": ngettext("holding %(n)s second", "holding %(n)s seconds", most),
    }[dose.kind]
    return text % {"n": _range(dose.low, dose.high)}


def _per(dose: Dose) -> str:
    return {"": "", "side": _("each side"), "direction": _("each direction")}[dose.per]


def _load(dose: Dose) -> str:
    reserve = {"rir": _half(dose.rir_half)}
    return {
        "none": "",
        "fixed": _mass(dose),
        "percent": _("with %(percent)s%% of the known best") % {"percent": _percent(dose)},
        "rir": _("with a load that leaves %(rir)s in reserve") % reserve,
        "last": _("with the load of last time"),
        "find": _("finding a load that leaves %(rir)s in reserve") % reserve,
        "words": f"“{dose.words}” {_mass(dose)}".strip(),
    }[dose.rule]


def _percent(dose: Dose) -> str:
    return "" if dose.percent is None else _range(dose.percent, dose.percent_high)


def _mass(dose: Dose) -> str:
    if dose.load is None:
        return ""
    mass = f"{_range(dose.load, dose.load_high)} {dose.load_unit}"
    text = _("with %(mass)s in each hand") if dose.hands == 2 else _("with %(mass)s")
    return text % {"mass": mass}


def _ceiling(dose: Dose) -> str:
    if dose.ceiling is None:
        return ""
    return _("at most %(mass)s") % {"mass": f"{_plain(dose.ceiling)} {dose.load_unit}"}


def _reserve(dose: Dose) -> str:
    if dose.rir_half is None or dose.rule in {"rir", "find"}:
        return ""
    return _("with %(rir)s in reserve") % {"rir": _half(dose.rir_half)}


def _tempo(dose: Dose) -> str:
    if dose.tempo is None:
        return ""
    tempo = parse_tempo(dose.tempo)
    return _("tempo: lowering %(down)s, pause %(bottom)s s, lifting %(up)s, pause %(top)s s") % {
        "down": _phase(tempo.eccentric_s),
        "bottom": tempo.bottom_s,
        "up": _phase(tempo.concentric_s),
        "top": tempo.top_s,
    }


def _phase(seconds: int | None) -> str:
    return _("as fast as possible") if seconds is None else f"{seconds} s"


def _half(rir_half: int | None) -> str:
    return _plain(Decimal(rir_half or 0) / 2)


def _range(low: int | Decimal, high: int | Decimal | None) -> str:
    if high is None:
        return _plain(low)
    return _("%(low)s to %(high)s") % {"low": _plain(low), "high": _plain(high)}


def _plain(value: int | Decimal) -> str:
    text = f"{value:.2f}"
    return text.rstrip("0").rstrip(".")
