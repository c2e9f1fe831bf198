"""Sessions to review, written as a coach writes them: one row a line, `"A1 front_squat 5 @ 2 RIR"`."""

from __future__ import annotations

from dataclasses import replace
from itertools import groupby
from typing import Any

from coachhub.coaching.facts import ExerciseFacts, GroupFacts, LineFacts, SessionFacts
from coachhub.coaching.notation import parse

_BARE = ExerciseFacts(0, "", (), "reps", "none", "bilateral", is_regions_reviewed=True, needs_supervision=False)


def _exercise(name: str, *patterns: str, **more: Any) -> ExerciseFacts:
    return replace(_BARE, name=name, patterns=patterns, **more)


def _bar(name: str, *patterns: str, **more: Any) -> ExerciseFacts:
    more = {"needs": (("barbell",),), "needs_supervision": True, **more}
    return _exercise(name, *patterns, load_meaning="bar_total", **more)


def _hand(name: str, *patterns: str, **more: Any) -> ExerciseFacts:
    return _exercise(name, *patterns, **{"load_meaning": "per_hand", "needs": (("dumbbell",),), **more})


_ALL = {
    "front_squat": _bar("Front squat", "squat", needs=(("barbell",), ("rack",))),
    "deadlift": _bar("Hex bar deadlift", "hinge", "squat", is_grip=True, needs=(("hex_bar",),)),
    "rdl": _bar("Romanian deadlift", "hinge", is_grip=True),
    "bench": _bar("Bench press", "push", spotting="head", needs=(("barbell",), ("bench",))),
    "landmine": _bar("Half-kneeling landmine press", "push", laterality="unilateral", needs=(("landmine",),)),
    "incline": _hand(
        "Incline dumbbell press", "push", spotting="wrists", is_grip=True, needs=(("dumbbell",), ("incline_bench",))
    ),
    "row": _hand("Single-arm dumbbell row", "pull", laterality="unilateral", is_grip=True),
    "split_squat": _hand("Split squat", "lunge", laterality="unilateral", is_grip=True),
    "goblet": _exercise("Goblet squat", "squat", load_meaning="single", needs=(("dumbbell", "kettlebell"),)),
    "lunge": _hand("Reverse lunge", "lunge", laterality="alternating", is_grip=True),
    "chin_up": _exercise("Chin-up", "pull", load_meaning="added", is_grip=True, needs=(("pull_up_bar",),)),
    "face_pull": _exercise("Face pull", "pull", load_meaning="machine", needs=(("cable",),)),
    "carry": _hand("Farmer carry", "carry", is_grip=True),
    "plank": _exercise("Side plank", "trunk", measure="time"),
    "press_up": _exercise("Press-up", "push"),
    "bridge": _exercise("Glute bridge", "hinge"),
    "box_jump": _exercise("Box jump", "jump", "landing", is_impact=True, needs=(("box",),)),
    "bound": _exercise("Lateral bound and stick", "jump", "landing", is_impact=True, laterality="unilateral"),
    "sprint": _exercise("Sprint start", "sprint", is_impact=True, measure="distance"),
    "chest_pass": _exercise("Medicine ball chest pass", "push", load_meaning="single", needs=(("medicine_ball",),)),
    "jog": _exercise("Light jog", "locomotion", measure="time"),
}
EXERCISES = {key: replace(one, id=number) for number, (key, one) in enumerate(_ALL.items(), 1)}
_PARTS = {"w": "warm_up", "s": "athleticism", "z": "conditioning"}


def line(text: str, sets: int, **more: Any) -> LineFacts:
    """The key of a line is its label: letter of its block and place, or w1, s1, z1 in other parts."""
    label, name, dose = text.split(" ", 2)
    return LineFacts(label, EXERCISES[name].id, parse(dose), sets, **more)


def block(letter: str, *lines: LineFacts, rest: tuple[int, int | None] | None = (120, 150), **more: Any) -> GroupFacts:
    rounds = max((one.sets for one in lines), default=1)
    low, high = rest or (None, None)
    segment = _PARTS.get(letter, "strength")
    label = letter if letter.isupper() else ""
    plain = {"segment_minutes": None, "is_optional": False, "rest_note": "", "rest_after_s": None, "intent": ""}
    parts = {"segment": segment, "rounds_min": rounds, "rounds_max": rounds, "rest_min_s": low, "rest_max_s": high}
    return GroupFacts(**{"key": f"g{letter}", "label": label, **plain, **parts, "lines": lines, **more})


def session(*blocks: GroupFacts) -> SessionFacts:
    order = ["warm_up", "activation", "athleticism", "strength", "conditioning", "cool_down"]
    parts = [kind for kind, _groups in groupby(blocks, lambda one: one.segment)]
    assert set(parts) <= set(order)
    return SessionFacts(1, 1, "Strength", blocks, {one.id: one for one in EXERCISES.values()})


def rows(letter: str, sets: int, *texts: str, **more: Any) -> GroupFacts:
    """A block whose lines all have the same number of sets: `rows("A", 4, "front_squat 5 @ 2 RIR", …)`."""
    lines = [line(f"{letter}{n} {text}", sets) for n, text in enumerate(texts, 1)]
    return block(letter, *lines, **more)


def with_line(group: GroupFacts, number: int, **more: Any) -> GroupFacts:
    """The same block with other facts on its line of that number."""
    lines = list(group.lines)
    lines[number - 1] = replace(lines[number - 1], **more)
    return replace(group, lines=tuple(lines))


WARM_UP = replace(rows("w", 1, "jog 90 s"), segment_minutes=8)


def squat_and_pull() -> SessionFacts:
    """Front squat with its jump and chin-ups, then hinge, press, lunge and trunk."""
    speed = rows("s", 3, "sprint 10 m", rest=(60, 90))
    a = rows("A", 4, "front_squat 5 @ 2 RIR", "bound 3/side", "chin_up 5-6", rest=(120, 150))
    b = rows("B", 3, "rdl 8 @ 3 RIR", "incline 8 @ 2 RIR", "lunge 6/side @ 3 RIR", "plank 25 s/side", rest=(60, 90))
    return session(WARM_UP, speed, with_line(a, 2, pair_with="A1", rest_after_s=45), b)


def hinge_and_press() -> SessionFacts:
    """Deadlift with its jump and the bench press, then one-sided work."""
    a = rows("A", 4, "deadlift 4 @ 80%", "box_jump 4", "bench 5 @ 2 RIR", rest=(120, 180))
    b = rows("B", 3, "split_squat 8/side @ 2 RIR", "row 8/side @ 2 RIR", "plank 30 s", rest=(60, None))
    return session(WARM_UP, with_line(a, 2, pair_with="A1"), b)


def whole_body_for_the_young() -> SessionFacts:
    """Body weight and dumbbells, loads from last time; jumps first, while fresh."""
    speed = rows("s", 3, "box_jump 3", "chest_pass 5", rest=(60, 60))
    a = rows("A", 3, "goblet 8 @ last 3 RIR", "press_up 6-10", "row 10/side @ last", rest=(60, 90))
    b = rows("B", 2, "lunge 8/side @ last 3 RIR", "bridge 12", "plank 20 s/side", rest=(60, None))
    return session(WARM_UP, speed, a, b)
