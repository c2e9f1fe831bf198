"""Words for a session's end, and for the sets of a day."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby
from typing import Final

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, pgettext_lazy

from coachhub.insight.models import EffortLoad

# The category-ratio scale as it is used for a whole session (Foster et al. 2001); 6, 8 and 9 have no words.
EFFORTS: Final[dict[int, str | Promise]] = {
    0: pgettext_lazy("effort", "rest"),
    1: pgettext_lazy("effort", "very, very easy"),
    2: pgettext_lazy("effort", "easy"),
    3: pgettext_lazy("effort", "moderate"),
    4: pgettext_lazy("effort", "somewhat hard"),
    5: pgettext_lazy("effort", "hard"),
    7: pgettext_lazy("effort", "very hard"),
    10: pgettext_lazy("effort", "maximal"),
}
_MINUTES: Final = gettext_lazy("%(n)s min")


def effort_text(row: EffortLoad | None) -> str:
    """Return "7 of 10, 55 min"; empty where nobody has answered."""
    if row is None:
        return ""
    return _("%(effort)s of 10, %(minutes)s") % {"effort": row.effort, "minutes": minutes_text(row.minutes)}


def minutes_text(minutes: int) -> str:
    return str(_MINUTES) % {"n": minutes}


def runs_text(texts: Iterable[str]) -> str:
    """Return equal sets together: "3 × 60 kg × 5, 62.5 kg × 4"."""
    runs = [(text, len(list(same))) for text, same in groupby(texts)]
    return ", ".join(times_text(str(n), text) if n > 1 else text for text, n in runs)


def times_text(sets: str, text: str) -> str:
    """Return "3 × 60 kg × 5"; what is a pair already is kept together: "3 × (2 × 8 kg × 6)"."""
    is_pair = text.startswith("2 × ")
    return f"{sets} × ({text})" if is_pair else f"{sets} × {text}"
