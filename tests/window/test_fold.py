"""A part of a form that stays folded until it is wanted."""

import pytest

from studio.window.fold import leads


@pytest.mark.parametrize(
    ("path", "further", "does"),
    [
        ("circumstances.sizes_wished", "circumstances.sizes_wished[0]", True), ("car", "car.name", True),
        ("car.name", "car.name", True), ("car.name", "car.names", False), ("car.name", "car", False),
        ("prices.used_tire", "prices.used_tire_depth", False),
    ],
)  # fmt: skip
def test_a_path_leads_to_its_parts_only(path, further, does):
    assert leads(path, further) is does
