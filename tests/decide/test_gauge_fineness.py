"""A depth given finer than its gauge can be read: a quarter of the step is the least, by the table of practice."""

import pytest

from studio.decide.gauge import finer_than_read
from studio.model.entry import read_quantity
from studio.model.quantity import Quantity, depth
from studio.model.specimen import Gauge
from studio.reference.tables import load_tables

IN_32NDS, IN_64THS, IN_TENTHS = depth(1.0, "32nds"), depth(0.5, "32nds"), depth(0.1, "mm")


@pytest.mark.parametrize(
    ("typed", "step", "finer"),
    [
        ("5", IN_32NDS, False), ("3.5", IN_32NDS, False), ("3.25", IN_32NDS, False), ("7/64", IN_32NDS, False),
        ("3.3", IN_32NDS, True), ("3.125", IN_32NDS, True), ("3.125", IN_64THS, False), ("3.2", IN_64THS, True),
        ("4 mm", IN_32NDS, False), ("4.1 mm", IN_32NDS, False), ("4.13 mm", IN_32NDS, True),
        ("4.1 mm", IN_TENTHS, False), ("4.15 mm", IN_TENTHS, False), ("4.13 mm", IN_TENTHS, True),
        ("0.16 in", IN_32NDS, False), ("0.1613 in", IN_32NDS, True), ("5", depth(0.0, "mm"), False),
    ],
)  # fmt: skip
def test_what_no_eye_reads_off_the_gauge_is_told(typed, step, finer):
    found = finer_than_read(read_quantity(typed, "depth", "32nds"), Gauge(resolution=step), load_tables())
    assert bool(found) == finer


def test_the_sentence_names_what_was_read_and_the_step():
    found = finer_than_read(depth(3.3, "32nds"), Gauge(resolution=IN_32NDS), load_tables())
    assert found == "3.3/32 in is finer than a gauge with a step of 1/32 in can be read"


@pytest.mark.parametrize(
    ("quantity", "shown"),
    [
        (depth(3.25, "32nds"), "3.25"), (depth(3.0, "32nds"), "3"), (depth(4.0, "mm"), "4.0"),
        (Quantity(33.25, "psi"), "33.25"), (Quantity(-7.5, "degC"), "−7.5"), (Quantity(41200.0, "mi"), "41200"),
        (depth(4 / 25.4 * 32, "32nds"), "5"), (depth(3.04, "32nds"), "3.04"), (Quantity(2.4, "bar"), "2.40"),
    ],
)  # fmt: skip
def test_a_number_is_shown_with_all_its_digits_unless_they_have_no_end(quantity, shown):
    assert quantity.digits() == shown
