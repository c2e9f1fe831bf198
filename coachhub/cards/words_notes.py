"""Every step of a trace in words, by its code; `cards.words` fills in the figures."""

from __future__ import annotations

from typing import Final

from django.utils.translation import gettext_lazy

ASPECTS: Final = {
    "pattern": gettext_lazy("movement pattern"),
    "direction": gettext_lazy("direction"),
    "sides": gettext_lazy("one side or both"),
    "load": gettext_lazy("kind of load"),
}
NOTES: Final = {
    "restricted": gettext_lazy("Restricted for now: %(what)s."),
    "restricted_unreviewed": gettext_lazy(
        "Restricted for now: %(what)s. Nobody has reviewed what this exercise loads, "
        "so it counts as loading everything."
    ),
    "pain_off": gettext_lazy(
        "Off the card: pain of %(score)s at the %(region)s. The coach decides when it comes back."
    ),
    "unsupervised": gettext_lazy("Not without a coach present for under-18s."),
    "maximal_young": gettext_lazy("No maximal lift under %(age)s."),
    "no_equipment": gettext_lazy("Not here: needs %(kinds)s."),
    "swapped": gettext_lazy("%(to)s instead of %(written)s."),
    "door_swap": gettext_lazy("Swapped at the door."),
    "door_block": gettext_lazy("This block was left out at the door."),
    "guest_load": gettext_lazy("A guest: the load written for others is not theirs."),
    "dropped": gettext_lazy("%(written)s is left out: no allowed swap fits."),
    "ask_for_lighter": gettext_lazy("Nothing here is light enough: ask the coach for a lighter tool."),
    "swap_no_load": gettext_lazy("A swap does not inherit the load."),
    "fixed": gettext_lazy("Written: %(value)s %(unit)s."),
    "no_known_best": gettext_lazy("No best set is known that the table can use."),
    "known_best": gettext_lazy(
        "Best known: %(reps)s × %(value)s %(unit)s, %(rir)s in reserve, on %(on)s: "
        "an estimated maximum of %(max_kg)s kg (rep-max table)."
    ),
    "percent": gettext_lazy("%(percent)s %% of it."),
    "rir_percent": gettext_lazy("%(percent)s %% of it for %(reps)s reps with %(rir)s in reserve (rep-max table)."),
    "rir_not_taught": gettext_lazy("Reps in reserve have not been taught yet, so they do not set the load."),
    "last_time": gettext_lazy("Last time %(value)s %(unit)s on %(on)s."),
    "doubted": gettext_lazy(
        "%(value)s %(unit)s of %(on)s is far above all the rest. It counts only once a coach marks it clean."
    ),
    "start_load": gettext_lazy("The coach's start load: %(value)s %(unit)s."),
    "no_history": gettext_lazy("Nothing is known yet: find it, lightest first."),
    "restriction_cap": gettext_lazy("Capped at %(cap)s %(unit)s by a restriction."),
    "ceiling": gettext_lazy("Never over %(value)s %(unit)s here."),
    "pain_hold": gettext_lazy("Held: pain at the %(region)s that no coach has cleared."),
    "one_step": gettext_lazy(
        "At most one step above %(value)s %(unit)s, the heaviest really done for about these reps."
    ),
    "one_rise_a_week": gettext_lazy("Held at %(value)s %(unit)s: one rise a week."),
    "rise_wants_clean": gettext_lazy("Held at %(value)s %(unit)s until a set is marked clean."),
    "rounded_down": gettext_lazy("Rounded down to %(value)s %(unit)s, which can be loaded here."),
    "numbered_plates": gettext_lazy(
        "The plates here bear numbers, and nobody can tell them in kilograms: find it, first plate first."
    ),
    "one_step_less": gettext_lazy("At most one step less help than %(value)s %(unit)s, the least really done."),
    "one_easing_a_week": gettext_lazy("Held at %(value)s %(unit)s of help: one step less a week."),
    "easing_wants_clean": gettext_lazy("Held at %(value)s %(unit)s of help until a set is marked clean."),
    "help_rounded": gettext_lazy("%(value)s %(unit)s of help is what can be set here."),
    "below_lightest": gettext_lazy("The lightest that can be loaded here is %(value)s %(unit)s."),
    "nothing_to_load": gettext_lazy("Nothing stands here to load."),
    "level": gettext_lazy("Their own level: %(to)s, where the session says %(written)s."),
    "swap_from_library": gettext_lazy("The library lists it for this reason."),
    "swap_keeps": gettext_lazy("Chosen because it keeps: %(keeps)s."),
    "swap_differs": gettext_lazy("Not the same: %(differs)s."),
    "swap_close": gettext_lazy("Close behind: %(names)s."),
    "pattern_lost": gettext_lazy("No %(pattern)s is left on this card."),
    "return_stage": gettext_lazy("Coming back, stage %(stage)s: %(sets)s %% of the sets, %(load)s %% of the load."),
    "after_gap": gettext_lazy(
        "Eased after %(days)s days without %(pattern)s: %(sets)s %% of the sets, %(load)s %% of the load."
    ),
    "level_up": gettext_lazy("Every set reached the top of its range, clean, in %(sessions)s sessions running."),
    "level_down": gettext_lazy("A set stayed below its range, or was shaky, in %(sessions)s sessions running."),
}
