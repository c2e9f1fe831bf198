"""Why a notation cannot be read, as code and parameters, so that it can be put into any language."""

from collections.abc import Mapping
from types import MappingProxyType

Params = Mapping[str, str | int]

MESSAGES: Mapping[str, str] = MappingProxyType(
    {
        "amount_missing": "An amount comes here: repetitions such as 8 or 6-8, 30 s, 20 m or 10 contacts.",
        "ceiling_below_load": "The most (%(ceiling)s) is below the load (%(load)s): raise it or leave it out.",
        "ceiling_unexpected": '"max" goes with %%, RIR, last, find or a quoted text: 8 @ 75%% max 60 kg.',
        "contacts_limits": '"%(text)s": contacts go from %(low)s to %(high)s.',
        "distance_limits": '"%(text)s": a distance goes from %(low)s to %(high)s m.',
        "find_needs_rir": '"find" says how many repetitions stay in reserve: find 2 RIR.',
        "half_steps": '"%(text)s": RIR goes in half steps, such as 2 or 1.5.',
        "hands": '"%(text)s": before the load of one hand comes 2 x, as in 2 x 20 kg.',
        "hold_needs_time": "A hold is a time: 20 s hold.",
        "load_limits": '"%(text)s": a load is above 0 and at most %(high)s %(unit)s.',
        "load_missing": "After @ comes a load: 60 kg, 2 x 20 kg, 75%%, 2 RIR, last, find 2 RIR or a text in quotes.",
        "load_needs_at": '"%(text)s": a load comes after @, as in 8 @ 60 kg.',
        "load_unit": '"%(text)s": a load ends in kg, lb, %% or RIR.',
        "load_unit_missing": "A load ends in kg, lb, %% or RIR.",
        "mass_unit": "The mass here ends in kg or lb.",
        "number_missing": "A number comes here.",
        "one_number": "Only one number fits here, not a range.",
        "one_unit": '"%(text)s": one line keeps one unit, here %(unit)s.',
        "percent_limits": '"%(text)s": a percentage goes from %(low)s to %(high)s.',
        "quote_missing": "The quoted text has no closing quotation mark.",
        "range_reversed": '"%(text)s": the smaller number comes first.',
        "reps_limits": '"%(text)s": repetitions go from %(low)s to %(high)s.',
        "rir_limits": '"%(text)s": RIR goes from %(low)s to %(high)s.',
        "rir_needs_number": "RIR needs one number: 2 RIR.",
        "sets_limits": '"%(text)s": sets go from %(low)s to %(high)s.',
        "side_after_load": 'Put "/side" right after the amount (8/side @ 20 kg); one in each hand is 2 x 20 kg.',
        "side_missing": "Here comes side, leg, arm or direction: 8/side.",
        "tempo": '"%(text)s": a tempo is four figures such as t3110 or t20X1.',
        "time_limits": '"%(text)s": a time goes from %(low)s to %(high)s s.',
        "too_long": "The line is too long: at most %(high)s characters.",
        "too_precise": '"%(text)s": at most two decimal places.',
        "twice": '"%(text)s": this is given twice.',
        "unexpected": '"%(text)s" cannot be read here. A line reads 3 x 8 @ 60 kg 2 RIR t3110.',
        "unit_unknown": '"%(text)s": an amount ends in s, min, m, contacts or nothing for repetitions.',
        "whole_number": '"%(text)s": a whole number comes here.',
        "words_empty": 'Between the quotation marks come words: "a weight you could lift 12 times".',
        "words_limits": "The quoted text is too long: at most %(high)s characters.",
        "words_unreadable": "The quoted text holds a sign that cannot be printed.",
    }
)
"""English for every code, in the form that gettext takes."""


class NotationError(ValueError):
    """A notation that cannot be read; `start` and `end` point at characters of the text."""

    def __init__(self, code: str, start: int, end: int, **params: str | int) -> None:
        self.code = code
        self.params: Params = params
        self.start = start
        self.end = end
        self.message = MESSAGES[code] % params
        super().__init__(self.message)
