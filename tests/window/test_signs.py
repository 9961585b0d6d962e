"""The signs as painted in the window: told apart at 20 px and in grey, named by their word."""

from itertools import combinations
from typing import get_args

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QImage, QPainter

from studio.graphics.look import shipped_looks
from studio.model.finding import Verdict
from studio.window.signs import SignView, paint_sign

VERDICTS: tuple[Verdict, ...] = get_args(Verdict)
LOOKS = tuple(shipped_looks().values())
PAIRS = tuple(combinations(VERDICTS, 2))


def painted(verdict, look, side=20):
    canvas = QImage(side, side, QImage.Format.Format_RGB32)
    canvas.fill(QColor(look.ground))
    painter = QPainter(canvas)
    paint_sign(painter, verdict, QRectF(0, 0, side, side), look)
    painter.end()
    return canvas


def greys(canvas):
    grey = canvas.convertToFormat(QImage.Format.Format_Grayscale8)
    return [grey.pixelColor(x, y).red() for y in range(grey.height()) for x in range(grey.width())]


@pytest.mark.parametrize("look", LOOKS, ids=lambda look: look.id)
@pytest.mark.parametrize("one,other", PAIRS, ids=lambda verdict: verdict)
def test_at_20_px_and_in_grey_many_pixels_tell_two_signs_apart(one, other, look):
    pairs = zip(greys(painted(one, look)), greys(painted(other, look)), strict=True)
    clearly = sum(abs(a - b) > 64 for a, b in pairs)
    assert clearly >= 40, "a tenth of the field, by house rule"


@pytest.mark.parametrize("look", LOOKS, ids=lambda look: look.id)
@pytest.mark.parametrize("one,other", PAIRS, ids=lambda verdict: verdict)
def test_their_ink_alone_tells_two_signs_apart(one, other, look):
    """The silhouette: which pixels differ from the ground at all."""
    ground = greys(painted(None, look))
    outlines = [[abs(a - b) > 48 for a, b in zip(greys(painted(v, look)), ground, strict=True)] for v in (one, other)]
    assert sum(a != b for a, b in zip(*outlines, strict=True)) >= 24


def test_a_finding_without_verdict_leaves_the_ground(qapp):
    look = LOOKS[0]
    assert set(greys(painted(None, look))) == {greys(painted(None, look, side=1))[0]}


def test_a_sign_view_says_its_word_and_grows_with_the_text(qtbot, appearance):
    view = SignView(appearance, side=24)
    qtbot.addWidget(view)
    view.show_verdict("inspect")
    assert view.accessibleName() == "have it inspected"
    before = view.width()
    appearance.set_percent(200)
    assert view.width() == 2 * before
    appearance.set_percent(100)
    view.show_verdict(None)
    assert not view.isVisibleTo(None)
