"""The list of keys, made from the menus themselves."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QGridLayout, QScrollArea, QVBoxLayout, QWidget

from studio.window.labels import plain_label, push_button


class KeysList(QDialog):
    """A window beside the main one, which can stay open while one works."""

    def __init__(self, rows: tuple[tuple[str, str, str], ...], parent: QWidget) -> None:
        super().__init__(parent)
        self.setWindowTitle("Keys")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        inside = QWidget()
        grid = QGridLayout(inside)
        grid.setHorizontalSpacing(24)
        grid.setVerticalSpacing(4)
        before = ""
        for row, (menu, text, key) in enumerate(rows):
            grid.addWidget(plain_label(menu if menu != before else "", "quiet"), row, 0)
            grid.addWidget(plain_label(text), row, 1)
            grid.addWidget(plain_label(key, "strong"), row, 2)
            before = menu
        area = QScrollArea()
        area.setWidget(inside)
        area.setWidgetResizable(True)
        area.setMinimumWidth(inside.sizeHint().width() + 32)
        layout = QVBoxLayout(self)
        layout.addWidget(area)
        layout.addWidget(push_button("&Close", self.close))
        self.resize(self.sizeHint().width(), 560)
