"""The car from above, drawn to scale, with a tag beside each wheel and the spare and bench tires below."""

from msgspec.structs import replace
from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QMouseEvent, QPainter, QPaintEvent, QPen, QPixmap, QResizeEvent
from PySide6.QtWidgets import QWidget

from studio.graphics.frame import Box, Frame
from studio.graphics.paint.raster import paint
from studio.graphics.parts.car_above import car_above
from studio.graphics.parts.car_plan import CarPlan
from studio.graphics.parts.tread_above import TreadView, tire_above
from studio.graphics.parts.tread_blocks import family_of
from studio.graphics.scene import Scene, Shape, Text
from studio.graphics.whole_car import car_plan
from studio.model.finding import Findings
from studio.model.places import CORNERS, Place
from studio.window.document import Document
from studio.window.labels import name_field
from studio.window.palette import Appearance
from studio.window.plan_layout import PlanLayout, lay_out, least_height, wheel_center
from studio.window.plan_sizes import least_width
from studio.window.tire_state import TireState, states
from studio.window.tire_tag import FULL_MM, TireTag

_FRONT_CAP = 9.5  # px, the capitals of text at 13 px
_UP_DOWN = {Qt.Key.Key_Up: "up", Qt.Key.Key_Down: "down", Qt.Key.Key_Left: "left", Qt.Key.Key_Right: "right"}


