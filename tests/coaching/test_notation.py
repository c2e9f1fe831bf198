from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachhub.coaching.notation import Dose, NotationError, format_dose, parse
from tests.coaching.doses import doses, notation_like

KG60 = Decimal(60)


@pytest.mark.parametrize(
    ("text", "dose"),
    [
        ("4-6", Dose(low=4, high=6)),
        ("3/side", Dose(low=3, per="side")),
        ("3 x 30 s", Dose(sets_min=3, sets_max=3, kind="time", low=30)),
        ("30 s/side", Dose(kind="time", low=30, per="side")),
        ("10 contacts", Dose(kind="contacts", low=10)),
        ("20 s hold", Dose(kind="hold", low=20)),
        ("6/direction", Dose(low=6, per="direction")),
        ("2 x 10 t3110", Dose(sets_min=2, sets_max=2, low=10, tempo="3110")),
        ("5 @ 2 RIR", Dose(low=5, rule="rir", rir_half=4)),
        ("3-4 x 6-8 @ 2 RIR", Dose(sets_min=3, sets_max=4, low=6, high=8, rule="rir", rir_half=4)),
        ("4 x 5/side @ 75%", Dose(sets_min=4, sets_max=4, low=5, per="side", rule="percent", percent=Decimal(75))),
        ("5 @ 70-75%", Dose(low=5, rule="percent", percent=Decimal(70), percent_high=Decimal(75))),
        ("8-10 @ last", Dose(low=8, high=10, rule="last")),
        ("6 @ find 2 RIR", Dose(low=6, rule="find", rir_half=4)),
        ("6-8 @ 60 kg 2 RIR", Dose(low=6, high=8, rule="fixed", load=KG60, load_unit="kg", rir_half=4)),
        ("5 @ 60-70 kg", Dose(low=5, rule="fixed", load=KG60, load_high=Decimal(70), load_unit="kg")),
        ("20 m @ 24 kg", Dose(kind="distance", low=20, rule="fixed", load=Decimal(24), load_unit="kg")),
        ("30 m @ 2 x 20 kg", Dose(kind="distance", low=30, rule="fixed", load=Decimal(20), load_unit="kg", hands=2)),
        ("5 @ 75% max 60 kg", Dose(low=5, rule="percent", percent=Decimal(75), ceiling=KG60, load_unit="kg")),
    ],
)
def test_canonical_line_reads_and_writes_itself(text: str, dose: Dose) -> None:
    assert (parse(text), format_dose(dose)) == (dose, text)


def test_quoted_words_keep_their_range_and_ceiling() -> None:
    dose = Dose(
        low=8,
        rule="words",
        words="a weight you could do 12 times",
        load=Decimal(10),
        load_high=Decimal(14),
        load_unit="kg",
        ceiling=Decimal(16),
    )
    text = '8 @ "a weight you could do 12 times" 10-14 kg max 16 kg'
    assert (parse(text), format_dose(dose)) == (dose, text)


@pytest.mark.parametrize(
    ("typed", "canonical"),
    [
        ("3×8–10@62,5KG", "3 x 8-10 @ 62.5 kg"),
        ("  3X8 - 10   @ 62.50 kgs ", "3 x 8-10 @ 62.5 kg"),
        ("3-3 x 8-8", "3 x 8"),
        ("8 each leg", "8/side"),
        ("8 per arm", "8/side"),
        ("8 reps / Side", "8/side"),
        ("6 each way", "6/direction"),
        ("45sec", "45 s"),
        ("1-2 min", "60-120 s"),
        ("1.5 min", "90 s"),
        ("20 metres", "20 m"),
        ("7,5m", "7.5 m"),
        ("hold 20 s each side", "20 s hold/side"),
        ("8 @ bw", "8"),
        ("8 @ Bodyweight 2 rir", "8 @ 2 RIR"),
        ("8 RIR 1,5", "8 @ 1.5 RIR"),
        ("8 @ 135 lbs, RIR 2, tempo 20x1", "8 @ 135 lb 2 RIR t20X1"),
        ("8 @ 1 x 20 kg", "8 @ 20 kg"),
        ("8 t3110 2 RIR", "8 @ 2 RIR t3110"),
        ("8 @ “as  last week”", '8 @ "as last week"'),
    ],
)
def test_other_spellings_become_canonical(typed: str, canonical: str) -> None:
    assert format_dose(parse(typed)) == canonical


