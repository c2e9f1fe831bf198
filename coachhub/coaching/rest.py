"""Rest as coaches write it: `2:00`, `90`, `45 s`, `3 min`, and ranges such as `2:00-2:30`; always kept in seconds."""

import re

_REST = re.compile(
    r"(?P<minutes>\d{1,3}):(?P<seconds>[0-5]\d)|(?P<count>\d{1,5})\s*(?P<unit>s|sec|min)?", re.IGNORECASE
)
_DASH = re.compile(r"\s*[-–—]\s*")


class RestOrderError(ValueError):
    """The longer rest stands first."""


def parse_rest(text: str) -> int:
    """Seconds of one rest; a bare number is seconds. ValueError where it cannot be read."""
    found = _REST.fullmatch(text.strip())
    if found is None:
        raise ValueError(f"not a rest: {text!r}")
    if found["count"] is None:
        return 60 * int(found["minutes"]) + int(found["seconds"])
    return int(found["count"]) * (60 if (found["unit"] or "").lower() == "min" else 1)


def parse_rest_range(text: str) -> tuple[int, int | None]:
    """Seconds from and to, None for a single figure. `2-3 min` reads both ends in minutes. ValueError where not."""
    low, *more = _DASH.split(text.strip())
    if not more:
        return parse_rest(low), None
    if len(more) > 1:
        raise ValueError(f"not a rest: {text!r}")
    if low.isdigit() and more[0].lower().endswith("min"):
        low += "min"
    first, last = parse_rest(low), parse_rest(more[0])
    if last < first:
        raise RestOrderError(f"the shorter rest comes first: {text!r}")
    return first, (last if last > first else None)


def format_rest(seconds: int) -> str:
    """Minutes and seconds, `1:30`; under a minute `45 s`."""
    return f"{seconds} s" if seconds < 60 else f"{seconds // 60}:{seconds % 60:02}"


def format_rest_range(low: int, high: int | None) -> str:
    """`2:00–2:30`, or one figure."""
    if high is None or high == low:
        return format_rest(low)
    if high < 60:
        return f"{low}–{high} s"
    return f"{format_rest(low)}–{format_rest(high)}"
