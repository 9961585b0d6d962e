"""The list of live numbers that stands under the cursor while one is asked for by typing ``{``."""

from PySide6.QtCore import QPoint, QRect, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QListWidget, QListWidgetItem, QWidget

from studio.script.numbers import VALUE
from studio.script.offers import Offer
from studio.window.palette import Appearance

_ROWS, _WIDE = 8, 420
_OFFER = Qt.ItemDataRole.UserRole


class OfferList(QListWidget):
    """It never takes the focus: the text goes on being typed. ``taken`` gives the offer that was chosen."""

    taken = Signal(object)

    def __init__(self, appearance: Appearance, parent: QWidget) -> None:
        super().__init__(parent)
        self._appearance, self.over = appearance, parent
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setFrameShape(QFrame.Shape.Box)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setTextElideMode(Qt.TextElideMode.ElideRight)
        self.setUniformItemSizes(True)
        self.setAccessibleName("Numbers to put in")
        self.itemClicked.connect(self._clicked)
        self.hide()

    def offer(self, offers: list[Offer], under: QRect) -> None:
        """Show these below (or above) ``under``, a rectangle of the parent; nothing where there are none."""
        self.clear()
        for its in offers:
            item = QListWidgetItem(offer_words(its))
            item.setData(_OFFER, its)
            self.addItem(item)
        if not offers:
            item = QListWidgetItem("No computed number fits: type other words, or Esc leaves it")
            item.setFlags(Qt.ItemFlag.NoItemFlags)
            self.addItem(item)
        self.setCurrentRow(0 if offers else -1)
        self._place(under)
        self.show()
        self.raise_()

    def take_key(self, event: QKeyEvent) -> bool:
        """Whether the key was for the list: arrows move, Enter and Tab take, Esc closes."""
        step = {Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1, Qt.Key.Key_PageDown: _ROWS, Qt.Key.Key_PageUp: -_ROWS}
        key = Qt.Key(event.key())
        if key in step and self.currentRow() >= 0:
            self.setCurrentRow(min(max(self.currentRow() + step[key], 0), self.count() - 1))
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Tab):
            if self.current() is not None:  # else the list stays and says that nothing fits
                self.taken.emit(self.current())
        elif key == Qt.Key.Key_Escape:
            self.hide()
        else:
            return False
        return True

    def current(self) -> Offer | None:
        """The offer at hand."""
        item = self.currentItem()
        its = item.data(_OFFER) if item is not None else None
        return its if isinstance(its, Offer) else None

    def _place(self, under: QRect) -> None:
        parent = self.over
        high = min(self.count(), _ROWS) * max(self.sizeHintForRow(0), 1) + 2 * self.frameWidth()
        wide = min(self._appearance.px(_WIDE), parent.width())
        left = min(under.left(), parent.width() - wide)
        below = under.bottom() + 2
        top = below if below + high <= parent.height() else max(0, under.top() - 2 - high)
        self.setGeometry(QRect(QPoint(max(0, left), top), self.size()))
        self.resize(wide, high)

    def _clicked(self, item: QListWidgetItem) -> None:
        its = item.data(_OFFER)
        if isinstance(its, Offer):
            self.taken.emit(its)


def offer_words(offer: Offer) -> str:
    """An offer on one line: the number as it would show, what it is, whose."""
    topic, _, subject = offer.finding.replace("_", " ").partition(".")
    what = "" if offer.number == VALUE else f"{offer.label}: "
    return f"{offer.text} — {what}{topic}, {subject}"
