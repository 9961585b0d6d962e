"""The window's places: known by name from the start, made when one first goes there or when the window is idle."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from studio.window.place import Place, Workshop


@dataclass(frozen=True)
class Slot:
    """A place before it is made: its key, its name, its menu, and what makes it."""

    key: str
    title: str
    menu_title: str
    make: Callable[[Workshop], Place]


def make_car(workshop: Workshop) -> Place:
    """Car and tires."""
    from studio.window.car_place import CarPlace

    return CarPlace(workshop)


def make_findings(workshop: Workshop) -> Place:
    """Findings."""
    from studio.window.findings_place import FindingsPlace

    return FindingsPlace(workshop)


def make_rundown(workshop: Workshop) -> Place:
    """Rundown."""
    from studio.window.rundown_place import RundownPlace

    return RundownPlace(workshop)


def make_pictures(workshop: Workshop) -> Place:
    """Pictures."""
    from studio.window.pictures_place import PicturesPlace

    return PicturesPlace(workshop)


def make_questions(workshop: Workshop) -> Place:
    """Questions."""
    from studio.window.questions_place import QuestionsPlace

    return QuestionsPlace(workshop)


def make_handoff(workshop: Workshop) -> Place:
    """Hand-off."""
    from studio.window.handoff_place import HandoffPlace

    return HandoffPlace(workshop)


SLOTS = (
    Slot("car", "Car and tires", "&Tires", make_car),
    Slot("findings", "Findings", "F&indings", make_findings),
    Slot("rundown", "Rundown", "&Rundown", make_rundown),
    Slot("pictures", "Pictures", "&Pictures", make_pictures),
    Slot("questions", "Questions", "&Questions", make_questions),
    Slot("handoff", "Hand-off", "Hand-&off", make_handoff),
)


class Places(Mapping[str, Place]):
    """The places by their keys; asking for one makes it. ``on_made`` is told of each new one."""

    def __init__(self, slots: Sequence[Slot], workshop: Workshop, on_made: Callable[[Place], object]) -> None:
        self.slots = {slot.key: slot for slot in slots}
        self._workshop, self._on_made = workshop, on_made
        self._made: dict[str, Place] = {}

    def __getitem__(self, key: str) -> Place:
        if key not in self._made:
            place = self.slots[key].make(self._workshop)
            self._made[key] = place
            self._on_made(place)
        return self._made[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self.slots)

    def __len__(self) -> int:
        return len(self.slots)

    @property
    def made(self) -> tuple[Place, ...]:
        """Those that are there already."""
        return tuple(self._made.values())

    def make_next(self) -> bool:
        """Make one that is not there yet; whether any is left."""
        waiting = [key for key in self.slots if key not in self._made]
        if waiting:
            self[waiting[0]]
        return len(waiting) > 1
