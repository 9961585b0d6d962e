"""The open episode: one frozen value, one signal, one way in. Undo is one command that swaps two values."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoCommand, QUndoStack

from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.model.problem import Problem
from studio.window.difference import first_difference

UNDO_STEPS = 1000
NOT_DECIDED_FROM = ("title", "channel", "story", "look", "rundown", "questions", "pictures", "published")
"""What no finding is worked out from: a test holds every decision to it."""

Decide = Callable[[Episode, Any], Findings]
Check = Callable[[Episode, Any], tuple[Problem, ...]]


class Document(QObject):
    """The open episode. ``changed`` says that ``episode`` is another one now.

    ``undone`` gives the path of what an undo or redo has just changed (``specimens[2].marking``), so that a place can
    select it. ``state_changed`` says that path, read-only state or clean state are others now.
    """

    changed = Signal()
    undone = Signal(str)
    state_changed = Signal()
    started = Signal()
    """Another episode was opened in place of the one before."""

    def __init__(
        self,
        episode: Episode,
        *,
        path: Path | None = None,
        tables: Any = None,
        decide: Decide | None = None,
        check: Check | None = None,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self.episode = episode
        self.path = path
        self.held_by = ""
        self._tables, self._decide, self._check = tables, decide, check
        self._findings: Findings | None = None
        self.undo_stack = QUndoStack(self)
        self.undo_stack.setUndoLimit(UNDO_STEPS)  # works only while the stack is empty
        self.undo_stack.cleanChanged.connect(self._clean_changed)

    @property
    def tables(self) -> Any:
        """The reference tables, read when first needed."""
        if self._tables is None:
            from studio.reference.tables import load_tables

            self._tables = load_tables()
        return self._tables

    @property
    def knows_tables(self) -> bool:
        """Whether the reference tables are read already."""
        return self._tables is not None

    @property
    def findings(self) -> Findings:
        """What the episode says; computed when asked for and kept until the episode changes."""
        if self._findings is None:
            if self._decide is None:
                from studio.decide import decide

                self._decide = decide
            self._findings = Findings(())  # if a decision fails, it is told once and not with every repaint
            self._findings = self._decide(self.episode, self.tables)
        return self._findings

    @property
    def is_clean(self) -> bool:
        """Whether the episode is the one that was opened or saved last."""
        return self.undo_stack.isClean()

    @property
    def read_only(self) -> bool:
        """Whether somebody else holds the file; edits are kept in the window, a save needs another name."""
        return bool(self.held_by)

    def edit(self, text: str, after: Episode, merge: str = "") -> None:
        """Make ``after`` the episode, as one step of undo named ``text``.

        Edits that follow each other with one ``merge`` key (a value being dragged, a text being typed) are one step.
        """
        if after != self.episode:
            self.undo_stack.push(Swap(self, text, after, merge))

    def objections(self, after: Episode) -> tuple[Problem, ...]:
        """The problems that ``after`` has and the episode has not; empty where nothing speaks against the edit."""
        known = set(self.problems(self.episode))
        return tuple(problem for problem in self.problems(after) if problem not in known)

    def problems(self, episode: Episode) -> tuple[Problem, ...]:
        """What cannot be in the physical world, in any episode."""
        if self._check is None:
            from studio.decide.admission import problems

            self._check = problems
        return self._check(episode, self.tables)

    def start(self, episode: Episode, path: Path | None, *, held_by: str = "", clean: bool = True) -> None:
        """Open another episode in place of this one; the steps of undo are those of the new one."""
        self.undo_stack.clear()
        self.path, self.held_by = path, held_by
        self.show(episode)
        if not clean:
            self.undo_stack.resetClean()
        self.started.emit()
        self.state_changed.emit()

    def let_go(self) -> None:
        """The window closes: forget the steps of undo. Found by Python's collector together with the stack that owns
        them, they are destroyed once by either, which crashes the program."""
        self.undo_stack.clear()

    def saved_as(self, path: Path) -> None:
        """The episode has been written to ``path``."""
        self.path, self.held_by = path, ""
        self.undo_stack.setClean()
        self.state_changed.emit()

    def show(self, episode: Episode) -> None:
        """Make ``episode`` the current one; only ``start`` and Swap call this."""
        if not _decides_alike(self.episode, episode):
            self._findings = None
        self.episode = episode
        self.changed.emit()

    def _clean_changed(self, _clean: bool) -> None:
        self.state_changed.emit()


def _decides_alike(before: Episode, after: Episode) -> bool:
    """Whether no decision can differ: an edit of the script or of a question is told without deciding anew."""
    read = (field for field in before.__struct_fields__ if field not in NOT_DECIDED_FROM)
    return all(getattr(before, field) is getattr(after, field) for field in read)


class Swap(QUndoCommand):
    """The only command: it swaps two episodes."""

    def __init__(self, document: Document, text: str, after: Episode, merge: str) -> None:
        super().__init__(text)
        self._document, self._before, self._after, self._merge = document, document.episode, after, merge
        self._pushed = False

    def redo(self) -> None:
        """Called by ``push`` too, which is why nobody else applies the change."""
        self._document.show(self._after)
        if self._pushed:
            self._document.undone.emit(first_difference(self._before, self._after))
        self._pushed = True

    def undo(self) -> None:
        """Put the episode before the edit back."""
        self._document.show(self._before)
        self._document.undone.emit(first_difference(self._before, self._after))

    def id(self) -> int:
        """Qt asks ``mergeWith`` only for commands with one id."""
        return 1 if self._merge else -1

    def mergeWith(self, other: QUndoCommand) -> bool:
        """Take in a following edit with the same merge key."""
        if not isinstance(other, Swap) or other._merge != self._merge:
            return False
        self._after = other._after
        self.setObsolete(self._after == self._before)
        return True