class PlanView(QWidget):
    """The plan. The signals of tires give the number of a specimen, those of places a place where none stands.

    ``reached``: the focus came there by key; ``clicked``: by the mouse; ``entered``: Enter was pressed there;
    ``removed``: Delete was.
    """

    tire_reached = Signal(int)
    tire_clicked = Signal(int)
    tire_entered = Signal(int)
    tire_removed = Signal(int)
    place_reached = Signal(str)
    place_clicked = Signal(str)
    place_entered = Signal(str)
    car_reached = Signal()

    def __init__(self, document: Document, appearance: Appearance) -> None:
        super().__init__()
        self._document, self._appearance = document, appearance
        self._tags: list[TireTag] = []
        self._plan = CarPlan(wheelbase_mm=2700.0, front_track_mm=1500.0, rear_track_mm=1500.0, tires=())
        self._laid: PlanLayout | None = None
        self._drawn: QPixmap | None = None
        self._selected = -1
        name_field(self, "The car from above, front up")
        document.changed.connect(self.refresh)
        appearance.changed.connect(self._restyle)
        self.refresh()

    @property
    def tags(self) -> list[TireTag]:
        """The tags: corners, spare, bench."""
        return self._tags

    def refresh(self) -> None:
        """Show the episode as it is now."""
        every = states(self._document)
        while len(self._tags) > len(every):
            tag = self._tags.pop()
            tag.hide()
            tag.deleteLater()
        while len(self._tags) < len(every):
            self._tags.append(self._new_tag())
        depths = [bar.depth_mm or 0.0 for state in every for bar in state.bars]
        full = max([FULL_MM, *depths, *(state.new_mm or 0.0 for state in every)])
        for tag, state in zip(self._tags, every, strict=True):
            tag.show_state(state, full)
        episode = self._document.episode
        whole = car_plan(episode, self._document.findings if episode.specimens else Findings(()))
        there = {state.place for state in every if state.index is not None}
        self._plan = replace(whole, tires=tuple(t for t in whole.tires if t.place in CORNERS and t.place in there))
        self.select(self._selected)
        self._arrange()

    def select(self, index: int) -> None:
        """Mark the tire whose sheet is open; -1 marks none."""
        self._selected = index
        for tag in self._tags:
            tag.set_selected(tag.state.index is not None and tag.state.index == index)
        self.update()

    def tag_of(self, index: int) -> TireTag | None:
        """The tag of a specimen."""
        return next((tag for tag in self._tags if tag.state.index == index), None)

    def tag_at(self, place: Place) -> TireTag | None:
        """The first tag of a place."""
        return next((tag for tag in self._tags if tag.state.place == place), None)

    def _new_tag(self) -> TireTag:
        tag = TireTag(self._appearance, self)
        tag.reached.connect(self._reached)
        tag.clicked.connect(self._clicked)
        tag.turned.connect(self._turned)
        tag.entered.connect(self._entered)
        tag.removed.connect(self._removed)
        tag.show()
        return tag

    def _sender(self) -> TireTag:
        tag = self.sender()
        assert isinstance(tag, TireTag)
        return tag

    def _reached(self) -> None:
        state = self._sender().state
        if state.index is None:
            self.place_reached.emit(state.place)
        else:
            self.tire_reached.emit(state.index)

    def _clicked(self) -> None:
        state = self._sender().state
        if state.index is None:
            self.place_clicked.emit(state.place)
        else:
            self.tire_clicked.emit(state.index)

    def _entered(self) -> None:
        state = self._sender().state
        if state.index is None:
            self.place_entered.emit(state.place)
        else:
            self.tire_entered.emit(state.index)

    def _removed(self) -> None:
        index = self._sender().state.index
        if index is not None:
            self.tire_removed.emit(index)

    def _turned(self, key: int) -> None:
        """Go to the nearest tag in the arrow's direction."""
        here = self._sender()
        way = _UP_DOWN[Qt.Key(key)]
        nearest = min(
            ((distance, tag) for tag in self._tags if (distance := _distance(here, tag, way)) is not None),
            key=lambda pair: pair[0], default=None,
        )  # fmt: skip
        if nearest:
            nearest[1].setFocus(Qt.FocusReason.TabFocusReason)

    # geometry and painting

    def sizeHint(self) -> QSize:
        """What the plan needs."""
        percent = self._appearance.percent
        width = max(least_width(percent), self.width())
        return QSize(round(least_width(percent)), round(least_height(len(self._tags) - 4, width, percent)))

    def minimumSizeHint(self) -> QSize:
        """As the hint."""
        return self.sizeHint()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Lay everything out anew."""
        super().resizeEvent(event)
        self._arrange()

    def _restyle(self) -> None:
        self._arrange()

    def _arrange(self) -> None:
        below = len(self._tags) - len(CORNERS)
        self._laid = lay_out(self._plan, below, self.width(), self.height(), self._appearance.percent)
        boxes = [self._laid.corners[place] for place in CORNERS]
        for tag, box in zip(self._tags, boxes, strict=False):
            tag.setGeometry(_rect(box).toRect())
        for tag, box in zip(self._tags[len(CORNERS) :], self._laid.below, strict=True):
            shift = box.height * 0.36
            tag.setGeometry(_rect(box).adjusted(shift, 0, 0, 0).toRect())
        self._drawn = None
        self.updateGeometry()
        self.update()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """A click on the car's body opens the car's form."""
        if self._laid and _rect(self._laid.car.body).contains(event.position()):
            self.car_reached.emit()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """The car and its tires, drawn once for a size and a look; leaders and marks over them."""
        if self._laid is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self._drawn is None:
            self._drawn = self._draw()
        painter.drawPixmap(0, 0, self._drawn)
        for tag in self._tags:
            self._paint_leader(painter, tag)
        painter.end()

    def _draw(self) -> QPixmap:
        assert self._laid is not None
        ratio = self.devicePixelRatioF()
        pixmap = QPixmap(self.size() * ratio)
        pixmap.setDevicePixelRatio(ratio)
        pixmap.fill(Qt.GlobalColor.transparent)
        look = self._appearance.look
        frame = Frame(max(1, self.width()), max(1, self.height()))
        cap = self._appearance.px(_FRONT_CAP)
        marks = [_front_smaller(mark, cap) for mark in car_above(self._laid.car, frame, look)]
        for tag, box in zip(self._tags[len(CORNERS) :], self._laid.below, strict=True):
            marks += self._lone_tire(tag.state, box)
        painter = QPainter(pixmap)
        paint(painter, Scene(picture="plan", frame=frame, background=None, marks=tuple(marks)))
        painter.end()
        return pixmap

    def _lone_tire(self, state: TireState, box: Box) -> tuple[Shape, ...]:
        """A tire beside its tag, upright as it would stand on the car, to the scale of the tag."""
        specimen = self._document.episode.specimens[state.index] if state.index is not None else None
        if specimen is None:
            return ()
        high = box.height * 0.7
        family = family_of(specimen.tread, specimen.season)
        view = TreadView(family=family, siped=specimen.season == "winter", finest=5.0)
        center = (box.left + box.height * 0.18, box.top + box.height * 0.5)
        return tire_above(view, center, high * 0.33, high, self._appearance.look, f"lone/{state.index}")

    def _paint_leader(self, painter: QPainter, tag: TireTag) -> None:
        """From a corner's tag to its wheel; round the wheel where the tire is chosen or missing."""
        if tag.state.place not in CORNERS or self._laid is None:
            return
        x, y = wheel_center(self._laid.car, tag.state.place)
        left = tag.state.place.endswith("left")
        tire = self._laid.car.tire(tag.state.place)
        wide, high = (tire.width, tire.height) if tire else (205 * self._laid.car.scale, 640 * self._laid.car.scale)
        edge = x - wide / 2 - 3 if left else x + wide / 2 + 3
        start = float(tag.geometry().right() + 1 if left else tag.geometry().left())
        if tire is None:
            start = edge
        chosen = tag.state.index is not None and tag.state.index == self._selected
        painter.setPen(QPen(self._appearance.color("measure"), 2 if chosen else 1))
        painter.drawLine(QPointF(start, y), QPointF(edge, y))
        if tire is None:
            painter.setPen(QPen(QColor(self._appearance.look.ink), 1, Qt.PenStyle.DashLine))
        if chosen or tire is None:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(QRectF(x - wide / 2 - 3, y - high / 2 - 3, wide + 6, high + 6), 5, 5)


def _front_smaller(mark: Shape | Text, cap_height: float) -> Shape | Text:
    """The word that says where the front is, in the window's text size."""
    if isinstance(mark, Text) and mark.name == "front/word":
        shift = max(0.0, mark.cap_height - cap_height) / 2
        return replace(mark, cap_height=min(mark.cap_height, cap_height), at=(mark.at[0], mark.at[1] - shift))
    return mark


def _rect(box: Box) -> QRectF:
    return QRectF(box.left, box.top, box.width, box.height)


def _distance(here: TireTag, there: TireTag, way: str) -> float | None:
    """How far ``there`` lies in a direction; what lies aside counts double. None where it lies elsewhere."""
    if here is there:
        return None
    dx = there.geometry().center().x() - here.geometry().center().x()
    dy = there.geometry().center().y() - here.geometry().center().y()
    along, aside = {"up": (-dy, dx), "down": (dy, dx), "left": (-dx, dy), "right": (dx, dy)}[way]
    return along + 2 * abs(aside) if along > 4 else None
