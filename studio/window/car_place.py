"""The place Car and tires: the car from above on the left, the sheet of the chosen tire or the car's form beside it."""

from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar, get_args

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QKeyEvent, QKeySequence, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from studio.model.places import Place as Spot
from studio.model.places import place_words
from studio.window.car_finding import matches
from studio.window.car_start import StartPanel
from studio.window.car_walk import Walk
from studio.window.elided import ElidedLine
from studio.window.focus_target import focus_path
from studio.window.labels import push_button
from studio.window.move_menu import MoveMenu
from studio.window.place import Place, Workshop
from studio.window.plan_sizes import least_width
from studio.window.session import measured_on, walking_order
from studio.window.side_by_side import SideBySide
from studio.window.specimens import free_place, moved, with_new_tire, without_tire
from studio.window.subject import edit_checked

if TYPE_CHECKING:
    from studio.window.car_form import CarForm
    from studio.window.car_plan import PlanView
    from studio.window.specimen_sheet import SpecimenSheet

_EVERYWHERE = ("Ctrl+M", "Ctrl+B")
SHEET_WIDTH, MOST_SHEET_WIDTH, _SHEET_SHARE = 540, 640, 0.36  # of the sheet, at 100 %; its share of a wide window


class CarPlace(Place):
    """Car and tires: everything that is read off placard, sidewall and gauge."""

    key: ClassVar[str] = "car"
    title: ClassVar[str] = "Car and tires"
    menu_title: ClassVar[str] = "&Tires"

    def __init__(self, workshop: Workshop, parent: QWidget | None = None) -> None:
        super().__init__(workshop, parent)
        self.moves, self.walk = MoveMenu(self), Walk(self)
        self._found: tuple[str, int] = ("", -1)
        self._lay_out()
        self._make_actions()
        self._connect()
        self._refresh()
        self._show_first()

    # building: the pages at the right are made when they are first needed, which keeps the start short

    @cached_property
    def plan(self) -> "PlanView":
        """The car from above."""
        from studio.window.car_plan import PlanView

        plan = PlanView(self.document, self.appearance)
        plan.tire_reached.connect(self._reach_tire)
        plan.tire_clicked.connect(self.show_tire)
        plan.tire_entered.connect(self._enter_tire)
        plan.tire_removed.connect(self._remove_reached)
        plan.place_reached.connect(self._reach_place)
        plan.place_clicked.connect(self._show_free_place)
        plan.place_entered.connect(self.add_tire_at)
        plan.car_reached.connect(self.show_car)
        self._plan_area.setWidget(plan)
        return plan

    def draw_plan(self) -> None:
        """Draw the car from above now, if it is not there yet: with no tires it may follow the first paint."""
        self.plan.show()

    @cached_property
    def sheet(self) -> "SpecimenSheet":
        """The sheet of the chosen tire."""
        from studio.window.specimen_sheet import SpecimenSheet

        sheet = SpecimenSheet(self.workshop, self.moves)
        sheet.finding_wanted.connect(self._show_finding)
        sheet.reading.grid.finished.connect(self.walk.go_on)
        return sheet

    @cached_property
    def form(self) -> "CarForm":
        """The car's form."""
        from studio.window.car_form import CarForm

        return CarForm(self.workshop)

    @cached_property
    def start(self) -> StartPanel:
        """What is said where nothing is entered."""
        start = StartPanel(self.document)
        start.car_wanted.connect(self.show_car)
        start.tire_wanted.connect(self.add_tire_at)
        start.demo_wanted.connect(self._want_demo)
        return start

    def _lay_out(self) -> None:
        self._name = ElidedLine("heading")
        self._car_button = push_button("The c&ar", self.show_car)
        self._measure_button = push_button("&Measure", self.walk.measure, primary=True)
        self._plan_area = QScrollArea()
        self._plan_area.setWidgetResizable(True)
        self._plan_area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        left = QWidget()
        column = QVBoxLayout(left)
        column.setContentsMargins(16, 8, 8, 8)
        head = QHBoxLayout()
        column.addLayout(head)
        head.addWidget(self._name, 1)
        head.addWidget(self._car_button)
        head.addWidget(self._measure_button)
        column.addWidget(self._plan_area, 1)
        self._sides = SideBySide(left, "&Back to the car from above")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self._sides)

    def _make_actions(self) -> None:
        self._action("&Measure all tires", self.walk.measure, "Ctrl+M")
        self._action("&New reading of this tire", self.walk.read_again, "Ctrl+R")
        self._action("Ne&xt tire", self.walk.to_next, "Ctrl+Down")
        self._action("&Previous tire", self.walk.to_previous, "Ctrl+Up")
        self._action("&Add a tire", self.add_tire, QKeySequence(QKeySequence.StandardKey.AddTab))
        self._remove_action = self._action("&Remove this tire", self.remove_tire, "Ctrl+Shift+Delete")
        self.addAction(self.moves.menuAction())
        self._action("The &car and its placard", self.show_car, "Ctrl+B")
        for text in ("What tires c&ost here", "&Weather, road and driving", "Other &sizes wished for"):
            self._action(text, self._show_around, "").setData(text.replace("&", ""))
        self._action("&Back to the car from above", self.show_plan, "Ctrl+E")

    def _action(self, text: str, on_trigger: object, key: str | QKeySequence) -> QAction:
        """A command of this place; its key holds here, that for measuring everywhere."""
        action = QAction(text, self)
        action.triggered.connect(on_trigger)
        action.setShortcut(QKeySequence(key))
        if key not in _EVERYWHERE:
            action.setShortcutContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        self.addAction(action)
        return action

    def _connect(self) -> None:
        self._sides.back.clicked.connect(self.show_plan)
        self.moves.wanted.connect(self.move_tire)
        self.document.changed.connect(self._refresh)
        self.document.started.connect(self._start_over)
        self.appearance.changed.connect(self._fit)

    # what every place has

    def state_line(self) -> str:
        """How many tires are entered, and how many were measured on the episode's day."""
        episode = self.document.episode
        done, every = measured_on(episode, episode.on)
        if not every:
            return "no tires yet"
        tires = f"{every} tire{'' if every == 1 else 's'}"
        return f"{tires}, {done} measured" if done else tires

    def show_target(self, target: str) -> None:
        """Open what a path such as ``specimens[2].readings[0].depths[1][3]`` leads to, and focus its field."""
        if target.startswith("specimens["):
            self._show_specimen_path(target)
        elif target:
            self._show(self.form)
            self.form.show_path(target)

    def find_text(self, text: str) -> bool:
        """Bring the next field that holds ``text`` into view."""
        paths = matches(self.document.episode, text)
        if not paths:
            return False
        last = self._found[1] if self._found[0] == text else -1
        self._found = (text, (last + 1) % len(paths))
        self.show_target(paths[self._found[1]])
        return True

    def take_focus(self) -> None:
        """Focus the tag of the tire that is shown, or the first one; where nothing is entered, the next step."""
        if not self.document.episode.specimens and self._sides.page is self.start and not self.start.spot:
            self.start.step.setFocus(Qt.FocusReason.OtherFocusReason)
            return
        chosen = self.plan.tag_of(self.sheet.index) if self.shows_sheet else None
        tag = chosen or self.plan.tags[0]
        tag.setFocus(Qt.FocusReason.ShortcutFocusReason)

    # showing

    def show_tire(self, index: int) -> None:
        """Open the sheet of a tire."""
        self._load_tire(index)
        self._sides.show_right()

    def _reach_tire(self, index: int) -> None:
        """The focus came to a tire by key: its sheet opens beside it, if there is room for both."""
        self._load_tire(index)

    def _load_tire(self, index: int) -> None:
        if not self.shows_sheet or self.sheet.index != index:
            self.sheet.show_specimen(index)
        self._sides.turn_to(self.sheet)
        self._select(index)
        self._name_moves()

    def show_car(self) -> None:
        """Open the car's form."""
        self._show(self.form)
        self._select(-1)
        self.form.take_focus()

    def _show_around(self) -> None:
        """Open the part of the car's form that the menu entry names."""
        action = self.sender()
        self._show(self.form)
        self._select(-1)
        self.form.show_fold(action.data() if isinstance(action, QAction) else "")

    def _select(self, index: int) -> None:
        if self.document.episode.specimens or "plan" in self.__dict__:
            self.plan.select(index)

    def show_plan(self) -> None:
        """Go back to the car from above."""
        self._sides.show_left()
        self.take_focus()

    def _show(self, widget: QWidget) -> None:
        self._sides.turn_to(widget)
        self._sides.show_right()

    def _show_first(self) -> None:
        order = walking_order(self.document.episode)
        if order:
            self._sides.turn_to(self.sheet)
            self.sheet.show_specimen(order[0])
            self._load_tire(order[0])
        else:
            self._sides.turn_to(self.start)

    def _start_over(self) -> None:
        """Another episode is open: nothing that was chosen or typed in the one before holds."""
        self._found = ("", -1)
        if "form" in self.__dict__:
            self.form.reset()
        if "start" in self.__dict__:
            self.start.show_place("")
        self._show_first()

    def _reach_place(self, spot: str) -> None:
        self.start.show_place(spot)
        self._sides.turn_to(self.start)
        self._select(-1)

    def _show_free_place(self, spot: str) -> None:
        self._reach_place(spot)
        self._sides.show_right()

    def _show_specimen_path(self, target: str) -> None:
        index = int(target.removeprefix("specimens[").partition("]")[0])
        if index >= len(self.document.episode.specimens):
            return
        self.show_tire(index)
        reading = target.partition(".readings[")[2].partition("]")[0]
        if reading and int(reading) < len(self.document.episode.specimens[index].readings):
            self.sheet.show_reading(int(reading))
        focus_path(self.sheet, target)

    def _show_finding(self, finding: str) -> None:
        self.go.emit("findings", finding)

    def take_photos(self, photos: tuple[Path, ...]) -> None:
        """Photos that were dropped: they are listed with the tire that is shown."""
        if self.shows_sheet:
            self.sheet.photos.take(photos)

    def _want_demo(self) -> None:
        self.command.emit("open_demo")

    def _refresh(self) -> None:
        episode = self.document.episode
        self._name.show_text(episode.car.name or "Your car")
        self._measure_button.setEnabled(bool(episode.specimens))
        if self.shows_sheet and self.sheet.index >= len(episode.specimens):
            self._show_first()
        if self.shows_sheet:
            self._select(self.sheet.index)
        self._name_moves()
        self.state_changed.emit()

    @property
    def shows_sheet(self) -> bool:
        """Whether the page at the right is a tire's sheet."""
        return "sheet" in self.__dict__ and self._sides.page is self.sheet

    def _name_moves(self) -> None:
        """Say in the menu what each move does."""
        shown = self.sheet.index if self.shows_sheet else None
        self.moves.name_entries(self.document.episode, shown)
        self._remove_action.setEnabled(shown is not None)

    # editing

    def add_tire(self) -> None:
        """Add a tire at the first free place."""
        self.add_tire_at(free_place(self.document.episode))

    def add_tire_at(self, spot: str) -> None:
        """Add a tire at a place, as one step, and begin with its marking."""
        place = next(each for each in get_args(Spot) if each == spot)
        try:
            after = with_new_tire(self.document.episode, place)
        except ValueError as error:
            self.workshop.dialogs.tell("Tires", str(error))
            return
        edit_checked(self.document, f"Add tire at {place_words(place)}", after)
        self.show_tire(len(after.specimens) - 1)
        self.sheet.sidewall.marking.setFocus(Qt.FocusReason.TabFocusReason)

    def remove_tire(self) -> None:
        """Remove the tire that is shown, as one step."""
        if self.shows_sheet:
            words = self.sheet.words
            self.document.edit(f"Remove {words}", without_tire(self.document.episode, self.sheet.index))
            self._show_first()
            self.take_focus()

    def _remove_reached(self, index: int) -> None:
        self._load_tire(index)
        self.remove_tire()

    def move_tire(self, place: str) -> None:
        """Move the tire that is shown; the one that stands there takes its place."""
        spot = next(each for each in get_args(Spot) if each == place)
        episode, index = self.document.episode, self.sheet.index
        words, holder = self.sheet.words, episode.standing_at(spot) if spot != "bench" else None
        text = f"Swap {words} and {place_words(spot)}" if holder else f"Move {words} to {place_words(spot)}"
        edit_checked(self.document, text, moved(episode, index, spot))
        self.show_tire(index)

    def _enter_tire(self, index: int) -> None:
        self.show_tire(index)
        self.sheet.sidewall.marking.setFocus(Qt.FocusReason.TabFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc goes from the sheet back to the tire on the plan."""
        if event.key() == Qt.Key.Key_Escape:
            self.show_plan()
        else:
            super().keyPressEvent(event)

    # narrow windows

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fit plan and sheet side by side, or show one at a time."""
        super().resizeEvent(event)
        self._fit()

    @property
    def is_narrow(self) -> bool:
        """Whether there is room for only one of plan and sheet."""
        wanted = least_width(self.appearance.percent) + 24 + self.appearance.px(SHEET_WIDTH)
        return self.width() < wanted

    def _fit(self) -> None:
        least, most = self.appearance.px(SHEET_WIDTH), self.appearance.px(MOST_SHEET_WIDTH)
        self._sides.fit(self.is_narrow, max(least, min(most, round(_SHEET_SHARE * self.width()))))
