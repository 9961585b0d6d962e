"""The car's form: what placard, manual and type plate say, and which rotations were done."""

from typing import Any

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QGridLayout, QScrollArea, QVBoxLayout, QWidget

from studio.model.car import RotationDone
from studio.model.quantity import Kind
from studio.window.around_form import costs_fold, driving_fold, sizes_fold
from studio.window.fields import Field, TextField
from studio.window.flow import flow, low
from studio.window.focus_target import focus_path
from studio.window.fold import Fold
from studio.window.form_parts import FieldBox, ProblemLine, caution_note, section
from studio.window.labels import name_field, plain_label
from studio.window.number_fields import BoundedField, RatioField
from studio.window.place import Workshop
from studio.window.reading_order import order_tabs
from studio.window.rows import RowsForm, RowSubject
from studio.window.sidewall_form import WrittenField
from studio.window.subject import PathSubject
from studio.window.tolerance_fields import ToleranceFields
from studio.window.value_fields import CheckField, ChoiceField, DateField, NoteField, QuantityField
from studio.window.words import CERTIFIED, DRIVETRAINS, PATTERNS


class CarForm(QScrollArea):
    """The form of the episode's car, and of the episode's own title and day."""

    def __init__(self, workshop: Workshop) -> None:
        super().__init__()
        self._document = document = workshop.document
        self.car = PathSubject(document, "car", "car's")
        self.episode = PathSubject(document, "", "episode's")
        inside = QWidget()
        self._layout = QVBoxLayout(inside)
        self._layout.setContentsMargins(16, 8, 16, 16)
        self._layout.setSpacing(8)
        self._layout.addWidget(plain_label("The car", "heading"))
        self.folds: tuple[Fold, ...] = (costs_fold(document), driving_fold(document), sizes_fold(document))
        for part in (self._about(), self._placard(), self._plate(), self._measures(), self._gearing(), self._wheels(),
                     self._manual(), self._rotations(), section("Around the car", *self.folds),
                     self._about_episode()):  # fmt: skip
            self._layout.addWidget(part)
        self._layout.addStretch(1)
        self.setWidget(inside)
        self.setWidgetResizable(True)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._order_tabs()

    def _order_tabs(self) -> None:
        order_tabs(self.widget())

    def take_focus(self) -> None:
        """Focus the first field."""
        self.name.setFocus(Qt.FocusReason.TabFocusReason)

    def show_path(self, path: str) -> None:
        """Unfold and focus the field of a path such as ``circumstances.sizes_wished[0]``."""
        for fold in self.folds:
            if fold.holds(path):
                fold.unfold()
        focus_path(self, path)
        QTimer.singleShot(0, self._see_focused)  # what was unfolded has its place only after this

    def show_fold(self, title: str) -> None:
        """Unfold a part and begin with its first field."""
        next(fold for fold in self.folds if fold.title == title).take_focus()
        QTimer.singleShot(0, self._see_focused)

    def _see_focused(self) -> None:
        focused = self.focusWidget()
        if focused is not None and self.isAncestorOf(focused):
            self.ensureWidgetVisible(focused)

    def reset(self) -> None:
        """Another episode is open: give up what is typed."""
        for field in self.findChildren(Field):
            field.reset()

    def _quantity(self, part: str, what: str, kind: Kind, chars: int = 16) -> QuantityField:
        return QuantityField(self.car, part, what, kind, chars=chars)

    def _about(self) -> QWidget:
        self.name = TextField(self.car, "name", "name", chars=30, most=200)
        return section(
            "",
            flow(
                FieldBox("&Name of the car", self.name, wide=True),
                FieldBox("&Drive", ChoiceField(self.car, "drivetrain", "drive", DRIVETRAINS, chars=20)),
                FieldBox("&Certified as", ChoiceField(self.car, "certified_as", "kind", CERTIFIED, chars=18)),
            ),
        )

    def _placard(self) -> QWidget:
        grid_holder = QWidget()
        grid = QGridLayout(grid_holder)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(16)
        grid.setVerticalSpacing(4)
        grid.addWidget(plain_label("size and service", "quiet"), 0, 1)
        grid.addWidget(plain_label("cold pressure", "quiet"), 0, 2)
        grid.setColumnStretch(3, 1)
        fields: list[Any] = []
        for row, line in enumerate(("front", "rear", "spare"), start=1):
            size = WrittenField(self.car, f"placard.{line}.marking", f"{line} placard size", chars=24)
            pressure = self._quantity(f"placard.{line}.pressure", f"{line} placard pressure", "pressure")
            name_field(size, f"Placard size, {line}")
            name_field(pressure, f"Placard cold pressure, {line}")
            label = plain_label(line, "quiet")
            label.setBuddy(size)
            grid.addWidget(label, row, 0)
            grid.addWidget(size, row, 1)
            grid.addWidget(pressure, row, 2)
            fields += [size, pressure]
        return section("On the placard", grid_holder, ProblemLine(*fields))

    def _plate(self) -> QWidget:
        front = self._quantity("front_axle_rating", "front axle rating", "load")
        rear = self._quantity("rear_axle_rating", "rear axle rating", "load")
        boxes = flow(FieldBox("&Front axle rating", front), FieldBox("&Rear axle rating", rear))
        return section("On the certification label", boxes, ProblemLine(front, rear))

    def _measures(self) -> QWidget:
        fields = [
            self._quantity("wheelbase", "wheelbase", "length"),
            self._quantity("front_track", "front track", "length"),
            self._quantity("rear_track", "rear track", "length"),
            BoundedField(self.car, "ground_clearance", "ground clearance", "ground_clearance"),
        ]
        names = ("&Wheelbase", "Front &track", "Rear trac&k", "&Ground clearance")
        boxes = flow(*(FieldBox(name, field) for name, field in zip(names, fields, strict=True)))
        return section("The car's measures", boxes, ProblemLine(*fields))

    def _gearing(self) -> QWidget:
        front = BoundedField(self.car, "front_rim_width", "front rim width", "rim_width")
        rear = BoundedField(self.car, "rear_rim_width", "rear rim width", "rim_width")
        drive = RatioField(self.car, "final_drive", "final drive ratio")
        names = ("Front rim width", "Rear rim width", "Final drive ratio")
        dual = CheckField(self.car, "dual_rear_wheels", "dual rear wheels", "Dual rear wheels")
        boxes = (FieldBox(name, field) for name, field in zip(names, (front, rear, drive), strict=True))
        return section("Rims and final drive", flow(*boxes, low(dual)), ProblemLine(front, rear, drive))

    def _wheels(self) -> QWidget:
        torque = self._quantity("wheel_nut_torque", "wheel-nut torque", "torque", chars=18)
        caution = caution_note(self._document.tables, "wheel_nuts")
        box = flow(FieldBox("Wheel-n&ut torque, from the manual", torque))
        return section("Wheel nuts", box, ProblemLine(torque), caution)

    def _manual(self) -> QWidget:
        tolerance = ToleranceFields(self.car)
        interval = self._quantity("rotation_interval", "rotation interval", "distance", chars=18)
        boxes = flow(
            FieldBox("How unequal tires may be, as the &manual gives it", tolerance.form),
            FieldBox("At most", tolerance.limit),
            FieldBox("Rotation &interval", interval),
        )
        return section("In the manual", boxes, ProblemLine(tolerance.limit, interval))

    def _rotations(self) -> QWidget:
        rows = RowsForm(self.car, "rotations", "rotation", rotation_fields, self._new_rotation)
        rows.rebuilt.connect(self._order_tabs)
        return section("Rotations done", caution_note(self._document.tables, "rotation"), rows)

    def _new_rotation(self) -> RotationDone:
        return RotationDone(on=self._document.episode.on)

    def _about_episode(self) -> QWidget:
        title = TextField(self.episode, "title", "title", chars=30, most=200)
        channel = TextField(self.episode, "channel", "channel", chars=24, most=200)
        on = DateField(self.episode, "on", "day")
        regions = tuple((row.id, row.name) for row in self._document.tables.regions.values())
        region = FieldBox("Limits of", ChoiceField(self.episode, "region", "region", regions, chars=22))
        story = NoteField(self.episode, "story", "story", lines=4)
        day = FieldBox("S&peaks for the day", on)
        boxes = flow(FieldBox("Tit&le", title, wide=True), FieldBox("C&hannel", channel), day, region)
        return section("The episode", boxes, ProblemLine(on), FieldBox("St&ory", story, wide=True))


def rotation_fields(subject: RowSubject) -> list[QWidget]:
    """The fields of one rotation."""
    on = DateField(subject, "on", "day")
    odometer = QuantityField(subject, "odometer", "odometer", "distance", chars=18)
    pattern = ChoiceField(subject, "pattern", "pattern", PATTERNS, chars=16)
    boxes = [FieldBox("Day", on), FieldBox("Odometer", odometer), FieldBox("Pattern", pattern)]
    return [*boxes, ProblemLine(on, odometer)]
