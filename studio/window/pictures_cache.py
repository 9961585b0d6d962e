"""The session's own folder: files that were dragged or copied out live there until the program ends."""

import atexit
from hashlib import sha256
from pathlib import Path

from studio.storage.atomic import write_atomically
from studio.storage.leftovers import remove_temporary_folder, temporary_folder


class SessionCache:
    """Keeps files by their content: one that another program may still be reading is never written over."""

    def __init__(self) -> None:
        self._folder: Path | None = None

    @property
    def folder(self) -> Path:
        """The folder, made when first needed and removed when the program ends."""
        if self._folder is None:
            self._folder = temporary_folder("studio")
            atexit.register(self.clear)
        return self._folder

    def keep(self, name: str, content: bytes) -> Path:
        """The path of a file of this name with this content. Raises StorageError where it cannot be written."""
        path = self.folder / sha256(content).hexdigest()[:16] / name
        if not path.exists():
            path.parent.mkdir(parents=True, exist_ok=True)
            write_atomically(path, content)
        return path

    def clear(self) -> None:
        """Remove the folder with all that is in it."""
        if self._folder is not None:
            atexit.unregister(self.clear)
            remove_temporary_folder(self._folder)
            self._folder = None
