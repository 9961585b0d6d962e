"""Every input of every finding is worded, and its link lands on the field that shows it."""

import re

import pytest
from msgspec.structs import replace
from PySide6.QtWidgets import QApplication

from studio import shipped
from studio.decide import decide
from studio.decide.input_words import input_words
from studio.model.car import Car
from studio.model.circumstances import Circumstances, Prices
from studio.model.quantity import Quantity, depth, length
from studio.reference.tables import load_tables
from studio.storage.episode_file import decode
from studio.window.fold import leads
from studio.window.routes import place_of
from tests.window.helpers import five_tires, focused

DEMOS = sorted(path.name for path in shipped.demos().glob("*.json"))
PATHS = (
    *(f"car.{name}" for name in Car.__struct_fields__ if name not in ("placard", "tolerance", "rotations")),
    *(f"prices.{name}" for name in Prices.__struct_fields__),
    *(f"circumstances.{name}" for name in Circumstances.__struct_fields__),
    "circumstances.sizes_wished[0]", "circumstances.sizes_wished[1]", "region", "on",
)  # fmt: skip


def demo(name):
    return decode((shipped.demos() / name).read_bytes())


def full():
    """A car of which every field is entered."""
    episode = five_tires()
    car = replace(episode.car, certified_as="mpv", front_rim_width=length(6.5, "in"), final_drive=3.73,
                  ground_clearance=length(150), dual_rear_wheels=True)  # fmt: skip
    prices = Prices(new_tire=168.0, used_tire=75.0, used_tire_depth=depth(7.0, "32nds"), mounting=28.0, shaving=35.0)
    around = Circumstances(rain=Quantity(50.0, "mm/h"), sizes_wished=("225/55R17", "235/60R16 100H"))
    return replace(episode, car=car, prices=prices, circumstances=around)


def lands(window, path):
    """Follow a link from Findings; the path of the field that has the focus then."""
    window.go("findings", "")
    window.go("car", path)
    QApplication.processEvents()
    field = focused()
    assert field.isVisible() and window.places["car"].isAncestorOf(field), path
    return getattr(field, "path", "")


@pytest.mark.parametrize("name", DEMOS)
def test_every_input_of_every_finding_of_a_demo_lands_and_is_worded(window_of, name):
    episode = demo(name)
    paths = sorted({path for finding in decide(episode, load_tables()) for path in finding.inputs})
    assert len(paths) > 30
    window = window_of(episode)
    for path in paths:
        landed = lands(window, path)
        assert leads(landed, path) or leads(path, landed), f"{path} landed on {landed or 'no field'}"
        words = input_words(episode, path)
        assert not re.search(r"[\[\]_]|\w\.\w*[a-z]", words.partition(":")[0]), f"{path}: {words}"


@pytest.mark.parametrize("path", PATHS)
def test_every_field_of_car_prices_and_circumstances_can_be_reached(window_of, path):
    window = window_of(full())
    landed = lands(window, path)
    assert landed == path.partition("[")[0]
    assert place_of(path, full())[0] == ("" if path == "region" else "car")


@pytest.mark.parametrize(
    ("path", "words"),
    [
        ("prices.new_tire", "a new tire: 168.00 USD"), ("prices.used_tire_depth", "tread on the used tire: 7/32 in"),
        ("prices.currency", "currency: USD"), ("car.final_drive", "final drive ratio: 3.73"),
        ("car.dual_rear_wheels", "dual rear wheels: yes"), ("car.front_rim_width", "front rim width: 6.50 in"),
        ("circumstances.rain", "rain: 50 mm/h"), ("circumstances.speed", "speed spoken of: not given"),
        ("circumstances.sizes_wished[1]", "size wished for 2: 235/60R16 100H"),
    ],
)  # fmt: skip
def test_the_new_inputs_in_words(path, words):
    assert input_words(full(), path) == words


def test_an_undo_shows_the_price_that_it_changed(window_of):
    window = window_of(full())
    episode = window.document.episode
    window.document.edit("Change price of shaving", replace(episode, prices=replace(episode.prices, shaving=40.0)))
    window.show_place("findings")
    window.document.undo_stack.undo()
    assert window.current.key == "car" and focused().path == "prices.shaving"


def test_the_folded_parts_are_opened_from_the_menu_and_closed_by_key(window_of):
    window = window_of(full())
    place = window.places["car"]
    fold = place.form.folds[1]
    assert not any(each.is_open for each in place.form.folds)
    next(each for each in place.actions() if each.text() == "&Weather, road and driving").trigger()
    assert fold.is_open and focused().path == "circumstances.filling_temperature"
    fold.button.setFocus()
    fold.button.click()
    assert not fold.is_open and fold.button.accessibleName() == "Weather, road and driving, folded"
