"""The moving clips of the hand-off."""

from studio.handoff.material import Material
from studio.handoff.works import Work


def clip_works(material: Material) -> tuple[Work, ...]:
    """One clip for each picture that the rundown shows."""
    return ()
