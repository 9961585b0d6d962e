"""The place Car and tires: the car from above on the left, the sheet of the chosen tire or the car's form beside it."""

from pathlib import Path
from typing import ClassVar, get_args

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QAction, QKeyEvent, QKeySequence, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QScrollArea, QSplitter, QStackedWidget, QVBoxLayout, QWidget

from studio.model.places import Place as Spot
from studio.model.places import place_words
from studio.window.car_finding import matches
from studio.window.car_form import CarForm
from studio.window.car_plan import PlanView
from studio.window.car_start import StartPanel
from studio.window.elided import ElidedLine
from studio.window.focus_target import focus_path
from studio.window.labels import button_text, push_button
from studio.window.place import Place, Workshop
from studio.window.plan_layout import least_width
from studio.window.session import measured_on, neighbour, reading_of_day, walking_order
from studio.window.specimen_sheet import SpecimenSheet
from studio.window.specimens import free_place, moved, with_new_tire, without_tire
from studio.window.subject import edit_checked
from studio.window.words import PLACES

SHEET_WIDTH = 540  # what the sheet wants at 100 %


class CarPlace(Place):
    """Car and tires: everything that is read off placard, sidewall and gauge."""

    key: ClassVar[str] = "car"
    title: ClassVar[str] = "Car and tires"
    menu_title: ClassVar[str] = "&Tires"

    def __init__(self, workshop: Workshop, parent: QWidget | None = None) -> None:
        super().__init__(workshop, parent)
        self.plan = PlanView(self.document, self.appearance)
        self.sheet = SpecimenSheet(workshop)
        self.form = CarForm(workshop)
        self.start = StartPanel(self.document)
        self._found: tuple[str, int] = ("", -1)
        self._lay_out()
        self._make_actions()
        self._connect()
        self._refresh()
        self._show_first()

    # building

    def _lay_out(self) -> None:
        self._name = ElidedLine("heading")
        self._car_button = push_button("The c&ar", self.show_car)
        self._measure_button = push_button("&Measure", self.measure, primary=True)
        head = QHBoxLayout()
        head.addWidget(self._name, 1)
        head.addWidget(self._car_button)
        head.addWidget(self._measure_button)
        self._plan_area = QScrollArea()
        self._plan_area.setWidget(self.plan)
        self._plan_area.setWidgetResizable(True)
        self._plan_area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        left = QWidget()
        column = QVBoxLayout(left)
        column.setContentsMargins(16, 8, 8, 8)
        column.addLayout(head)
        column.addWidget(self._plan_area, 1)
        self._left = left
        self._right, self._stack = QWidget(), QStackedWidget()
        for widget in (self.start, self.form, self.sheet):
            self._stack.addWidget(widget)
        self.splitter = QSplitter(Qt.Orientation.Horizontal)
        self.splitter.addWidget(left)
        self._back = push_button("&Back to the car from above", self.show_plan)
        right = QVBoxLayout(self._right)
        right.setContentsMargins(0, 0, 0, 0)
        back = QHBoxLayout()
        back.setContentsMargins(16, 8, 16, 0)
        back.addWidget(self._back, 0, Qt.AlignmentFlag.AlignLeft)
        right.addLayout(back)
        right.addWidget(self._stack, 1)
        self.splitter.addWidget(self._right)
        self.splitter.setChildrenCollapsible(False)
        self.splitter.setStretchFactor(0, 1)
        self.splitter.setStretchFactor(1, 0)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.splitter)

    def _make_actions(self) -> None:
        self._action("&Measure all tires", self.measure, "Ctrl+M")
        self._action("&New reading of this tire", self._new_reading, "Ctrl+R")
        self._action("Ne&xt tire", self._next_tire, "Ctrl+Down")
        self._action("&Previous tire", self._previous_tire, "Ctrl+Up")
        self._action("&Add a tire", self.add_tire, QKeySequence(QKeySequence.StandardKey.AddTab))
        self._remove_action = self._action("&Remove this tire", self.remove_tire, "Ctrl+Shift+Delete")
        self._action("The &car and its placard", self.show_car, "Ctrl+B")
        self._action("&Back to the car from above", self.show_plan, "Ctrl+E")
        self._moves = {spot: self._action("", self._move_by_action, "") for spot in get_args(Spot)}
        menu = self.sheet.move_button.menu()
        for spot, action in self._moves.items():
            action.setData(spot)
            menu.addAction(action)

    def _action(self, text: str, on_trigger: object, key: str | QKeySequence) -> QAction:
        action = QAction(text, self)
        action.triggered.connect(on_trigger)
        action.setShortcut(QKeySequence(key))
        self.addAction(action)
        return action

    def _connect(self) -> None:
        self.plan.tire_reached.connect(self._reach_tire)
        self.plan.tire_clicked.connect(self.show_tire)
        self.plan.tire_entered.connect(self._enter_tire)
        self.plan.place_reached.connect(self._reach_place)
        self.plan.place_clicked.connect(self._show_free_place)
        self.plan.place_entered.connect(self.add_tire_at)
        self.plan.car_reached.connect(self.show_car)
        self.sheet.finding_wanted.connect(self._show_finding)
        self.sheet.reading.grid.finished.connect(self._go_on)
        self.start.car_wanted.connect(self.show_car)
        self.start.tire_wanted.connect(self.add_tire_at)
        self.start.demo_wanted.connect(self._want_demo)
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
        return f"{tires}, {done} measured that day" if done else tires

    def show_target(self, target: str) -> None:
        """Open what a path such as ``specimens[2].readings[0].depths[1][3]`` leads to, and focus its field."""
        if target.startswith("specimens["):
            self._show_specimen_path(target)
        elif target:
            self._show(self.form)
            focus_path(self.form, target)

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
        """Focus the tag of the tire that is shown, or the first one."""
        tag = self.plan.tag_of(self.sheet.index) or self.plan.tags[0]
        tag.setFocus(Qt.FocusReason.ShortcutFocusReason)

    # showing

    def show_tire(self, index: int) -> None:
        """Open the sheet of a tire."""
        self._load_tire(index)
        self._narrow_to(self._right)

    def _reach_tire(self, index: int) -> None:
        """The focus came to a tire by key: its sheet opens beside it, if there is room for both."""
        self._load_tire(index)

    def _load_tire(self, index: int) -> None:
        if self._stack.currentWidget() is not self.sheet or self.sheet.index != index:
            self.sheet.show_specimen(index)
        self._stack.setCurrentWidget(self.sheet)
        self.plan.select(index)
        self._name_moves()

    def show_car(self) -> None:
        """Open the car's form."""
        self._show(self.form)
        self.plan.select(-1)
        self.form.take_focus()

    def show_plan(self) -> None:
        """Go back to the car from above."""
        self._narrow_to(self._left)
        self.take_focus()

    def _show(self, widget: QWidget) -> None:
        self._stack.setCurrentWidget(widget)
        self._narrow_to(self._right)

    def _show_first(self) -> None:
        order = walking_order(self.document.episode)
        if order:
            self.sheet.show_specimen(order[0])
            self._stack.setCurrentWidget(self.sheet)
            self.plan.select(order[0])
            self._name_moves()
        else:
            self._stack.setCurrentWidget(self.start)

    def _start_over(self) -> None:
        """Another episode is open: nothing that was chosen or typed in the one before holds."""
        self._found = ("", -1)
        self.form.reset()
        self.start.show_place("")
        self._show_first()

    def _reach_place(self, spot: str) -> None:
        self.start.show_place(spot)
        self._stack.setCurrentWidget(self.start)
        self.plan.select(-1)

    def _show_free_place(self, spot: str) -> None:
        self._reach_place(spot)
        self._narrow_to(self._right)

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
        if self._stack.currentWidget() is self.sheet:
            self.sheet.photos.take(photos)

    def _want_demo(self) -> None:
        self.command.emit("open_demo")

    def _refresh(self) -> None:
        episode = self.document.episode
        self._name.show_text(episode.car.name or "Your car")
        self._measure_button.setEnabled(bool(episode.specimens))
        if self._stack.currentWidget() is self.sheet and self.sheet.index >= len(episode.specimens):
            self._show_first()
        if self._stack.currentWidget() is self.sheet:
            self.plan.select(self.sheet.index)
        self._name_moves()
        self.state_changed.emit()

    def _name_moves(self) -> None:
        """Say in the menu what each move does."""
        episode, index = self.document.episode, self.sheet.index
        there = index < len(episode.specimens) and self._stack.currentWidget() is self.sheet
        self._remove_action.setEnabled(there)
        for spot, words in PLACES:
            action = self._moves[spot]
            holder = episode.standing_at(spot) if spot != "bench" else None
            mine = there and episode.specimens[index].place == spot
            swap = holder is not None and not mine
            action.setText(f"{'Swap with' if swap else 'Move to the' if spot in ('bench', 'spare') else 'Move to'} "
                           f"{button_text(words)}")  # fmt: skip
            action.setEnabled(there and not mine)

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
        if self._stack.currentWidget() is self.sheet:
            words = self.sheet.words
            self.document.edit(f"Remove {words}", without_tire(self.document.episode, self.sheet.index))
            self._show_first()
            self.take_focus()

    def _move_by_action(self) -> None:
        action = self.sender()
        assert isinstance(action, QAction)
        self.move_tire(action.data())

    def move_tire(self, spot: Spot) -> None:
        """Move the tire that is shown; the one that stands there takes its place."""
        episode, index = self.document.episode, self.sheet.index
        words, holder = self.sheet.words, episode.standing_at(spot) if spot != "bench" else None
        text = f"Swap {words} and {place_words(spot)}" if holder else f"Move {words} to {place_words(spot)}"
        edit_checked(self.document, text, moved(episode, index, spot))
        self.show_tire(index)

    # measuring

    def measure(self) -> None:
        """Begin a session: the first tire that was not measured on the episode's day, its first empty cell."""
        episode = self.document.episode
        order = walking_order(episode)
        waiting = [n for n in order if reading_of_day(episode.specimens[n], episode.on) is None]
        if order:
            self._measure_tire((waiting or list(order))[0])

    def _measure_tire(self, index: int) -> None:
        episode = self.document.episode
        self.show_tire(index)
        number = reading_of_day(episode.specimens[index], episode.on)
        if number is None:
            self.sheet.new_reading()
        else:
            self.sheet.show_reading(number)
        self.sheet.reading.grid.focus_first_empty()
        QTimer.singleShot(0, self._bring_grid)

    def _bring_grid(self) -> None:
        self.sheet.ensureWidgetVisible(self.sheet.reading.grid, 0, 40)

    def _go_on(self, way: int) -> None:
        """Enter in the last cell: the next tire, its reading of the same day."""
        following = neighbour(self.document.episode, self.sheet.index, way)
        if following is not None:
            self._measure_tire(following)
        elif way > 0:
                self.take_focus()

    def _new_reading(self) -> None:
        if self._stack.currentWidget() is self.sheet:
            self.sheet.new_reading()
            self.sheet.reading.grid.focus_first_empty()

    def _enter_tire(self, index: int) -> None:
        self.show_tire(index)
        self.sheet.sidewall.marking.setFocus(Qt.FocusReason.TabFocusReason)

    def _next_tire(self) -> None:
        self._step(1)

    def _previous_tire(self) -> None:
        self._step(-1)

    def _step(self, way: int) -> None:
        following = neighbour(self.document.episode, self.sheet.index, way)
        if following is not None:
            self.show_tire(following)
            self.take_focus()

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
        narrow = self.is_narrow
        self._right.setMinimumWidth(0 if narrow else self.appearance.px(SHEET_WIDTH))
        self._back.setVisible(narrow)
        if not narrow:
            self._left.setVisible(True)
            self._right.setVisible(True)
        elif not self._left.isHidden() and not self._right.isHidden():
            self._right.setVisible(False)

    def _narrow_to(self, widget: QWidget) -> None:
        if self.is_narrow:
            self._left.setVisible(widget is self._left)
            self._right.setVisible(widget is self._right)


