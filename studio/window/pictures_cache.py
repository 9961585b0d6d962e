"""The session's own folder: files that were dragged or copied out live there until the program ends."""

import atexit
import shutil
import tempfile
from hashlib import sha256
from pathlib import Path

from studio.storage.atomic import write_atomically


class SessionCache:
    """Keeps files by their content: one that another program may still be reading is never written over."""

    def __init__(self) -> None:
        self._folder: Path | None = None

    @property
    def folder(self) -> Path:
        """The folder, made when first needed and removed when the program ends."""
        if self._folder is None:
            self._folder = Path(tempfile.mkdtemp(prefix="tire-episode-studio-"))
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
            shutil.rmtree(self._folder, ignore_errors=True)
            self._folder = None
