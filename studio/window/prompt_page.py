"""How the prompting view paints: the script in large letters past a reading mark, what comes beside it."""

from collections import OrderedDict
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import (
    QColor,
    QFont,
    QFontMetricsF,
    QImage,
    QPainter,
    QPolygonF,
    QTextCharFormat,
    QTextLayout,
    QTextOption,
)

from studio.graphics.look import Look
from studio.window.prompt_run import PromptRun
from studio.window.prompt_script import PromptPart, next_picture
from studio.window.rundown_rows import clock

_READ_AT = 0.34  # of the height: where the eye rests
_TEXT_PART = 0.72
_LETTER = 0.56  # of the font's size: a letter's mean width in Inter, measured on running text
_KEPT = 60
_WRAP = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop | Qt.TextFlag.TextWordWrap)


@dataclass(frozen=True)
class PromptState:
    """What the page says besides the script."""

    pace: float
    planned_s: float
    names: dict[str, str]
    images: dict[str, QImage]


class PromptPage:
    """Paints a run. ``letters`` is how many of them a line holds."""

    def __init__(self, look: Look) -> None:
        self._look, self.letters = look, 30
        self._layouts: OrderedDict[tuple[int, int, int], QTextLayout] = OrderedDict()

    def paint(self, painter: QPainter, size: QRectF, run: PromptRun, state: PromptState) -> None:
        """The whole page."""
        painter.fillRect(size, QColor(self._look.ground))
        wide = size.width() * (_TEXT_PART - 0.05)
        column = QRectF(size.left() + size.width() * 0.04, size.top(), wide, size.height())
        self._paint_script(painter, column, run)
        beside = QRectF(size.left() + size.width() * _TEXT_PART, size.top(), size.width() * (1 - _TEXT_PART) * 0.9,
                        size.height())  # fmt: skip
        self._paint_beside(painter, beside, run, state)

    def font_px(self, width: float) -> int:
        """The size at which so many letters fill a line."""
        return max(12, round(width / (self.letters * _LETTER)))

    # the script

    def _paint_script(self, painter: QPainter, column: QRectF, run: PromptRun) -> None:
        pixels = self.font_px(column.width())
        read_at = column.top() + column.height() * _READ_AT
        self._mark(painter, QPointF(column.left() - pixels * 0.35, read_at), pixels)
        if run.part is None:
            return
        gap = pixels * 0.7
        here = self._layout(run, run.at, column.width(), pixels)
        line = QFontMetricsF(self._font(pixels)).height()
        high = here.boundingRect().height()
        top = read_at - line * 0.6 - run.share * max(0.0, high - line if not run.ended else high)
        self._go_down(painter, column, run, top, pixels, gap)
        self._go_up(painter, column, run, top, pixels, gap)

    def _go_down(
        self, painter: QPainter, column: QRectF, run: PromptRun, y: float, pixels: int, gap: float
    ) -> None:
        for number in range(run.at, len(run.parts)):
            if number > run.at and run.parts[number].first:
                y += self._title_height(pixels)
            if y > column.bottom():
                return
            y += self._paint_part(painter, column, run, number, y, pixels) + gap

    def _go_up(self, painter: QPainter, column: QRectF, run: PromptRun, y: float, pixels: int, gap: float) -> None:
        if run.parts[run.at].first:
            self._paint_title(painter, column, run.parts[run.at], y, pixels)
            y -= self._title_height(pixels)
        for number in range(run.at - 1, -1, -1):
            y -= self._layout(run, number, column.width(), pixels).boundingRect().height() + gap
            self._paint_part(painter, column, run, number, y, pixels)
            if run.parts[number].first:
                y -= self._title_height(pixels)
            if y < column.top():
                return

    def _paint_part(
        self, painter: QPainter, column: QRectF, run: PromptRun, number: int, y: float, pixels: int
    ) -> float:
        part, layout = run.parts[number], self._layout(run, number, column.width(), pixels)
        if part.first and number > run.at:
            self._paint_title(painter, column, part, y, pixels)
        painter.setPen(QColor(self._look.ink if number == run.at else self._look.quiet))
        layout.draw(painter, QPointF(column.left(), y))
        return layout.boundingRect().height()

    def _title_height(self, pixels: int) -> float:
        return pixels * 1.5

    def _paint_title(self, painter: QPainter, column: QRectF, part: PromptPart, y: float, pixels: int) -> None:
        font = self._font(round(pixels * 0.55), bold=True)
        painter.setFont(font)
        painter.setPen(QColor(self._look.measure))
        metrics = QFontMetricsF(font)
        low = y - pixels * 0.35
        painter.drawLine(QPointF(column.left(), low), QPointF(column.right(), low))
        title = metrics.elidedText(part.title, Qt.TextElideMode.ElideRight, column.width())
        painter.drawText(QPointF(column.left(), low - metrics.descent() - 2), title)

    def _layout(self, run: PromptRun, number: int, width: float, pixels: int) -> QTextLayout:
        key = (number, round(width), pixels)
        if key not in self._layouts:
            self._layouts[key] = self._lay_out(run.parts[number], width, pixels)
            while len(self._layouts) > _KEPT:
                self._layouts.popitem(last=False)
        self._layouts.move_to_end(key)
        return self._layouts[key]

    def _lay_out(self, part: PromptPart, width: float, pixels: int) -> QTextLayout:
        text = part.text.replace("\n", "\u2028")
        layout = QTextLayout(text, self._font(pixels))
        option = QTextOption()
        option.setWrapMode(QTextOption.WrapMode.WrapAtWordBoundaryOrAnywhere)
        layout.setTextOption(option)
        layout.setFormats(self._formats(part))
        layout.beginLayout()
        y = 0.0
        while (line := layout.createLine()).isValid():
            line.setLineWidth(width)
            line.setPosition(QPointF(0, y))
            y += line.height() * 1.15
        layout.endLayout()
        return layout

    def _formats(self, part: PromptPart) -> list[QTextLayout.FormatRange]:
        found, at = [], 0
        for text, live in part.stretches:
            long = len(text) + sum(ord(c) > 0xFFFF for c in text)
            if live:
                its, made = QTextLayout.FormatRange(), QTextCharFormat()
                made.setFontWeight(QFont.Weight.DemiBold)
                made.setFontUnderline(True)
                its.start, its.length, its.format = at, long, made
                found.append(its)
            at += long
        return found

    def _mark(self, painter: QPainter, at: QPointF, pixels: int) -> None:
        """Where to read: a wedge at the left edge."""
        side = pixels * 0.3
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(self._look.measure))
        painter.drawPolygon(
            QPolygonF([at + QPointF(-side, -side), at + QPointF(side * 0.6, 0), at + QPointF(-side, side)])
        )

    # beside it

    def _paint_beside(self, painter: QPainter, field: QRectF, run: PromptRun, state: PromptState) -> None:
        pixels = max(11, round(field.width() / 17))
        y = field.top() + field.height() * 0.06
        y = self._paint_picture(painter, field, y, pixels, run, state)
        part = run.part
        for number in part.numbers if part is not None else ():
            y = self._say(painter, field, y, number.mine, round(pixels * 1.5), "ink", bold=True)
            if number.other:
                y = self._say(painter, field, y, number.other, round(pixels * 1.2), "ink")
            y = self._say(painter, field, y, number.said, pixels, "quiet") + pixels * 0.8
            if y > field.bottom() - 6 * pixels:
                break
        self._paint_foot(painter, field, pixels, run, state)

    def _paint_picture(
        self, painter: QPainter, field: QRectF, y: float, pixels: int, run: PromptRun, state: PromptState
    ) -> float:
        found = next_picture(run.parts, run.at)
        if found is None:
            return self._say(painter, field, y, "No more pictures", pixels, "quiet") + pixels
        picture, away = found
        when = "Now" if away == 0 else "With the next point" if away == 1 else f"In {away} points"
        y = self._say(painter, field, y, when, pixels, "measure", bold=True) + 4
        thumb = QRectF(field.left(), y, field.width(), field.width() * 9 / 16)
        image = state.images.get(picture)
        if image is not None:
            painter.drawImage(thumb, image)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QColor(self._look.quiet))
        painter.drawRect(thumb)
        name = state.names.get(picture, f"{picture}: no such picture")
        return self._say(painter, field, thumb.bottom() + 4, name, pixels, "ink") + pixels * 1.5

    def _paint_foot(
        self, painter: QPainter, field: QRectF, pixels: int, run: PromptRun, state: PromptState
    ) -> None:
        standing = "the end" if run.ended else "held" if not run.running else "by hand" if run.by_hand else "running"
        lines = (
            (f"{clock(run.clock_s)} of {clock(state.planned_s)}", round(pixels * 1.5), "ink", True),
            (f"{standing}, {state.pace * run.speed:.0f} words a minute", pixels, "quiet", False),
            (f"speed {run.speed * 100:.0f} %", pixels, "quiet", False),
        )
        y = field.bottom() - 6.2 * pixels
        for text, size, color, bold in lines:
            y = self._say(painter, field, y, text, size, color, bold=bold)

    def _say(
        self, painter: QPainter, field: QRectF, y: float, text: str, pixels: int, color: str, *, bold: bool = False
    ) -> float:
        """Write ``text`` below ``y``; where what follows begins."""
        painter.setFont(self._font(pixels, bold=bold))
        painter.setPen(QColor(getattr(self._look, color)))
        room = QRectF(field.left(), y, field.width(), field.bottom() - y)
        return painter.drawText(room, _WRAP, text).bottom() + 2 if room.height() > 0 else y

    def _font(self, pixels: int, *, bold: bool = False) -> QFont:
        font = QFont(["Inter", "DejaVu Sans"])
        font.setPixelSize(max(8, pixels))
        font.setWeight(QFont.Weight.DemiBold if bold else QFont.Weight.Medium)
        return font
