"""How the window looks: the shipped looks as palettes, following the system, in any text size."""

import pytest
from PySide6.QtGui import QFontDatabase, QFontMetrics, QPalette
from PySide6.QtWidgets import QLabel

from studio.graphics.look import shipped_looks
from studio.window.labels import plain_label
from studio.window.palette import Appearance


@pytest.fixture
def dark():
    return [False]


@pytest.fixture
def following(qapp, dark):
    made = Appearance(qapp, "system", system_is_dark=lambda: dark[0])
    made.apply()
    yield made
    Appearance(qapp, "light").apply()


def test_the_look_follows_the_system_while_the_window_is_open(following, dark, qapp):
    looks, told = shipped_looks(), []
    following.changed.connect(lambda: told.append(following.look.id))
    assert following.look == looks["chalk"]
    dark[0] = True
    qapp.styleHints().colorSchemeChanged.emit(qapp.styleHints().colorScheme())
    assert following.look == looks["night_bay"]
    assert told == ["night_bay"]
    assert qapp.palette().color(QPalette.ColorRole.Window).name().upper() == looks["night_bay"].ground.upper()


def test_a_choice_of_ones_own_does_not_follow_the_system(following, dark, qapp):
    following.choose("light")
    dark[0] = True
    qapp.styleHints().colorSchemeChanged.emit(qapp.styleHints().colorScheme())
    assert following.look.id == "chalk"


def test_the_palette_is_the_looks_own(following, qapp):
    look, palette = following.look, qapp.palette()
    for role, color in (
        (QPalette.ColorRole.Window, look.ground), (QPalette.ColorRole.Base, look.plate),
        (QPalette.ColorRole.WindowText, look.ink), (QPalette.ColorRole.Highlight, look.measure),
    ):  # fmt: skip
        assert palette.color(role).name().upper() == color.upper()


@pytest.mark.parametrize(
    ("role", "at_100", "at_200"), [("text", 13, 26), ("number", 15, 30), ("heading", 20, 40), ("deciding", 28, 56)]
)
def test_sizes_are_those_of_the_art_direction_and_grow_with_the_text(following, role, at_100, at_200):
    assert following.font(role).pixelSize() == at_100
    following.set_percent(200)
    assert following.font(role).pixelSize() == at_200
    following.set_percent(100)


def test_the_shipped_font_is_there_and_its_figures_are_all_as_wide(following):
    assert "Inter" in QFontDatabase.families()
    metrics = QFontMetrics(following.font("number"))
    assert len({metrics.horizontalAdvance(digit * 4) for digit in "0123456789"}) == 1


def test_a_labels_role_gives_its_size(following, qtbot):
    label: QLabel = plain_label("9.5", "deciding")
    qtbot.addWidget(label)
    following.dress(label)
    following.apply()
    label.ensurePolished()
    assert label.font().pixelSize() == 28
