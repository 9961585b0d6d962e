"""A marking spelled out: every field, in its place, with its real value."""

from hypothesis import given

from studio.reference import load_tables
from studio.tires.designation import format_marking, parse_marking, spell_out
from studio.tires.marking import marking_parts
from tests.tires.made_up import markings

TABLES = load_tables()


@given(markings())
def test_the_spelled_out_fields_stand_in_the_text_in_their_order(marking):
    text = format_marking(marking)
    fields = spell_out(marking, load_kg=TABLES.load_kg, speed_kmh=TABLES.speed_kmh)
    assert [text[field.start : field.end] for field in fields] == [field.text for field in fields]
    assert [field.start for field in fields] == sorted({field.start for field in fields})
    assert all(field.key and field.label and field.meaning for field in fields)
    left_over = text
    for field in reversed(fields):
        left_over = left_over[: field.start] + left_over[field.end :]
    assert set(left_over) <= set(" /x()")
    assert "".join(part.text for part in marking_parts(marking)) == text


def meanings(text: str) -> dict[str, str]:
    fields = spell_out(parse_marking(text), load_kg=TABLES.load_kg, speed_kmh=TABLES.speed_kmh)
    return {field.key: field.meaning for field in fields}


def test_un_r30_meaning_of_load_index_99_and_speed_symbol_h():
    spelled = meanings("225/60R17 99H")
    assert list(spelled) == "width_mm aspect_percent construction rim_diameter_in load_index speed_symbol".split()
    assert "775 kg (1709 lb)" in spelled["load_index"]  # UN R30 load-capacity indices; 49 CFR 571.139 S5.5.4(b)
    assert "up to 210 km/h (130 mph)" in spelled["speed_symbol"]  # French order of 24 October 1994, Annex I
    assert "135 mm (5.31 in)" in spelled["aspect_percent"]  # definition of the aspect ratio
    assert "225 mm (8.9 in)" in spelled["width_mm"]
    assert spelled["construction"].startswith("radial")
    assert "17 in" in spelled["rim_diameter_in"]


def test_brackets_mean_above_the_symbols_speed():
    assert "above 300 km/h" in meanings("275/35ZR20 (102Y)")["speed_symbol"]


def test_the_letter_t_means_two_things():
    assert "temporary spare" in meanings("T145/80R17 107M")["prefix"]
    assert "190 km/h" in meanings("145/80R17 98T")["speed_symbol"]


def test_a_load_index_beyond_the_table_is_not_given_a_load():
    assert "not in the table" in meanings("245/70R19.5 160L")["load_index"]
