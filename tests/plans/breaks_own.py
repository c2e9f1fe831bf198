"""Each constraint of the tables of own activation work, broken once."""

from __future__ import annotations

from coachhub.base.clock import now
from tests.constraints import Break, Maker, check, twin
from tests.factories import OwnItemFactory, OwnSetFactory, OwnSetItemFactory, days_ago


def of_a_dose(prefix: str, make: Maker) -> dict[str, Break]:
    return {
        f"{prefix}_sets": check(make, sets=21),
        f"{prefix}_kind": check(make, dose_kind="laps"),
        f"{prefix}_per": check(make, per="leg"),
        f"{prefix}_range": check(make, low=8, high=6),
        f"{prefix}_load": check(make, load=60, load_unit=""),
        f"{prefix}_rule": check(make, load_rule="fixed"),
        f"{prefix}_rir": check(make, rir_half=13),
    }


item = OwnItemFactory.create
OWN_BREAKS = {
    **of_a_dose("own_item", item),
    **of_a_dose("own_set_item", OwnSetItemFactory.create),
    "OwnSet.name": twin(OwnSetFactory.create, "name"),
    "own_set_item_once": twin(OwnSetItemFactory.create, "own_set", "exercise"),
    "own_item_for_somebody": check(item, athlete=None),
    "own_item_review_after_start": check(item, review_on=days_ago(11)),
    "own_item_ended_by_someone": check(item, ended_at=now()),
}
