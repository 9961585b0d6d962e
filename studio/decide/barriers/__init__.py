"""What forbids or bounds an advice, decided once from what is true of the car; whatever advises asks here first."""

from studio.decide.barriers.barrier import Barrier, binding
from studio.decide.barriers.gathered import barriers

__all__ = ["Barrier", "barriers", "binding"]
