"""One window of ``windows_on_one_file``: it does what the lines on its input say and tells how it stands after each."""

import sys
from collections.abc import Sequence
from pathlib import Path

from msgspec.structs import replace
from PySide6.QtWidgets import QApplication

from studio.model.episode import Episode
from studio.window.autosave import Autosave
from studio.window.dialogs import Choice
from studio.window.document import Document
from studio.window.keeper import Keeper
from studio.window.preferences import Preferences
from tests.storage.episodes import SMALL
from tests.window.helpers import no_findings


class _Answers:
    """Takes up unsaved work, reads what another holds, gives changes up on leaving, saves under ``name``."""

    TAKEN = ("restore", "read", "discard", "unsaved", "overwrite")

    def __init__(self) -> None:
        self.name: Path | None = None
        self.restored = False

    def choose(self, _title: str, _text: str, choices: Sequence[Choice], _detail: str = "") -> str:
        key = next(choice.key for choice in choices if choice.key in self.TAKEN)
        self.restored = self.restored or key == "restore"
        return key

    def tell(self, title: str, text: str, detail: str = "") -> None:
        """Nothing that is told is held against anybody: how the window stands is what counts."""

    def save_file(self, _caption: str, _suggested: Path, _filters: str) -> Path | None:
        return self.name


class OneWindow:
    """The program's own document, keeper and rescue copies, without the widgets round them."""

    def __init__(self) -> None:
        self.answers = _Answers()
        self.document = Document(_titled("new"), tables=object(), decide=no_findings, check=lambda _e, _t: ())
        self.autosave = Autosave(self.document, 600)
        self.keeper = Keeper(self.document, self.answers, self.autosave, Preferences())  # type: ignore[arg-type]

    def do(self, deed: str, *words: str) -> None:
        """Do what a line says."""
        self.answers.restored = False
        if deed == "start":
            self.keeper.recover_untitled()
        elif deed == "edit":
            self.document.edit("Change title", replace(self.document.episode, title=words[0]))
        elif deed == "keep":
            self.autosave.keep_now()
        elif deed == "open":
            self.keeper.open(Path(words[0]))
        elif deed in ("save", "save_as"):
            self.answers.name = Path(words[0])
            getattr(self.keeper, deed)()

    def state(self) -> str:
        """How it stands: file, held or only read, title, clean or not, whether unsaved work was just taken up."""
        document = self.document
        words = [
            str(document.path or ""), "read" if document.read_only else "held", document.episode.title,
            "clean" if document.is_clean else "changed", "restored" if self.answers.restored else "",
        ]  # fmt: skip
        return "\t".join(words)


def _titled(title: str) -> Episode:
    return replace(SMALL, title=title)


def main() -> None:
    """Do one line after the other until ``close``."""
    application = QApplication([])
    window = OneWindow()
    for line in sys.stdin:
        deed, *words = line.rstrip("\n").split("\t")
        if deed == "close":
            break
        window.do(deed, *words)
        application.processEvents()
        print(window.state(), flush=True)
    if window.keeper.may_leave():
        window.keeper.close()


if __name__ == "__main__":
    main()
