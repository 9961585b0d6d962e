"""What is done with files that are dropped on the window: an episode is opened, photos and comments are taken in."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

PHOTOS = (".jpg", ".jpeg", ".png", ".webp")
TABLES = (".csv", ".tsv")


@dataclass(frozen=True)
class Dropped:
    """An episode to open, or photos to list, or a table of viewers' comments, or why none of these."""

    episode: Path | None = None
    photos: tuple[Path, ...] = ()
    comments: Path | None = None
    why: str = ""


def dropped(paths: Sequence[Path]) -> Dropped:
    """Sort what was dropped; of a folder, the one episode in it."""
    for path in paths:
        if path.is_dir():
            inside = sorted(path.glob("*.json"))
            if len(inside) == 1:
                return Dropped(episode=inside[0])
            return Dropped(why=f"The folder {path.name} holds {len(inside)} episodes; drop the one to open")
        if path.suffix.lower() == ".json":
            return Dropped(episode=path)
    photos = tuple(path for path in paths if path.suffix.lower() in PHOTOS)
    if photos:
        return Dropped(photos=photos)
    table = next((path for path in paths if path.suffix.lower() in TABLES), None)
    if table is not None:
        return Dropped(comments=table)
    named = ", ".join(path.name for path in paths[:3])
    kinds = "episode (.json), photo (.jpg, .png, .webp) or table of comments (.csv)"
    return Dropped(why=f"{named or 'This'} is no {kinds}")
