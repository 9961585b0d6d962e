"""What findings speak of: each tire under one name that no other finding of its topic has."""

from functools import lru_cache

import msgspec

from studio.decide.wording import plain, upper_first
from studio.model.episode import Episode
from studio.model.places import ON_CAR, place_words
from studio.model.specimen import Specimen


class Subject(msgspec.Struct, frozen=True, kw_only=True, cache_hash=True):
    """A tire as findings name it: by its place on the car, or by its specimen's id on the bench.

    ``words`` stand within a sentence (``rear left``), ``path`` leads to the specimen (``specimens[2]``).
    """

    name: str
    words: str
    path: str

    @property
    def title(self) -> str:
        """The words as a sentence begins with them."""
        return upper_first(self.words)


class Tire(msgspec.Struct, frozen=True, kw_only=True, cache_hash=True):
    """A specimen with the subject under which findings speak of it."""

    subject: Subject
    specimen: Specimen


def tires(episode: Episode) -> tuple[Tire, ...]:
    """All tires of the episode: the corners in walking order, the spare, then the bench as listed.

    Of two specimens at one place (which an episode should not hold) the first has the place's name.
    """
    return _named(episode.specimens)


def names(episode: Episode) -> tuple[tuple[str, str], ...]:
    """What the presenter calls the tires on the bench: (subject, name), of those that have a name."""
    benched = (tire for tire in tires(episode) if tire.subject.name not in ON_CAR)
    return tuple((tire.subject.name, name) for tire in benched if (name := plain(tire.specimen.name)))


@lru_cache(maxsize=8)
def _named(specimens: tuple[Specimen, ...]) -> tuple[Tire, ...]:
    """The tires of the same specimens from memory: every topic asks for them."""
    numbered = list(enumerate(specimens))
    on_car = {place: next((i for i, s in numbered if s.place == place), None) for place in ON_CAR}
    first = [i for i in on_car.values() if i is not None]
    rest = [i for i, _ in numbered if i not in first]
    taken: set[str] = set(ON_CAR)
    named = [_tire(specimens[i], i, specimens[i].place) for i in first]
    return (*named, *(_tire(specimens[i], i, _free(specimens[i].id, taken)) for i in rest))


def _tire(specimen: Specimen, index: int, name: str) -> Tire:
    called = f"“{plain(specimen.name)}”" if plain(specimen.name) else f"tire {specimen.id}"
    words = place_words(name) if name in ON_CAR else called
    return Tire(subject=Subject(name=name, words=words, path=f"specimens[{index}]"), specimen=specimen)


def _free(name: str, taken: set[str]) -> str:
    free, number = name, 2
    while free in taken:
        free, number = f"{name}_{number}", number + 1
    taken.add(free)
    return free
