"""The 0-10 scale of effort for a whole session."""

from __future__ import annotations

from typing import Final

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

# Source: Foster et al. 2001, J Strength Cond Res 15:109-115 (modified CR-10): 6, 8 and 9 carry no words.
EFFORT: Final[tuple[tuple[int, str | Promise], ...]] = (
    (0, _("rest")),
    (1, _("very, very easy")),
    (2, _("easy")),
    (3, _("moderate")),
    (4, _("somewhat hard")),
    (5, _("hard")),
    (6, ""),
    (7, _("very hard")),
    (8, ""),
    (9, ""),
    (10, _("maximal")),
)


def effort_scale() -> str:
    """Return the scale in one line: a figure and its words never part."""
    gap = "\N{NO-BREAK SPACE}"
    return " · ".join(f"{figure} {anchor}".strip().replace(" ", gap) for figure, anchor in EFFORT)
