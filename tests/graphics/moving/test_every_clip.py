"""Every picture of the catalogue as a clip, for the extremes of its data: nothing is left out, nothing pops."""

import io
from functools import cache

import numpy as np
import pytest
from PIL import Image

from studio.graphics.backdrop import on_background
from studio.graphics.catalogue import CannotShow, scene_of
from studio.graphics.frame import FRAMES, Frame
from studio.graphics.look import look_named
from studio.graphics.motion import Clip, Travel
from studio.graphics.moving.clips import clip_of
from studio.graphics.moving.pose import opacity, posed
from studio.graphics.paint.clip import ClipPainter, straight
from studio.graphics.paint.raster import png
from studio.model.finding import Findings
from tests.graphics.extremes import EXTREMES, PICTURES, findings_of

LOOK = look_named("chalk")


@cache
def findings(name: str) -> Findings:
    return findings_of(EXTREMES[name])


def clip(name: str, id_: str, frame: Frame, background: str | None) -> Clip:
    try:
        scene = scene_of(EXTREMES[name], findings(name), id_, frame, LOOK)
    except CannotShow as reason:
        pytest.skip(str(reason))
    return clip_of(on_background(scene, LOOK, background), "25")


@pytest.mark.parametrize("frame", ["wide", "tall"])
@pytest.mark.parametrize("name", EXTREMES)
@pytest.mark.parametrize("id_", PICTURES)
def test_every_mark_comes_by_a_movement_and_ends_as_it_is(id_: str, name: str, frame: str) -> None:
    its = clip(name, id_, FRAMES[frame], None)
    known = len(its.scene.marks)
    by_mark: dict[int, list[object]] = {index: [] for index in range(len(its.marks))}
    for movement in its.movements:
        for index in movement.marks:
            by_mark[index].append(movement)
    for index, movements in by_mark.items():
        mark = its.marks[index]
        assert movements, mark.name
        step = its.steps[its.step_at(movements[0].start)]  # type: ignore[attr-defined]
        assert opacity(movements, step.start - 1) == 0.0  # type: ignore[arg-type]
        assert posed(mark, index, movements, step.still) == mark  # type: ignore[arg-type]
        posed(mark, index, movements, (step.start + step.still) // 2)  # type: ignore[arg-type]
        assert index >= known or opacity(movements, step.still) == 1.0  # type: ignore[arg-type]


@pytest.mark.parametrize("id_", PICTURES)
def test_the_end_of_each_movement_is_near_the_still(id_: str) -> None:
    """The mean over all px that change; a thin line may still be a px from where it will stand."""
    its = clip("shortest marking, worn through", id_, Frame(640, 360), LOOK.ground)
    painter = ClipPainter(its)
    for step, times in enumerate(its.steps):
        last = straight(painter.image(times.still - 1)).astype(int)
        still = np.asarray(Image.open(io.BytesIO(png(its.scene.up_to(step)))).convert("RGBA")).astype(int)
        before = np.asarray(Image.open(io.BytesIO(png(its.scene.up_to(step - 1)))).convert("RGBA")).astype(int)
        changing = np.abs(still - before).max(axis=2) > 8
        if changing.any():
            whole, left = np.abs(still - before)[changing].mean(), np.abs(still - last)[changing].mean()
            assert left < 0.08 * whole + 1, (its.scene.steps[step], left, whole)


@pytest.mark.parametrize("frame", FRAMES)
def test_wheels_turn_a_little_at_a_time_and_end_where_they_belong(frame: str) -> None:
    its = clip("longest marking, new, long title", "rotation", FRAMES[frame], LOOK.ground)
    travels = [movement for movement in its.movements if isinstance(movement, Travel)]
    assert len(travels) == 4
    middles = sorted(travel.way[0] for travel in travels)
    assert sorted(travel.way[-1] for travel in travels) == [pytest.approx(middle) for middle in middles]
    for travel in travels:
        assert np.abs(np.diff(travel.turns)).max() < 8
        assert travel.turns[0] == pytest.approx(0) and travel.turns[-1] % 180 == pytest.approx(0)
