"""Several documents as one PDF, tags and bookmarks included. No Django in here either (see `pdf`).

A document is taken apart before it is written: its objects as bytes, and where the trees of pages, tags and bookmarks
begin. Joining gives the objects new numbers, and hangs the trees into new ones. ISO 32000-1: page tree 7.7.3, number
tree 7.9.7, outline 12.3.3, structure 14.7.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import Any, Final, NoReturn

import pydyf

from coachhub.paper.pdf import PLAIN, VARIANT, Setup, lay_out, uncollected

# More pages than a part can have: the keys of its tags begin at its place times this.
KEYS_A_PART: Final = 100_000
# A string is stepped over, so that a name like "7 0 R" stays one.
_REFERENCES: Final = re.compile(rb"\((?:\\.|[^\\()])*\)|\b(\d+) 0 R\b", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Bookmark:
    title: str
    page: int
    left: float
    top: float


@dataclass(frozen=True, slots=True)
class Part:
    """`objects` from number 1 on, each with whether it is a stream; `pages`, `tags` and `keys` are numbers of some."""

    objects: tuple[tuple[bytes, bool], ...]
    pages: int
    page_count: int
    tags: int
    keys: int
    bookmarks: tuple[Bookmark, ...]
    catalog: dict[str, bytes]
    info: dict[str, bytes]


class _TakenError(Exception):
    """Carries the objects out of WeasyPrint, just before it would write them."""

    def __init__(self, pdf: Any) -> None:
        super().__init__()
        self.pdf = pdf


def set_part(place: int, html: str, setup: Setup = PLAIN) -> Part:
    """Lay out one document as the part at that place of the whole."""
    with uncollected():
        try:
            lay_out(html, setup).write_pdf(finisher=_take, pdf_variant=VARIANT, zoom=setup.zoom)
        except _TakenError as taken:
            return _part(place, taken.pdf)
    raise AssertionError("the finisher is always called")


def _take(_document: object, pdf: Any) -> NoReturn:
    raise _TakenError(pdf)


def _part(place: int, pdf: Any) -> Part:
    root = pdf.objects[_number(pdf.catalog.pop("StructTreeRoot"))]
    tags, keys = pdf.objects[_number(root["K"][0])], pdf.objects[_number(root["ParentTree"])]
    tags["S"] = "/Part"
    del tags["P"]
    _move_keys(pdf, keys, place * KEYS_A_PART)
    _name_headers(pdf, place)
    bookmarks = _bookmarks(pdf)
    del pdf.catalog["Pages"], pdf.catalog["Type"]
    return Part(
        objects=tuple((thing.data, not thing.compressible) for thing in pdf.objects[1:]),
        pages=pdf.pages.number,
        page_count=pdf.pages["Count"],
        tags=tags.number,
        keys=keys.number,
        bookmarks=bookmarks,
        catalog=_values(pdf.catalog),
        info=_values(pdf.info),
    )


def _values(dictionary: Any) -> dict[str, bytes]:
    return {key: value.data if isinstance(value, pydyf.Object) else value for key, value in dictionary.items()}


def _move_keys(pdf: Any, keys: Any, by: int) -> None:
    """Give the pages of this part keys of their own among the tags of the whole."""
    keys["Nums"][::2] = [key + by for key in keys["Nums"][::2]]
    keys["Limits"] = f"[{keys['Nums'][0]} {keys['Nums'][-2]}]"
    for page in pdf.pages["Kids"][::3]:
        pdf.objects[page]["StructParents"] += by


def _name_headers(pdf: Any, place: int) -> None:
    """Give the heads of tables names of their own in the whole; the cells that name them share the string."""
    for thing in pdf.objects:
        if isinstance(thing, pydyf.Dictionary) and "ID" in thing:
            thing["ID"].string = f"{place}.{thing['ID'].string}"


def _bookmarks(pdf: Any) -> tuple[Bookmark, ...]:
    """Take the bookmarks out; ours are all of one level."""
    if "Outlines" not in pdf.catalog:
        return ()
    outline = pdf.objects[_number(pdf.catalog.pop("Outlines"))]
    found, following = [], outline["First"]
    outline.clear()
    while following:
        entry = pdf.objects[_number(following)]
        page, _, left, top, _ = entry["Dest"]
        found.append(Bookmark(entry["Title"].string, _number(page), left, top))
        following = entry.get("Next")
        entry.clear()
    return tuple(found)


def _number(reference: bytes) -> int:
    return int(reference.split()[0])


class _Moved(pydyf.Object):  # type: ignore[misc]
    """An object of a part, with its references moved to the numbers of the whole."""

    def __init__(self, data: bytes, is_stream: bool, by: int, extra: bytes = b"") -> None:
        super().__init__()
        self._is_stream = is_stream
        # In a stream only the dictionary before it refers to anything.
        head, mark, body = data.partition(b"\nstream\n") if is_stream else (data, b"", b"")
        head = _moved(head, by)
        self._data = (head[:-2] + extra + head[-2:] if extra else head) + mark + body

    @property
    def data(self) -> bytes:
        return self._data

    @property
    def compressible(self) -> bool:
        return not self._is_stream


def _moved(data: bytes, by: int) -> bytes:
    return _REFERENCES.sub(lambda found: b"%d 0 R" % (int(found[1]) + by) if found[1] else found[0], data)


def join(parts: Sequence[Part]) -> bytes:
    """Return the parts as one PDF, in their order."""
    whole = pydyf.PDF()
    document, keys = _tag_tree(whole)
    shifts = [_add_part(whole, part, document, keys) for part in parts]
    _add_outline(whole, [(mark, by) for part, by in zip(parts, shifts, strict=True) for mark in part.bookmarks])
    for key, value in parts[0].catalog.items():
        whole.catalog[key] = _moved(value, shifts[0])
    whole.info |= parts[0].info
    out = BytesIO()
    whole.write(out, version=b"1.7", compress=True)
    return out.getvalue()


def _tag_tree(whole: Any) -> tuple[Any, Any]:
    """The root of the tags, with a document in it for the parts' tags and a tree for their keys."""
    root, document, keys = pydyf.Dictionary(), pydyf.Dictionary(), pydyf.Dictionary()
    for thing in (root, document, keys):
        whole.add_object(thing)
    root |= {"Type": "/StructTreeRoot", "K": pydyf.Array([document.reference]), "ParentTree": keys.reference}
    document |= {"Type": "/StructElem", "S": "/Document", "P": root.reference, "K": pydyf.Array()}
    keys["Kids"] = pydyf.Array()
    whole.catalog["StructTreeRoot"] = root.reference
    return document, keys