@pytest.mark.parametrize(
    ("text", "code", "marked"),
    [
        ("", "amount_missing", ""),
        ("3 x", "amount_missing", ""),
        ("2 RIR", "amount_missing", "2 RIR"),
        ("squat", "amount_missing", "squat"),
        ("8-", "number_missing", ""),
        ("8-6", "range_reversed", "8-6"),
        ("8.5", "whole_number", "8.5"),
        ("1.33 min", "whole_number", "1.33"),
        ("7.125 m", "too_precise", "7.125"),
        ("8 @ 10,000 kg", "too_precise", "10,000"),
        ("20 yd", "unit_unknown", "yd"),
        ("8 hold", "hold_needs_time", "hold"),
        ("8/foot", "side_missing", "foot"),
        ("3 x 20 kg", "load_needs_at", "20 kg"),
        ("8 @", "load_missing", ""),
        ("8 @ heavy", "load_missing", "heavy"),
        ("8 @ 60", "load_unit_missing", "60"),
        ("8 @ 60 kgg", "load_unit", "kgg"),
        ("8 @ 3 x 20 kg", "hands", "3"),
        ("8 @ 2 x 75%", "mass_unit", "%"),
        ("8 @ 1-2 RIR", "one_number", "1-2"),
        ("8 RIR 2-3", "one_number", "2-3"),
        ("8 @ 1.2 RIR", "half_steps", "1.2"),
        ("8 @ last RIR", "rir_needs_number", ""),
        ("8 @ find", "find_needs_rir", "find"),
        ("8 @ 2 RIR 3 RIR", "twice", "3"),
        ("8 @ 60 kg @ 70 kg", "twice", "@"),
        ("8 @ 60 kg/side", "side_after_load", "/"),
        ("8 t311", "tempo", "t311"),
        ("8 8", "unexpected", "8"),
        ("8 # 3", "unexpected", "#"),
        ('8 @ "heavy', "quote_missing", '"heavy'),
        ('8 @ " "', "words_empty", '" "'),
        ('8 @ "a\x07b"', "words_unreadable", '"a\x07b"'),
        ("8 @ last max 10-12 kg", "one_number", "10-12"),
        ("8 @ 60 kg max 80 kg", "ceiling_unexpected", "80"),
        ("8 max 80 kg", "ceiling_unexpected", "80"),
        ('8 @ "heavy" 20 kg max 16 kg', "ceiling_below_load", "16"),
        ('8 @ "heavy" 10 kg max 30 lb', "one_unit", "30"),
    ],
)
def test_unreadable_line_says_why_and_where(text: str, code: str, marked: str) -> None:
    with pytest.raises(NotationError) as caught:
        parse(text)
    assert (caught.value.code, text[caught.value.start : caught.value.end]) == (code, marked)


@pytest.mark.parametrize(
    ("text", "code", "marked"),
    [
        ("0 x 8", "sets_limits", "0"),
        ("3-21 x 8", "sets_limits", "21"),
        ("3 x 0", "reps_limits", "0"),
        ("3 x 8-101", "reps_limits", "101"),
        ("0 s", "time_limits", "0"),
        ("7201 s", "time_limits", "7201"),
        ("121 min", "time_limits", "121"),
        ("7201 s hold", "time_limits", "7201"),
        ("0.5 m", "distance_limits", "0.5"),
        ("5001 m", "distance_limits", "5001"),
        ("201 contacts", "contacts_limits", "201"),
        ("8 @ 0 kg", "load_limits", "0"),
        ("8 @ 480-501 kg", "load_limits", "501"),
        ("8 @ 1101 lb", "load_limits", "1101"),
        ("8 @ last max 501 kg", "load_limits", "501"),
        ("8 @ 0%", "percent_limits", "0"),
        ("8 @ 95-101%", "percent_limits", "101"),
        ("8 @ 6.5 RIR", "rir_limits", "6.5"),
        ("9" * 100, "reps_limits", "9" * 100),
        (f'8 @ "{"a" * 121}"', "words_limits", f'"{"a" * 121}"'),
        ("8" + " " * 240, "too_long", " "),
    ],
)
def test_value_beyond_its_limit_is_marked(text: str, code: str, marked: str) -> None:
    with pytest.raises(NotationError) as caught:
        parse(text)
    assert (caught.value.code, text[caught.value.start : caught.value.end]) == (code, marked)


def test_message_is_a_sentence_with_a_way_out() -> None:
    with pytest.raises(NotationError) as caught:
        parse("8 @ 60 kgg")
    error = caught.value
    assert (error.message, str(error), error.params) == (
        '"kgg": a load ends in kg, lb, % or RIR.',
        error.message,
        {"text": "kgg"},
    )


@given(dose=doses())
def test_dose_written_and_read_is_unchanged(dose: Dose) -> None:
    assert parse(format_dose(dose)) == dose


@given(dose=doses())
def test_writing_is_stable(dose: Dose) -> None:
    written = format_dose(dose)
    assert format_dose(parse(written)) == written


def read(text: str) -> Dose | NotationError:
    try:
        return parse(text)
    except NotationError as error:
        return error


@given(text=st.text(max_size=300) | notation_like())
def test_any_text_gives_a_dose_or_points_into_it(text: str) -> None:
    found = read(text)
    if isinstance(found, Dose):
        assert parse(format_dose(found)) == found
    else:
        assert 0 <= found.start <= found.end <= len(text)
