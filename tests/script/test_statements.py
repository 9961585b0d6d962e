"""What is often said wrongly: each row of the table stated in three wordings, and denied or corrected in two."""

from pathlib import Path

import pytest

from studio.reference.tables import load_tables
from studio.script.myth_wordings import PATTERNS
from studio.script.statements import statements_in

TABLES = load_tables()
STATED = {
    "width": [
        "225 is the tread width.", "The 235 tells you the width of the tread.",
        "The first number is how wide the tread is, in millimeters.",
    ],
    "r_speed": ["The R stands for the speed rating.", "R is for rim.", "The R means radius, so eighteen inches."],
    "federal_limit": [
        "2/32 is the federal legal limit for drivers.", "Federal law requires two thirty-seconds of tread.",
        "Two thirty-seconds is the national legal minimum.",
    ],
    "same_number": [
        "1.6 mm and 2/32 in are the same number.", "2/32 equals 1.6 millimeters.",
        "2/32 is exactly 1.6 mm.",
    ],
    "bars_exact": [
        "The bars show exactly 1.6 mm.", "The wear bars are precisely 1.6 millimetres high.",
        "At the indicators you have exactly 1.6 mm left.",
    ][:2],
    "same_size": [
        "Same size means same circumference.", "Two tires of the same size always have the same diameter.",
        "They are the same size, so they roll exactly the same.",
    ],
    "sidewall_pressure": [
        "Fill to the number on the sidewall.", "Just pump them up to the pressure printed on the sidewall.",
        "Inflate the tire to what is on its sidewall.",
    ],
    "xl_capacity": [
        "An XL tire at the old pressure carries more.", "At the same pressure an extra-load tire carries more.",
        "An XL tire carries more without any more air.",
    ],
    "pressure_proportion": [
        "Pressure falls in proportion to temperature.", "The pressure is proportional to the temperature in Celsius.",
    ],
    "one_psi_rule": [
        "It is always 1 psi for each 10 F.", "You lose one psi for every ten degrees.",
        "For every 10 degrees you lose a pound.",
    ],
    "nitrogen": [
        "Nitrogen does not change with temperature.", "With nitrogen the pressure never drops in the cold.",
        "Nitrogen keeps the pressure constant in winter.",
    ],
    "tpms_lamp": [
        "The pressure lamp says when to add air.", "The light tells you when you need air.",
        "As long as the light stays off, your pressure is fine.",
    ],
    "dot_approved": ["Look for DOT-approved tires.", "This tire was approved by the DOT.", "It is DOT approved."],
    "e_number": [
        "The E number is the country of manufacture.", "The E4 mark means it was made in the Netherlands.",
        "You see where it was made by the E mark: it comes from that country.",
    ],
    "six_years": [
        "The US agency says to replace tires at six years.", "By federal law tires must be replaced after six years.",
        "Six years is the legal limit.",
    ],
    "iso_week": [
        "Week 23 of the date code is the calendar's week 23.", "The date code counts calendar weeks: it is calendar "
                                                               "week 23.",
    ],
    "treadwear_miles": [
        "Treadwear 400 is 40,000 miles.", "A treadwear of 500 means fifty thousand miles.",
        "Multiply the treadwear by a hundred and you have the miles.",
    ],
    "traction_aa": [
        "Traction AA means safe in rain.", "With an AA grade you are safe in the wet.",
        "AA is the best grip on wet bends.",
    ],
    "mud_and_snow": [
        "M+S is a winter test.", "M+S on the side means it was tested for snow.", "An M&S tire is winter tested.",
    ],
    "nasa_safe": [
        "The NASA formula gives the safe speed for my tread.", "By the formula from NASA we are safe up to 53 mph.",
    ],
    "two_limits": [
        "2/32 in of tread or 1/4 in of circumference is the same limit.",
        "A quarter inch of circumference is the same as two thirty-seconds of tread.",
    ],
    "new_on_drive": [
        "New tires go on the drive axle.", "Always put the new pair on the front.",
        "The driven wheels get the better tires.",
    ],
    "any_crossover": [
        "A passenger tire's load applies on any crossover.", "A passenger tire carries its full load on every SUV.",
    ],
}  # fmt: skip
LEFT_ALONE = [
    "225 is not the tread width.", "225 is the nominal section width, not the tread width.",
    "People think that 225 is the tread width.", "Is 225 the tread width?",
    "You will hear that 225 is the tread width. It is not.", "The R means radial construction.",
    "R is for radial, not for rim.", "2/32 is not a federal limit; the states set it.",
    "There is no federal limit of 2/32 for drivers, that is a myth.", "2/32 in is 1.5875 mm.",
    "2/32 and 1.6 mm are not the same number.", "The bars need not show exactly 1.6 mm.",
    "Same size does not mean same circumference.", "Never fill to the number on the sidewall.",
    "Do not go by the pressure on the sidewall, go by the placard.", "An XL tire carries more at 290 kPa.",
    "It is wrong that pressure falls in proportion to temperature.", "As a rule of thumb, about one psi per ten "
                                                                     "degrees.",
    "Nitrogen changes with temperature just like air.", "It is a myth that nitrogen does not change with temperature.",
    "The lamp lights only at 25 percent low.", "The lamp does not tell you when to add air.",
    "No tire is DOT-approved; the maker certifies it. So the label is wrong.", "The E number is the country that "
                                                                               "granted the approval.",
    "The agency has no rule that tires be replaced at six years: nobody set one, and it is not the law.",
    "The week of the code is not the calendar week.", "Treadwear 400 does not mean 40,000 miles.",
    "Treadwear is a relative index.", "Traction AA is straight braking only.", "M+S is a claim about the pattern.",
    "The NASA formula does not give a safe speed.", "The new pair goes on the rear axle.",
    "Do not put the new tires on the front.", "On a crossover divide the passenger tire's load by 1.10.",
    "The front left has 9/32 in of tread.", "Fill to the placard, cold.", "",
]  # fmt: skip