def _add_part(whole: Any, part: Part, document: Any, keys: Any) -> int:
    """Add the objects of a part; return by how much their numbers moved."""
    by = len(whole.objects) - 1
    parents = {part.pages: b"/Parent " + whole.pages.reference, part.tags: b"/P " + document.reference}
    for number, (data, is_stream) in enumerate(part.objects, 1):
        whole.add_object(_Moved(data, is_stream, by, parents.get(number, b"")))
    whole.pages["Kids"].extend([part.pages + by, 0, "R"])
    whole.pages["Count"] += part.page_count
    document["K"].append(_reference(part.tags + by))
    keys["Kids"].append(_reference(part.keys + by))
    return by


def _add_outline(whole: Any, marks: Sequence[tuple[Bookmark, int]]) -> None:
    outline = pydyf.Dictionary({"Type": "/Outlines", "Count": len(marks)})
    whole.add_object(outline)
    first, last = outline.number + 1, outline.number + len(marks)
    outline |= {"First": _reference(first), "Last": _reference(last)}
    for number, (mark, by) in enumerate(marks, first):
        place = pydyf.Array((_reference(mark.page + by), "/XYZ", mark.left, mark.top, 0))
        entry = pydyf.Dictionary({"Title": pydyf.String(mark.title), "Dest": place, "Parent": outline.reference})
        if number > first:
            entry["Prev"] = _reference(number - 1)
        if number < last:
            entry["Next"] = _reference(number + 1)
        whole.add_object(entry)
    whole.catalog["Outlines"] = outline.reference


def _reference(number: int) -> bytes:
    return b"%d 0 R" % number
