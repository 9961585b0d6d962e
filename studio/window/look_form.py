"""All that can be chosen about a look: colours with their contrasts, letters, corners, logo, small print, zones."""

from msgspec.structs import replace
from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLineEdit, QSlider, QVBoxLayout, QWidget

from studio.graphics.look import Fonts, Logo, LookFile
from studio.graphics.look_check import SEEN, pairs, verdicts
from studio.graphics.look_parts import VERDICTS
from studio.window.form_parts import FieldBox, section
from studio.window.labels import plain_label
from studio.window.look_colors import ColorRows, Readout
from studio.window.look_letters import Letters
from studio.window.look_logo import LogoForm
from studio.window.palette import GRID
from studio.window.pictures_check import Check
from studio.window.undo_keys import LineEdit

PAPER = ("ground", "plate", "ink", "quiet", "measure")
TIRE = ("rubber", "rubber_light", "rubber_edge", "groove", "letter")
REST = ("steel", "steel_light", "water", "car", "shadow")
_SHORT_SEEN = {None: "full colour", "protan": "red-blind", "deutan": "green-blind", "tritan": "blue-blind"}
assert set(_SHORT_SEEN) == set(SEEN)


class LookForm(QWidget):
    """``changed`` gives the fields of the look that the user changed, by name."""

    changed = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self._look: LookFile | None = None
        self.name, self.small_print = LineEdit(), LineEdit()
        self.name.setMaxLength(60)
        self.small_print.setMaxLength(90)
        self.colors = [ColorRows(keys) for keys in (PAPER, TIRE, REST, VERDICTS)]
        self.contrasts, self.distances = _Readouts(), _Readouts()
        self.letters, self.logo = Letters(), LogoForm()
        self.corners = QSlider(Qt.Orientation.Horizontal)
        self.corners.setRange(0, 100)
        self.captions = Check("Keep the caption band &free, always")
        self.logo_zone = Check("Keep the logo's &corner free")
        self._lay_out()
        self._connect()

    def fields(self) -> dict[str, QLineEdit]:
        """The colours' fields by key."""
        return {key: field for rows in self.colors for key, field in rows.fields.items()}

    def show_look(self, look: LookFile) -> None:
        """Show this look's values."""
        self._look = look
        for field, text in ((self.name, look.name), (self.small_print, look.small_print)):
            if field.text() != text:
                field.setText(text)
        for rows in self.colors:
            rows.show_look(look)
        self.letters.show_look(look)
        self.logo.show_look(look)
        self.corners.blockSignals(True)
        self.corners.setValue(round(look.corners * 100))
        self.corners.blockSignals(False)
        self.corners.setAccessibleDescription(f"{look.corners:.0%} round")
        self.captions.setChecked(look.zones.captions)
        self.logo_zone.setChecked(look.zones.logo)
        self._show_readouts(look)

    def _show_readouts(self, look: LookFile) -> None:
        found = pairs(look)
        for readout, pair in zip(self.contrasts.rows(len(found)), found, strict=True):
            readout.show_pair(pair, look)
        apart = verdicts(look)
        for readout, verdict in zip(self.distances.rows(len(apart)), apart, strict=True):
            readout.show_verdicts(verdict, look, _SHORT_SEEN[verdict.deficiency])

    def _color(self, key: str, color: str) -> None:
        if self._look is None:
            return
        if key in VERDICTS:
            self.changed.emit({"verdicts": replace(self._look.verdicts, **{key: color})})
        else:
            self.changed.emit({key: color or None})

    def _named(self, text: str) -> None:
        self.changed.emit({"name": text})

    def _printed(self, text: str) -> None:
        self.changed.emit({"small_print": text})

    def _rounded(self, value: int) -> None:
        self.changed.emit({"corners": value / 100})

    def _zoned(self) -> None:
        if self._look is not None:
            zones = replace(self._look.zones, captions=self.captions.isChecked(), logo=self.logo_zone.isChecked())
            self.changed.emit({"zones": zones})

    def _lettered(self, fonts: Fonts) -> None:
        self.changed.emit({"fonts": fonts})

    def _marked(self, logo: Logo) -> None:
        self.changed.emit({"logo": logo})

    def _connect(self) -> None:
        for rows in self.colors:
            rows.taken.connect(self._color)
        self.name.textEdited.connect(self._named)
        self.small_print.textEdited.connect(self._printed)
        self.corners.valueChanged.connect(self._rounded)
        self.captions.clicked.connect(self._zoned)
        self.logo_zone.clicked.connect(self._zoned)
        self.letters.taken.connect(self._lettered)
        self.logo.taken.connect(self._marked)

    def _lay_out(self) -> None:
        paper, tire, rest, fills = self.colors
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(GRID)
        quiet = plain_label("It stands under caution and source and never takes their place.", "quiet", wrap=True)
        for widget in (
            FieldBox("Name of the look", self.name, wide=True),
            section("Paper and ink", paper, self.contrasts),
            section("Verdicts", fills, self.distances),
            section("Tire", tire), section("Wheel, water, car", rest),
            section("Letters", self.letters),
            section("Corners", FieldBox("From square to round", self.corners, wide=True)),
            section("Logo", self.logo),
            section("Small print", FieldBox("The channel's own line", self.small_print, wide=True), quiet),
            section("Zones", self.captions, self.logo_zone,
                    plain_label("For a logo that the edit adds, where the look has none.", "quiet", wrap=True)),
        ):  # fmt: skip
            column.addWidget(widget)
        column.addStretch(1)


class _Readouts(QWidget):
    """As many readouts as there are pairs; they are made once and reused."""

    def __init__(self) -> None:
        super().__init__()
        self._rows: list[Readout] = []
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(GRID // 2)

    def rows(self, count: int) -> list[Readout]:
        """The first ``count`` readouts."""
        while len(self._rows) < count:
            self._rows.append(Readout())
            self._column.addWidget(self._rows[-1])
        for order, row in enumerate(self._rows):
            row.setVisible(order < count)
        return self._rows[:count]
