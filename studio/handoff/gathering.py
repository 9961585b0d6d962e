"""Gathers what the hand-off is made from: pictures that can be drawn, their file names, cautions, the schedule."""

from collections.abc import Mapping, Sequence

from studio.graphics.catalogue import CannotShow, catalogue, scene_of
from studio.graphics.frame import FRAMES, Frame
from studio.graphics.look import Look
from studio.graphics.scene import Scene
from studio.handoff.material import Material
from studio.handoff.scheduling import scheduled
from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.reference.tables import Tables
from studio.script.duties import cautions_of

PICTURES = "pictures"


def gather(episode: Episode, findings: Findings, tables: Tables, look: Look, frame: Frame = FRAMES["wide"]) -> Material:
    """All that deliverables need, as values. A picture that has nothing to show yet is left out."""
    scenes = drawable(episode, findings, look, frame)
    notes = segment_cautions(episode, findings, tables)
    schedule = scheduled(episode, findings, scenes, picture_files(episode, scenes), notes)
    return Material(episode, findings, tables, look, schedule, scenes)


def drawable(episode: Episode, findings: Findings, look: Look, frame: Frame) -> dict[str, Scene]:
    """The pictures that can be drawn, in the order in which the rundown shows them, then as the catalogue has them."""
    scenes = {}
    for id_ in in_rundown_order(episode):
        try:
            scenes[id_] = scene_of(episode, findings, id_, frame, look)
        except CannotShow:
            continue
    return scenes


def in_rundown_order(episode: Episode) -> tuple[str, ...]:
    """The catalogue's ids, those of the rundown first."""
    cued = [cue.picture for segment in episode.rundown.segments for cue in segment.pictures]
    return tuple(dict.fromkeys([*(id_ for id_ in cued if id_ in catalogue()), *catalogue()]))


def picture_files(episode: Episode, scenes: Mapping[str, Scene]) -> dict[str, str]:
    """Each picture's file, by its path in the hand-off's folder; names sort as the rundown does."""
    order = in_rundown_order(episode)
    return {id_: f"{PICTURES}/{order.index(id_) + 1:02d}_{id_}.png" for id_ in scenes}


def segment_cautions(episode: Episode, findings: Findings, tables: Tables) -> dict[str, Sequence[str]]:
    """The cautions that stand with each segment: of the work it shows or tells of, and of the findings it speaks of.

    A picture carries its own.
    """
    made: dict[str, Sequence[str]] = {}
    for segment in episode.rundown.segments:
        shown = [its.caution.text for its in cautions_of(segment, tables)]
        ids = [id_ for point in segment.points for id_ in point.findings]
        spoken = [finding.caution for id_ in ids if (finding := findings.get(id_)) and finding.caution]
        made[segment.id] = tuple(dict.fromkeys([*shown, *spoken]))
    return made
