"""Draws pictures off the window's thread, one after the other, what is looked at first."""

import threading
from collections.abc import Iterable

from PySide6.QtCore import QObject, Signal

from studio.window.pictures_order import Drawings, Drawn, Order
from studio.window.tasks import Job, JobRunner


class Drawer(QObject):
    """``drawn`` gives each result, unless another order for the same place has come in meanwhile."""

    drawn = Signal(object)

    def __init__(self, jobs: JobRunner, drawings: Drawings, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._jobs, self._drawings = jobs, drawings
        self._lock = threading.Lock()
        self._waiting: dict[str, Order] = {}
        self._latest: dict[str, Order] = {}
        self._running = False

    @property
    def idle(self) -> bool:
        """Whether nothing is being drawn or waits for it."""
        return not self._running

    def order(self, orders: Iterable[Order]) -> None:
        """Draw these, each in place of what was ordered before under its key."""
        with self._lock:
            for order in orders:
                self._latest[order.key] = self._waiting[order.key] = order
        self._start()

    def forget(self, key: str) -> None:
        """What was ordered under this key is not wanted any more."""
        with self._lock:
            self._waiting.pop(key, None)
            self._latest.pop(key, None)

    def _start(self) -> None:
        if not self._running and self._waiting:
            self._running = True
            self._jobs.run(
                "Drawing", self._work, self._take, self._ended, self._ended, self._ended_early, quiet=True
            )  # fmt: skip

    def _work(self) -> Job:
        while (order := self._next()) is not None:
            yield self._drawings.draw(order)

    def _next(self) -> Order | None:
        with self._lock:
            if not self._waiting:
                return None
            first = min(self._waiting.values(), key=lambda order: order.rank)
            return self._waiting.pop(first.key)

    def _take(self, drawn: Drawn) -> None:
        if self._latest.get(drawn.order.key) is drawn.order:
            self.drawn.emit(drawn)

    def _ended(self, _how: object) -> None:
        self._ended_early()
        self._start()

    def _ended_early(self) -> None:
        self._running = False
