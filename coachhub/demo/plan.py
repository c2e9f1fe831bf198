"""Writes the plans of the demo, line by line, as a coach would."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from coachhub.base.actor import Actor
from coachhub.base.models import SegmentKind
from coachhub.coaching.notation import parse
from coachhub.coaching.rounds import Rounds
from coachhub.demo.data import SquadStory, read
from coachhub.library.models import Exercise
from coachhub.people.models import Squad
from coachhub.plans.actions import add_group, add_plan, add_segment, add_session
from coachhub.plans.actions_lines import add_prescription
from coachhub.plans.models import CircuitGroup, Plan, Prescription, PrescriptionWeek, Segment, Session, SessionRole

Library = dict[str, Exercise]


def make_plan(coach: Actor, squad: Squad, story: SquadStory) -> Plan:
    """Write the squad's plan from its file."""
    table = read(story.plan)
    library = {row.origin_key: row for row in Exercise.objects.exclude(origin_key=None) if row.origin_key}
    plan = add_plan(actor=coach, name=story.plan_name, squad=squad, weeks=table["weeks"], note=table["note"])
    for row in table["session"]:
        _session(coach, plan, row, library)
    return plan


def sessions_of(plan: Plan) -> list[Session]:
    """Return its sessions in the order of their days."""
    return list(plan.sessions.live().order_by("day"))


def _session(coach: Actor, plan: Plan, row: dict[str, Any], library: Library) -> None:
    session = add_session(
        actor=coach,
        plan=plan,
        name=row["name"],
        day=row["day"],
        week_to=plan.weeks,
        slot_minutes=row["slot_minutes"],
        note=row["note"],
        role=row.get("role", SessionRole.ANY),
    )
    for part in row["part"]:
        segment = add_segment(actor=coach, session=session, kind=SegmentKind(part["kind"]), minutes=part.get("minutes"))
        for block in part["block"]:
            _block(coach, segment, block, library)


def _block(coach: Actor, segment: Segment, block: dict[str, Any], library: Library) -> None:
    rest = [int(text) for text in block["rest"].split("-")] if "rest" in block else [None]
    group = add_group(
        actor=coach,
        segment=segment,
        rounds=Rounds(int(block["rounds"]), int(block["rounds"])),
        rest_min_s=rest[0],
        rest_max_s=rest[1] if len(rest) > 1 else None,
        rest_note=block.get("rest_note", ""),
        rest_after_s=block.get("rest_after"),
        intent=block.get("intent", ""),
        is_optional=block.get("is_optional", False),
    )
    written: list[Prescription] = []
    for line in block.get("line") or block["lines"]:
        pair = written[line["pair"] - 1] if "pair" in line else None
        written.append(_line(coach, group, line, library, pair))


def _line(
    coach: Actor, group: CircuitGroup, line: dict[str, Any], library: Library, pair: Prescription | None
) -> Prescription:
    prescription = add_prescription(
        actor=coach,
        group=group,
        exercise=library[line["exercise"]],
        dose=parse(line["dose"]),
        ramp_up_sets=line.get("ramp_ups", 0),
        rest_after_s=line.get("rest_after", 0),
        cue=line.get("cue", ""),
        swaps=[library[key] for key in line.get("swaps", ())],
        pair=pair,
        by_level=line.get("by_level", False),
    )
    PrescriptionWeek.objects.bulk_create(
        PrescriptionWeek(prescription=prescription, week=int(week), **_week(values))
        for week, values in line.get("weeks", {}).items()
    )
    return prescription


def _week(values: dict[str, Any]) -> dict[str, Any]:
    return {name: Decimal(value) if name in ("low", "high", "percent") else value for name, value in values.items()}
