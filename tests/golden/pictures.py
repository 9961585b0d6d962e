"""A hash of every picture's SVG in every frame, for the demos and their viewers' questions."""

from studio.graphics.catalogue import CannotShow, catalogue, scene_of
from studio.graphics.frame import FRAMES
from studio.graphics.look import look_for
from studio.graphics.paint.svg import svg
from tests.golden.lines import Golden, demo_findings, demos, digest


def given() -> Golden:
    """Under each demo a line for each picture and frame: its hash, or why there is nothing to show."""
    return {name: [_line(name, id_, frame) for id_ in catalogue() for frame in FRAMES] for name in demos()}


def _line(name: str, id_: str, frame: str) -> str:
    episode = demos()[name]
    try:
        scene = scene_of(episode, demo_findings(name), id_, FRAMES[frame], look_for(episode.look, None))
    except CannotShow as reason:
        return f"{id_} {frame}: {reason}"
    return f"{id_} {frame} {digest(svg(scene))}"
