"""All barriers of an episode."""

from studio.decide.barriers.barrier import Barrier
from studio.decide.barriers.of_axles import of_axles
from studio.decide.barriers.of_tires import of_tire
from studio.decide.subjects import tires
from studio.model.episode import Episode
from studio.model.finding import SEVERITY
from studio.reference.tables import Tables


def barriers(episode: Episode, tables: Tables) -> tuple[Barrier, ...]:
    """What stands in the way of advice for this car, gravest first, on the episode's day in its region."""
    each = [it for tire in tires(episode) for it in of_tire(tire, episode, tables)]
    return tuple(sorted((*each, *of_axles(episode, tables)), key=lambda it: -SEVERITY.index(it.verdict)))
