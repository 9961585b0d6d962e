"""Add, move and remove tires: pure functions from an episode to an episode."""

import string

from msgspec.structs import replace

from studio.model.episode import Episode
from studio.model.places import ON_CAR, Place
from studio.model.specimen import Specimen

MOST = 200  # as the model bounds an episode


def free_place(episode: Episode) -> Place:
    """The first place on the car where no tire stands, in walking order; the bench where all are taken."""
    return next((place for place in ON_CAR if episode.standing_at(place) is None), "bench")


def free_id(episode: Episode) -> str:
    """An id that no specimen has: ``tire_a`` to ``tire_z``, then numbers."""
    taken = {specimen.id for specimen in episode.specimens}
    letters = (f"tire_{letter}" for letter in string.ascii_lowercase)
    return next((id_ for id_ in letters if id_ not in taken), None) or next(
        id_ for number in range(1, MOST + 2) if (id_ := f"tire_{number}") not in taken
    )


def with_new_tire(episode: Episode, place: Place) -> Episode:
    """The episode with one more tire at ``place``, about which nothing is known yet. Raises ValueError when full."""
    if len(episode.specimens) >= MOST:
        raise ValueError(f"{MOST} tires are entered; expected no more than {MOST} in one episode")
    return replace(episode, specimens=(*episode.specimens, Specimen(id=free_id(episode), place=place)))


def moved(episode: Episode, index: int, place: Place) -> Episode:
    """The episode with a tire at another place; the tire that stood there takes the place it left."""
    left = episode.specimens[index].place
    rows = list(episode.specimens)
    for number, specimen in enumerate(rows):
        if number == index:
            rows[number] = replace(specimen, place=place)
        elif specimen.place == place and place != "bench":
            rows[number] = replace(specimen, place=left)
    return replace(episode, specimens=tuple(rows))


def without_tire(episode: Episode, index: int) -> Episode:
    """The episode without a tire; pictures no longer ask for it."""
    gone = episode.specimens[index].id
    pictures = tuple(
        replace(choice, specimens=tuple(id_ for id_ in choice.specimens if id_ != gone)) for choice in episode.pictures
    )
    rows = tuple(specimen for number, specimen in enumerate(episode.specimens) if number != index)
    return replace(episode, specimens=rows, pictures=pictures)
