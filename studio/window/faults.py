"""When the program itself fails: a log, a rescue copy, one message. The document stays open."""

import contextlib
import logging
import sys
import threading
import traceback
from collections.abc import Callable
from pathlib import Path
from types import TracebackType

from PySide6.QtCore import QObject, Signal

from studio.storage.folders import data_folder, made

_LOG = logging.getLogger("studio")
_MOST_BYTES = 500_000


def start_log(folder: Path | None = None) -> Path:
    """Write warnings and faults to a file; one that has grown too large is put aside first. The file's path."""
    path = made(folder or data_folder()) / "studio.log"
    with contextlib.suppress(OSError):
        if path.is_file() and path.stat().st_size > _MOST_BYTES:
            path.replace(path.with_name("studio.log.1"))
        handler = logging.FileHandler(path, encoding="utf-8", delay=True)
        handler.setLevel(logging.WARNING)
        handler.setFormatter(logging.Formatter("%(asctime)s %(levelname)s %(name)s: %(message)s"))
        logging.getLogger().addHandler(handler)
    return path


class Faults(QObject):
    """Catches what nobody caught, in any thread, and tells of it in the window's thread."""

    _happened = Signal(str, str)

    def __init__(self, rescue: Callable[[], Path | None], tell: Callable[[str, str, str], object]) -> None:
        super().__init__()
        self._rescue, self._tell = rescue, tell
        self._telling = False
        self._happened.connect(self._say)

    def watch(self) -> None:
        """Take over from Python's own hooks."""
        sys.excepthook = self.caught
        threading.excepthook = self._caught_in_thread

    def release(self) -> None:
        """Give Python's own hooks back."""
        sys.excepthook = sys.__excepthook__
        threading.excepthook = threading.__excepthook__

    def caught(
        self, kind: type[BaseException], error: BaseException, trace: TracebackType | None
    ) -> None:
        """Log the fault, keep a rescue copy, and say so once."""
        if issubclass(kind, KeyboardInterrupt):
            sys.__excepthook__(kind, error, trace)
            return
        detail = "".join(traceback.format_exception(kind, error, trace))
        _LOG.error("fault\n%s", detail)
        self._happened.emit(f"{kind.__name__}: {error}", detail)

    def _caught_in_thread(self, args: threading.ExceptHookArgs) -> None:
        self.caught(args.exc_type, args.exc_value or args.exc_type(), args.exc_traceback)

    def _say(self, what: str, detail: str) -> None:
        if self._telling:
            return
        self._telling = True
        try:
            kept = self._keep()
            self._tell(
                "Something went wrong in the program",
                f"{what[:300]}\n\nThe episode is still open{kept}. Save it, then go on or start again.", detail,
            )  # fmt: skip
        finally:
            self._telling = False

    def _keep(self) -> str:
        try:
            path = self._rescue()
        except Exception:  # a second fault must not hide the first
            _LOG.exception("no rescue copy")
            return ", but no rescue copy could be written"
        return f", and a rescue copy lies at {path.name}" if path else ""