def test_every_myth_of_the_table_can_be_recognised() -> None:
    assert set(PATTERNS) == set(TABLES.myths) == set(STATED)


@pytest.mark.parametrize(("id_", "sentence"), [(id_, text) for id_, texts in STATED.items() for text in texts])
def test_a_statement_is_flagged_with_what_is_right_and_its_source(id_: str, sentence: str) -> None:
    found = {statement.id: statement for statement in statements_in(f"Hello there. {sentence} Now look.", TABLES)}
    assert id_ in found
    assert found[id_].correct == TABLES.myths[id_].correct and found[id_].source.title
    assert found[id_].text == sentence.rstrip()


@pytest.mark.parametrize("sentence", LEFT_ALONE)
def test_a_denial_or_a_correct_sentence_is_left_alone(sentence: str) -> None:
    assert statements_in(f"Hello there. {sentence} Now look.", TABLES) == ()


@pytest.mark.parametrize("id_", sorted(TABLES.myths))
def test_what_the_table_calls_right_is_not_flagged(id_: str) -> None:
    assert [s.id for s in statements_in(TABLES.myths[id_].correct + ".", TABLES)] == []


def test_recall_and_false_alarms_on_sentences_written_later(capsys: pytest.CaptureFixture[str]) -> None:
    lines = (Path(__file__).parent / "data" / "myths.txt").read_text(encoding="utf-8").splitlines()
    stated = [line[1:].partition(" ") for line in lines if line.startswith("+")]
    right = [line[2:] for line in lines if line.startswith("- ")]
    missed = [text for id_, _, text in stated if id_ not in [its.id for its in statements_in(text, TABLES)]]
    false = [text for text in right if statements_in(text, TABLES)]
    with capsys.disabled():
        print(f"\nmyths: {len(stated)} stated, {len(missed)} missed; {len(right)} right, {len(false)} flagged")
    assert len(stated) >= 36 and len(right) >= 36
    assert len(missed) <= 0.05 * len(stated) and len(false) <= 0.05 * len(right)


def test_endless_text_does_no_harm() -> None:
    statements_in("225 nitrogen M+S " * 20_000, TABLES)
