"""What an empty place says: what goes here, and the one next step."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from studio.model.places import place_words
from studio.window.document import Document
from studio.window.flow import flow
from studio.window.labels import plain_label, push_button


class StartPanel(QWidget):
    """Teaches where nothing is entered: the car first, then a tire; the demo is one click away."""

    car_wanted = Signal()
    tire_wanted = Signal(str)
    demo_wanted = Signal()

    def __init__(self, document: Document) -> None:
        super().__init__()
        self._document = document
        self._spot = ""
        self.title = plain_label("", "heading")
        self.sentence = plain_label("", wrap=True)
        self.sentence.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.step = push_button("", self._take_step, primary=True)
        self.demo = push_button("Open a &demo episode", self._want_demo)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(16, 8, 16, 16)
        layout.setSpacing(16)
        parts: tuple[QLabel | QWidget, ...] = (self.title, self.sentence, flow(self.step, self.demo))
        for part in parts:
            layout.addWidget(part)
        layout.addStretch(1)
        document.changed.connect(self.refresh)
        self.refresh()

    @property
    def spot(self) -> str:
        """The place without a tire that is spoken of; empty where it is the whole episode."""
        return self._spot

    def show_place(self, spot: str) -> None:
        """Speak of a place where no tire stands."""
        self._spot = spot
        self.refresh()

    def refresh(self) -> None:
        """Say what comes next."""
        episode = self._document.episode
        known = bool(episode.car.placard.front.marking or episode.car.name)
        if self._spot:
            words = place_words(self._spot)
            self._say("No tire here yet", f"What stands {'as' if self._spot == 'spare' else 'at'} the {words}? Enter "
                      "what its sidewall says, then go round it with the gauge.", f"&Add the {words} tire")  # fmt: skip
        elif not known:
            self._say("Begin with the car", "Here stand the car and its tires: what the placard in the door says, what "
                      "each sidewall says, and what the gauge reads. Everything else follows from that.",
                      "&Enter the car and its placard")  # fmt: skip
        else:
            self._say("Now the tires", "Choose a wheel of the car, or add the first tire: its marking, its date code, "
                      "and its depths.", "&Add the front left tire")  # fmt: skip
        self.demo.setVisible(not episode.specimens)

    def _say(self, title: str, sentence: str, step: str) -> None:
        self.title.setText(title)
        self.sentence.setText(sentence)
        self.step.setText(step)

    def _take_step(self) -> None:
        episode = self._document.episode
        known = bool(episode.car.placard.front.marking or episode.car.name)
        if self._spot or known:
            self.tire_wanted.emit(self._spot or "front_left")
        else:
            self.car_wanted.emit()

    def _want_demo(self) -> None:
        self.demo_wanted.emit()
