"""Which movement patterns a session covers, in words, with what would close a gap."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from urllib.parse import urlencode

from django.urls import reverse
from django.utils.functional import Promise
from django.utils.translation import gettext as _

from coachhub.base.models import Pattern
from coachhub.coaching.coverage import (
    COUNTED_PARTS,
    PRIMARY,
    BlockSize,
    Coverage,
    CoverageLine,
    Covered,
    Gap,
    Movement,
    coverage,
)
from coachhub.library.models import ALWAYS_THERE
from coachhub.plans.tree import SessionTree


@dataclass(frozen=True, slots=True)
class PatternRow:
    name: str | Promise
    labels: str


@dataclass(frozen=True, slots=True)
class GapNote:
    """`add_url` opens a new line with the suggested exercise in it; empty where there is no block to put it in."""

    text: str
    add_url: str


@dataclass(frozen=True, slots=True)
class PatternsPanel:
    """`is_begun` False: no line counts yet, so that nothing is called missing."""

    is_begun: bool
    primary: tuple[PatternRow, ...]
    further: tuple[PatternRow, ...]
    notes: tuple[GapNote, ...]

    @classmethod
    def of(cls, tree: SessionTree, known: Mapping[int, Movement]) -> PatternsPanel:
        """`known`: the library as coverage sees it, the session's own exercises in it."""
        found = find_coverage(tree, known)
        return cls(
            is_begun=any(line.row.group.segment.kind in COUNTED_PARTS for line in tree.lines),
            primary=tuple(_row(covered) for covered in found.primary),
            further=tuple(_row(covered) for covered in found.further),
            notes=tuple(_note(gap) for gap in found.gaps if gap.pattern in PRIMARY),
        )


def find_coverage(tree: SessionTree, known: Mapping[int, Movement]) -> Coverage:
    bare = Movement(0, "", ())
    lettered = [block for block in tree.blocks if block.label]
    blocks = [block for block in lettered if not block.row.is_optional] or lettered
    return coverage(
        [
            CoverageLine(line.label, line.row.group.segment.kind, known.get(line.exercise.pk, bare))
            for line in tree.lines
        ],
        blocks=[BlockSize(one.row.pk, one.label, len(one.lines)) for one in blocks],
        library=known.values(),
        always_there=frozenset(kind.value for kind in ALWAYS_THERE),
    )


def _row(covered: Covered) -> PatternRow:
    name = str(Pattern(covered.pattern).label)
    return PatternRow(name[:1].upper() + name[1:], ", ".join(covered.labels))


def _note(gap: Gap) -> GapNote:
    pattern = Pattern(gap.pattern).label
    if gap.suggestion is None:
        return GapNote(_("No %(pattern)s yet.") % {"pattern": pattern}, "")
    name, block = gap.suggestion.movement.name, gap.suggestion.block
    if block is None:
        text = _("No %(pattern)s yet. %(name)s would need a block of its own.")
        return GapNote(text % {"pattern": pattern, "name": name}, "")
    text = _("No %(pattern)s yet. %(name)s fits in block %(block)s.")
    url = reverse("desk:line_add", kwargs={"pk": block.key})
    return GapNote(
        text % {"pattern": pattern, "name": name, "block": block.label}, f"{url}?{urlencode({'exercise': name})}"
    )
