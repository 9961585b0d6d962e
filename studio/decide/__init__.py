"""Decisions: an episode and the reference tables give findings. Pure: no Qt, no files, no clock."""

from studio.decide.registry import TOPICS
from studio.decide.subjects import names
from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.reference.tables import Tables

__all__ = ["TOPICS", "decide"]


def decide(episode: Episode, tables: Tables) -> Findings:
    """All findings of an episode that ``admission`` lets in, topic by topic in the viewer's order.

    ``episode.on`` is the day and ``episode.region`` the law for which they speak. What an edit did not touch comes from
    memory, so the same object may stand in two answers; findings are frozen.
    """
    found = tuple(finding for topic in TOPICS for finding in topic.decide(episode, tables))
    return Findings(found, names=names(episode))
