"""The size topic against the handbook's tables, and against the placard of the car."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.decide import decide
from studio.model.car import Car, Placard, PlacardTire
from studio.model.paths import value_at
from studio.model.quantity import depth
from tests.decide.build import TABLES, episode, number, tire


def found(marking, place="front_left", placard="", **more):
    lines = {place.split("_")[0]: PlacardTire(marking=placard)} if place != "bench" else {}
    whole = episode(tire(place, marking=marking, id="it", **more), car=Car(placard=Placard(**lines)))
    return decide(whole, TABLES).get(f"size.{'it' if place == 'bench' else place}")


@pytest.mark.parametrize(
    ("marking", "name", "expected", "tolerance"),
    [
        ("225/60R17 99H", "overall_diameter", 701.8, 0.01),  # E054, geometry
        ("225/60R17 99H", "design_diameter", 702, 0),  # E043, UN R30 6.1.2
        ("215/70R15 98H", "design_diameter", 683, 0),  # E049, UN R30 6.1.2, halves upward
        ("225/60R17 99H", "section_height", 135.0, 0.001),  # E060, definition of the aspect ratio
        ("225/60R17 99H", "rolling_circumference", 2141.1, 0.01),  # E080, ETRTO 3.05
        ("225/60R17 99H", "revs_per_km", 467.05, 0.01),  # E081
        ("225/60R17 99H", "revs_per_mile", 751.644, 0.01),  # E082
        ("205/55R16 91V", "least_diameter", 625.22, 0.01),  # E070, UN R30 6.1.5
        ("205/55R16 91V", "largest_diameter", 641.04, 0.01),  # E071
        ("225/60R17 99H", "load", 775, 0),  # E092, UN R30 load-capacity indices
        ("225/60R17 99H", "speed", 210, 0),  # UN R30 speed categories
        ("T145/80D17 107M", "overall_diameter", 663.8, 0.01),  # E061, geometry
        ("31x10.50R15LT 109Q", "aspect_ratio", 76.19, 0.01),  # E063, designation
        ("31x10.50R15LT 109Q", "section_height", 8 * 25.4, 0.001),  # E062
        ("LT245/75R16 120/116S", "load", 1400, 0),  # E096
    ],
)
def test_the_numbers_are_the_handbooks(marking, name, expected, tolerance):
    assert number(found(marking), name) == pytest.approx(expected, abs=max(tolerance, 1e-9))


def test_the_value_is_the_geometric_diameter_and_no_verdict_is_given_on_a_plain_size():
    finding = found("225/60R17 99H")
    assert (finding.value, finding.unit, finding.verdict) == (pytest.approx(701.8), "mm", None)
    assert finding.sentence == "Front left is 225/60R17: 27.63 in (701.8 mm) tall when new."


@pytest.mark.parametrize(
    ("marking", "placard", "word", "verdict"),
    [
        ("225/60r17 99h", "225/60R17 99H", "same", None),
        ("225/60R17 103V XL", "225/60R17 99H", "same", None),
        ("225/60ZR17 99W", "225/60R17 99H", "same", None),
        ("225/65R17 102H", "225/60R17 99H", "different", "inspect"),
        ("P225/60R17 98H", "225/60R17 98H", "different", "inspect"),
        ("225/60R17 95H", "225/60R17 99H", "same", "inspect"),
        ("225/60R17 99T", "225/60R17 99H", "same", "inspect"),
    ],
)
def test_another_size_or_a_lower_rating_than_the_placards_must_be_confirmed(marking, placard, word, verdict):
    finding = found(marking, placard=placard)
    assert (finding.word("placard"), finding.verdict) == (word, verdict)
    assert ("Have it confirmed" in finding.sentence) is (verdict == "inspect")
    assert (placard in " ".join(finding.would_change)) is (verdict == "inspect")


def test_each_place_is_held_against_its_own_line_of_the_placard():
    lines = Placard(front=PlacardTire(marking="225/45R17"), rear=PlacardTire(marking="255/40R17"),
                    spare=PlacardTire(marking="T145/80D17"))  # fmt: skip
    tires = [tire("rear_right", marking="255/40R17"), tire("spare", marking="T145/80D17"), tire("bench", id="b")]
    findings = decide(episode(*tires, car=Car(placard=lines)), TABLES)
    assert [f.word("placard") for f in findings.of("size")] == ["same", "same", ""]
    assert findings.get("size.rear_right").inputs[1] == "car.placard.rear.marking"
    assert findings.get("size.spare").caution == TABLES.cautions["temporary_spare"].text


@pytest.mark.parametrize("marking", ["", "   ", "nothing of the kind", "225/60R71"])
def test_without_a_marking_it_says_so(marking):
    finding = found(marking)
    assert (finding.verdict, finding.value, finding.missing) == ("unknown", None, ("the marking on the sidewall",))


def test_what_the_marking_leaves_open_is_named():
    assert found("225/60R17").missing == ("the load index", "the speed symbol")
    assert "read as radial" in found("225-60-17").word("assumed")


def test_the_working_can_be_followed_on_paper():
    """Each line that ends in a sum or product is evaluated here by itself (225/60R17: plain arithmetic)."""
    lines = found("225/60R17 99H").working
    assert "Section height: 225 mm × 60 % = 135 mm" in lines and 225 * 60 / 100 == 135
    assert any("17 × 25.4 mm + 2 × 135 mm = 431.8 mm + 270 mm = 701.8 mm" in line for line in lines)
    assert any("432 mm + 2 × 135 mm = 702 mm" in line for line in lines)
    assert any("3.05 × 702 mm = 2141.1 mm" in line for line in lines)


@given(
    width=st.integers(20, 90).map(lambda n: n * 5), aspect=st.integers(25, 85), rim=st.integers(12, 24),
    index=st.integers(50, 150), units=st.sampled_from(["us", "metric"]), new=st.floats(4, 18),
)  # fmt: skip
def test_every_size_has_finite_figures_sources_and_a_short_sentence(width, aspect, rim, index, units, new):
    marking = f"{max(105, width)}/{aspect}R{rim} {index}T"
    whole = episode(tire("front_left", marking=marking, depth_new=depth(new, "32nds")), units=units)
    finding = decide(whole, TABLES).get("size.front_left")
    assert finding.verdict is None and finding.sources and finding.caution
    assert all(value_at(whole, path) is not None for path in finding.inputs)
    assert all(figure.quantity.value > 0 for figure in finding.figures)
    assert len(finding.sentence) <= 111


def test_a_rear_size_of_its_own_is_held_against_the_front_one():
    """225/45R17: 431.8 + 202.5 = 634.3 mm; 255/40R17: 431.8 + 204 = 635.8 mm (plain geometry)."""
    lines = {"front": PlacardTire(marking="225/45R17 91V"), "rear": PlacardTire(marking="255/40R17 94V")}
    tires = (tire("front_left", marking="225/45R17 91V"), tire("rear_left", marking="255/40R17 94V"))
    findings = decide(episode(*tires, car=Car(placard=Placard(**lines))), TABLES)
    front, rear = findings.get("size.front_left"), findings.get("size.rear_left")
    assert number(rear, "diameter_difference") == pytest.approx(1.5)
    assert number(rear, "across_apart") == pytest.approx(100 * 1.5 / 634.3)
    assert "car.placard.front.marking" in rear.inputs and front.figure("across_apart") is None
