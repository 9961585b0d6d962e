"""In which place an episode's path is shown."""

from studio.model.episode import Episode

_CAR = ("specimens", "car", "title", "channel", "on", "story", "prices", "circumstances")


def place_of(path: str, episode: Episode) -> tuple[str, str]:
    """The key of the place and the target in it for ``path``; an empty key where the change is seen everywhere."""
    first = path.partition(".")[0].partition("[")[0]
    if first in _CAR:
        return "car", path
    if first == "rundown":
        return "rundown", path
    if first == "questions":
        return "questions", path
    if first == "pictures":
        index = path.partition("[")[2].partition("]")[0]
        known = index.isdigit() and int(index) < len(episode.pictures)
        return "pictures", episode.pictures[int(index)].picture if known else ""
    if first == "look":
        return "pictures", ""
    return "", ""
