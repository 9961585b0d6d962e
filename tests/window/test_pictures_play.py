"""Playing a clip: the frame that is due by the clock, scrubbing, what is said; on a clock that the test sets."""

import pytest
from PySide6.QtGui import QImage

from studio.graphics.moving.clips import clip_of
from studio.window.pictures_play import PlayBar, Player
from tests.graphics.moving.stage import noted, rotated


class Clock:
    def __init__(self) -> None:
        self.now = 100.0

    def __call__(self) -> float:
        return self.now


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def player(qtbot, clock):
    player = Player(now=clock)
    yield player
    player.pause()


def test_it_takes_as_long_as_it_says_whatever_is_late(player, clock) -> None:
    clip = clip_of(rotated(), "30000/1001")
    seen: list[int] = []
    player.shown.connect(lambda image: seen.append(player.frame))
    player.load(clip)
    player.play()
    for seconds, frame in ((0.01, 0), (0.5, 14), (1.0, 29), (3.0, 89)):  # 14.99, 29.97, 89.9
        clock.now = 100.0 + seconds
        player.tick()
        assert player.frame == frame
    clock.now = 100.0 + clip.frames
    player.tick()
    assert player.frame == clip.frames - 1 and not player.playing
    assert seen[0] == 0 and seen == sorted(seen)


def test_what_is_shown_is_the_frame(player, clock) -> None:
    clip = clip_of(noted(), "25")
    shown: list[QImage] = []
    player.shown.connect(lambda image: shown.append(image.copy()))
    player.load(clip)
    player.seek(clip.frames + 5)
    assert player.frame == clip.frames - 1
    player.seek(-1)
    assert player.frame == 0
    player.seek(clip.steps[1].start + 3)
    assert [(image.width(), image.height()) for image in shown] == [(320, 180)] * 3
    assert shown[0] != shown[1] and shown[2] != shown[0]


def test_a_still_is_shown_once_while_it_stands(player, clock) -> None:
    clip = clip_of(noted(), "25")
    count: list[int] = []
    player.load(clip)
    player.seek(clip.steps[0].still)
    player.shown.connect(lambda image: count.append(player.frame))
    player.play()
    for order in range(10):
        clock.now += 0.04
        player.tick()
        assert player.frame == clip.steps[0].still + 1 + order
    assert len(count) == 1


def test_the_next_step_is_made_ready_while_one_stands(player, qtbot) -> None:
    clip = clip_of(noted(), "25")
    player.load(clip)
    player.seek(clip.steps[0].still)
    player.play()
    qtbot.waitUntil(lambda: player._painter._step is not None and player._painter._step.step == 1, timeout=1000)


def test_at_the_end_it_begins_anew(player, clock) -> None:
    ends: list[bool] = []
    player.ended.connect(lambda: ends.append(True))
    player.load(clip_of(noted(), "25"))
    player.seek(player.frames - 1)
    player.play()
    assert player.frame == 0 and player.playing
    clock.now += 1000
    player.tick()
    assert ends == [True]


def test_the_bar_says_the_time_and_names_what_it_does(qtbot) -> None:
    bar = PlayBar()
    qtbot.addWidget(bar)
    assert not bar.button.isEnabled() and not bar.slider.isEnabled() and bar.time.text() == ""
    bar.toggle()
    assert not bar.player.playing
    bar.show_clip(noted(), "25")
    clip = clip_of(noted(), "25")
    assert bar.slider.maximum() == clip.frames - 1 and bar.slider.accessibleName() == "Clip"
    assert bar.time.text() == f"0:00 of 0:{round(clip.frames / 25):02d}"
    bar.toggle()
    assert bar.player.playing and bar.button.text() == "&Pause"
    with qtbot.waitSignal(bar.ended):
        bar.stop()
    assert bar.button.text() == "&Play"


def test_the_slider_shows_the_frame_under_it(qtbot) -> None:
    bar = PlayBar()
    qtbot.addWidget(bar)
    bar.show_clip(noted(), "25")
    with qtbot.waitSignal(bar.shown) as said:
        bar.slider.triggerAction(bar.slider.SliderAction.SliderPageStepAdd)
    assert isinstance(said.args[0], QImage) and bar.player.frame == bar.slider.value() > 0
