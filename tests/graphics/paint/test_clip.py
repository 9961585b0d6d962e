"""A clip's pixels: what stands equals the still exactly, what moves comes gradually and only where it is."""

import io

import numpy as np
import pytest
from msgspec.structs import replace
from PIL import Image

from studio.graphics.frame import Frame
from studio.graphics.motion import Clip
from studio.graphics.moving.clips import clip_of
from studio.graphics.paint.clip import ClipPainter, Pixels, frames, spans, straight
from studio.graphics.paint.raster import png
from studio.graphics.scene import Scene
from tests.graphics.moving.stage import FRAME, beside, noted, rotated, worn

SCENES = {"note": noted(), "clear": noted(clear=True), "rotation": rotated(), "worn": worn(), "beside": beside()}
CLIPS = {name: clip_of(picture, "25") for name, picture in SCENES.items()}


def still(scene: Scene) -> Pixels:
    return np.asarray(Image.open(io.BytesIO(png(scene))).convert("RGBA"))


def moving(clip: Clip, step: int) -> list[Pixels]:
    painter, times = ClipPainter(clip), clip.steps[step]
    return [straight(painter.image(frame)) for frame in range(times.start, times.still)]


@pytest.mark.parametrize("name", CLIPS)
def test_what_stands_is_the_still_to_the_last_bit(name: str) -> None:
    clip, at = CLIPS[name], 0
    for span in spans(clip):
        shown = clip.still_at(at)
        if shown is not None:
            assert np.array_equal(span.pixels, still(shown)), at
            assert all(clip.still_at(at + order) == shown for order in (0, span.frames - 1))
        else:
            assert span.frames == 1
        at += span.frames
    assert at == clip.frames


def test_every_frame_comes_once() -> None:
    assert sum(1 for _ in frames(CLIPS["note"])) == CLIPS["note"].frames


@pytest.mark.parametrize("name", CLIPS)
def test_nothing_pops(name: str) -> None:
    """The last moving frame is near the still: a fade of n frames has come to 1 - 1 / (n + 1)^2 of its way."""
    clip = CLIPS[name]
    for step in range(len(clip.steps)):
        last, end = moving(clip, step)[-1].astype(int), still(clip.scene.up_to(step)).astype(int)
        shown = (last[..., 3:] > 8) & (end[..., 3:] > 8)  # straight colours mean little where hardly anything shows
        assert np.abs(last - end)[..., :3][shown[..., 0]].max() <= 40
        assert np.abs(last - end)[..., 3].max() <= 40


@pytest.mark.parametrize("name", CLIPS)
def test_what_does_not_move_keeps_its_pixels(name: str) -> None:
    clip = CLIPS[name]
    painter = ClipPainter(clip)
    for step, times in enumerate(clip.steps):
        before = still(clip.scene.up_to(step - 1))
        touched = np.zeros((FRAME.height, FRAME.width), bool)
        for frame in range(times.start, times.still):
            pixels = straight(painter.image(frame))
            rect = painter.changed(frame)
            touched[rect.top() : rect.bottom() + 1, rect.left() : rect.right() + 1] = True
            assert np.array_equal(pixels[~touched], before[~touched])


@pytest.mark.parametrize("name", CLIPS)
def test_any_frame_can_be_asked_for_in_any_order(name: str) -> None:
    clip = CLIPS[name]
    step = max(range(len(clip.steps)), key=lambda order: clip.steps[order].still - clip.steps[order].start)
    forwards = moving(clip, step)
    painter, times = ClipPainter(clip), clip.steps[step]
    for frame in reversed(range(times.start, times.still, 3)):
        assert np.array_equal(straight(painter.image(frame)), forwards[frame - times.start]), frame


@pytest.mark.parametrize("name", CLIPS)
def test_a_step_made_ready_looks_the_same(name: str) -> None:
    clip = CLIPS[name]
    for step in range(len(clip.steps)):
        painter, times = ClipPainter(clip), clip.steps[step]
        painter.prepare(step)
        made = [straight(painter.image(frame)) for frame in range(times.start, times.still)]
        assert all(map(np.array_equal, made, moving(clip, step)))


@pytest.mark.parametrize(("name", "x", "y"), [("note", 80, 90), ("rotation", 60, 40)])
def test_a_drawing_fades_as_one_piece(name: str, x: int, y: int) -> None:
    """Where parts lie over one another (blocks, grooves, tire), none shines through another."""
    clip = CLIPS[name]
    seen = moving(clip, 0)[3][y, x, :3].astype(int)
    share = next(m for m in clip.movements if 0 in m.marks).share(clip.opening + 3)
    ground, drawn = (still(clip.scene.up_to(step))[y, x, :3].astype(int) for step in (-1, 0))
    assert 0.2 < share < 0.8 and np.abs(drawn - ground).max() > 80
    assert np.abs(seen - (ground + (drawn - ground) * share)).max() <= 2


def test_tread_comes_new_and_as_one_piece() -> None:
    """Half faded in, the rubber that will have gone (54 to 114 px down) has the tone of the rubber that stays."""
    seen, rubber = moving(CLIPS["worn"], 0)[4], still(CLIPS["worn"].scene)[140, 110]
    gone, stays = seen[70, 110, :3].astype(int), seen[140, 110, :3].astype(int)
    assert np.abs(gone - stays).max() <= 2 and np.abs(stays - rubber[:3]).max() > 30


def test_a_leader_grows_from_its_dot() -> None:
    clip = CLIPS["note"]
    line = still(clip.scene.up_to(1))[:, :, 0].astype(int) - still(clip.scene.up_to(0))[:, :, 0]
    assert abs(line[55, 205]) > 30 and abs(line[64, 170]) > 5  # near the label, nearer the dot
    before, seen = still(clip.scene.up_to(0)).astype(int), moving(clip, 1)
    order = [next(n for n, pixels in enumerate(seen) if abs(pixels[y, x, 0] - before[y, x, 0]) > 5)
             for x, y in ((110, 90), (170, 64), (205, 55))]  # fmt: skip
    assert order == sorted(order) and order[0] < order[-1]


def test_straight_alpha_has_no_fringe() -> None:
    """While a drawing fades in over nothing, its colour is its own from the first frame to the last."""
    frames_ = moving(CLIPS["clear"], 0)
    rubber = still(CLIPS["clear"].scene.up_to(0))[90, 80].astype(int)
    alphas = [int(pixels[90, 80, 3]) for pixels in frames_]
    assert alphas == sorted(alphas) and 0 < alphas[0] < 60 and alphas[-1] == 255 == rubber[3]
    for pixels in frames_[2:]:
        assert np.abs(pixels[90, 80, :3].astype(int) - rubber[:3]).max() <= 3


def test_tall_frames_work_too() -> None:
    clip = clip_of(replace(noted(), frame=Frame(180, 320)), "25")
    assert straight(ClipPainter(clip).image(clip.frames - 1)).shape == (320, 180, 4)
