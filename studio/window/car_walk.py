"""Going round the car with the gauge: from tire to tire, each with its reading of the episode's day."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer

from studio.window.session import neighbour, reading_of_day, walking_order

if TYPE_CHECKING:
    from studio.window.car_place import CarPlace


class Walk(QObject):
    """Measures one tire after the other on the sheets of a place."""

    def __init__(self, place: "CarPlace") -> None:
        super().__init__(place)
        self._place = place

    def measure(self) -> None:
        """Begin, from whichever place: the first tire that was not measured that day, its first empty cell."""
        episode = self._place.document.episode
        order = walking_order(episode)
        waiting = [n for n in order if reading_of_day(episode.specimens[n], episode.on) is None]
        if not order:
            return
        if not self._place.isVisible():
            self._place.go.emit(self._place.key, "")
        self._measure_tire((waiting or list(order))[0])

    def go_on(self, way: int) -> None:
        """Enter in the last cell (1): the next tire. Shift and Enter in the first (-1): the one before."""
        following = self._beside(way)
        if following is not None:
            self._measure_tire(following)
        elif way > 0:
            self._place.take_focus()

    def read_again(self) -> None:
        """A new reading of the tire that is shown."""
        if self._place.shows_sheet:
            self._place.sheet.new_reading()
            self._place.sheet.reading.grid.focus_first_empty()

    def to_next(self) -> None:
        """The next tire's sheet."""
        self._step(1)

    def to_previous(self) -> None:
        """The sheet of the tire before."""
        self._step(-1)

    def _beside(self, way: int) -> int | None:
        shown = self._place.sheet.index if self._place.shows_sheet else -1
        return neighbour(self._place.document.episode, shown, way)

    def _step(self, way: int) -> None:
        following = self._beside(way)
        if following is not None:
            self._place.show_tire(following)
            self._place.take_focus()

    def _measure_tire(self, index: int) -> None:
        episode, place = self._place.document.episode, self._place
        place.show_tire(index)
        number = reading_of_day(episode.specimens[index], episode.on)
        if number is None:
            place.sheet.new_reading()
        else:
            place.sheet.show_reading(number)
        place.sheet.reading.grid.focus_first_empty()
        QTimer.singleShot(0, self._bring_grid)

    def _bring_grid(self) -> None:
        """Scroll to the whole grid and not only to the cell in it."""
        if self._place.shows_sheet:
            self._place.sheet.ensureWidgetVisible(self._place.sheet.reading.grid, 0, 40)
