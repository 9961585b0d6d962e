"""What every deliverable is made from: the episode, its findings, its pictures, and when things are said."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from studio.graphics.look import Look
from studio.graphics.scene import Scene
from studio.handoff.schedule import Schedule
from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.reference.tables import Tables


@dataclass(frozen=True)
class Material:
    """``scenes`` holds, by picture id, the finished wide picture of all that can be drawn."""

    episode: Episode
    findings: Findings
    tables: Tables
    look: Look
    schedule: Schedule
    scenes: Mapping[str, Scene] = field(default_factory=dict)

    @property
    def region_words(self) -> str:
        """The region whose limits apply, in words."""
        row = self.tables.regions.get(self.episode.region)
        return row.name if row else self.episode.region
