"""What must be drawn when: the large picture at once, the shelf a little later, the file when it is quiet."""

from collections.abc import Callable, Iterable
from dataclasses import replace

import msgspec
from PySide6.QtCore import QObject, QTimer, Signal

from studio.graphics.frame import FRAMES
from studio.window.document import Document
from studio.window.look_book import LookBook
from studio.window.pictures_drawer import Drawer
from studio.window.pictures_order import Drawn, Order
from studio.window.pictures_view import View

LIVE, FILE, PLAY, SHELF = "live", "file", "play", "shelf "
_LEAST_SIDE = 320
_LIVE_MS, _SHELF_MS, _FILE_MS = 15, 250, 400


class Desk(QObject):
    """Turns edits and views into orders. ``live``, ``shelf`` (id, drawn) and ``file_made`` give what was drawn.

    Nothing is drawn while it is asleep: a place that is not shown costs nothing.
    """

    live = Signal(object)
    shelf = Signal(str, object)
    file_made = Signal(object)
    playable = Signal(object)
    """The scene whose clip can be played, composed about as large as it is shown; None while there is none."""

    def __init__(self, document: Document, drawer: Drawer, book: LookBook, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document, self._drawer, self._book = document, drawer, book
        self._ids: tuple[str, ...] = ()
        self._size, self._thumb = (1, 1), (1, 1)
        self._awake, self._file_wanted = False, False
        self.view = View()
        self.file: Drawn | None = None
        self._live_timer = self._timer(_LIVE_MS, self._order_live)
        self._shelf_timer = self._timer(_SHELF_MS, self._order_shelf)
        self._file_timer = self._timer(_FILE_MS, self.want_file)
        drawer.drawn.connect(self._take)
        document.changed.connect(self.refresh)
        book.changed.connect(self.refresh)

    def wake(self, ids: Iterable[str], thumb: tuple[int, int]) -> None:
        """The place is shown: draw these pictures, small ones in this size."""
        self._ids, self._thumb = tuple(ids), thumb
        if not self._awake:
            self._awake = True
            self.refresh()

    def sleep(self) -> None:
        """The place is not shown any more."""
        self._awake = False
        for timer in (self._live_timer, self._shelf_timer, self._file_timer):
            timer.stop()

    def refresh(self) -> None:
        """Everything may be another one now."""
        self._drop_file()
        if self._awake:
            self._live_timer.start()
            self._shelf_timer.start()

    def look_at(self, view: View, size: tuple[int, int]) -> None:
        """Draw this view large, in this size."""
        if view.picture != self.view.picture or (view, size) != (self.view, self._size):
            self._drop_file()
            self.view, self._size = view, size
            if self._awake:
                self._live_timer.start()

    def want_file(self) -> None:
        """The file of what is shown is needed: by a drag, by a copy, or soon."""
        if self.file is None and not self._file_wanted and self.view.picture:
            self._file_wanted = True
            self._drawer.order([replace(self._order(FILE, self.view.picture), file=True, rank=1)])

    def _drop_file(self) -> None:
        self.file, self._file_wanted = None, False
        self._file_timer.stop()
        self._drawer.forget(FILE)
        self._drawer.forget(PLAY)
        self.playable.emit(None)

    def _order(self, key: str, picture: str) -> Order:
        episode = self._document.episode
        return Order(
            key=key, picture=picture, episode=episode, findings=self._document.findings, look=self._book.shown,
            frame=self.view.frame, background=self.view.background, step=self.view.step, size=self._size,
        )  # fmt: skip

    def _order_live(self) -> None:
        if self.view.picture:
            self._drawer.order([self._order(LIVE, self.view.picture)])

    def _order_shelf(self) -> None:
        """Small pictures are always wide, finished and on the look's own ground: they are there to be told apart."""
        small = (self._order(f"{SHELF}{id_}", id_) for id_ in self._ids)
        self._drawer.order(
            replace(its, frame=FRAMES["wide"], background="look", step=None, size=self._thumb, rank=2) for its in small
        )

    def _order_play(self, file: Order) -> Order:
        """The picture composed for a frame no larger than it is shown: as cheap to play as it looks."""
        frame = file.frame
        least = _LEAST_SIDE / frame.short
        share = min(1.0, max(least, self._size[0] / frame.width))
        small = msgspec.structs.replace(frame, width=round(frame.width * share), height=round(frame.height * share))
        return replace(file, key=PLAY, file=False, frame=small, step=None, size=(1, 1), rank=3)

    def _take(self, drawn: Drawn) -> None:
        key = drawn.order.key
        if key == LIVE:
            self.live.emit(drawn)
            if drawn.scene is not None:
                self._file_timer.start()
        elif key == FILE:
            self.file, self._file_wanted = (drawn if drawn.path else None), False
            self.file_made.emit(drawn)
            if drawn.scene is not None:
                self._drawer.order([self._order_play(drawn.order)])
        elif key == PLAY:
            self.playable.emit(drawn.scene)
        else:
            self.shelf.emit(key.removeprefix(SHELF), drawn)

    def _timer(self, ms: int, act: Callable[[], None]) -> QTimer:
        timer = QTimer(self)
        timer.setSingleShot(True)
        timer.setInterval(ms)
        timer.timeout.connect(act)
        return timer
