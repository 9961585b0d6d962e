"""The windows' one style sheet, made from a look: what a palette cannot say."""

from studio.graphics.look import Look


def style_sheet(look: Look, percent: int) -> str:
    """The style sheet for ``look`` with text at ``percent`` of its usual size."""

    def px(length: float) -> str:
        return f"{round(length * percent / 100)}px"

    accent_text = look.plate if look.id == "chalk" else look.ground
    edge = look.steel
    return f"""
    * {{ font-family: "Inter", "DejaVu Sans"; }}
    QLabel[role="quiet"] {{ color: {look.quiet}; }}
    QLabel[role="number"] {{ font-size: {px(15)}; }}
    QLabel[role="strong"] {{ font-weight: 600; }}
    QLabel[role="heading"] {{ font-size: {px(20)}; font-weight: 600; }}
    QLabel[role="deciding"] {{ font-size: {px(28)}; font-weight: 600; }}
    QLabel[role="problem"] {{ color: {look.ink}; }}
    QLineEdit, QPlainTextEdit, QSpinBox {{
        background: {look.plate}; color: {look.ink}; border: 1px solid {edge}; border-radius: 3px; padding: 3px 6px;
        selection-background-color: {look.measure}; selection-color: {accent_text};
    }}
    QLineEdit:focus, QPlainTextEdit:focus, QSpinBox:focus {{
        border: 2px solid {look.measure}; padding: 2px 5px;
    }}
    QLineEdit[problem="true"] {{ border: 2px solid {look.verdicts.replace}; padding: 2px 5px; }}
    QPushButton {{
        background: {look.plate}; color: {look.ink}; border: 1px solid {edge}; border-radius: 3px; padding: 5px 12px;
    }}
    QPushButton:hover {{ border-color: {look.measure}; }}
    QPushButton:focus {{ border: 2px solid {look.measure}; padding: 4px 11px; }}
    QPushButton:disabled {{ color: {look.quiet}; background: {look.ground}; }}
    QPushButton[primary="true"] {{ background: {look.measure}; color: {accent_text}; border-color: {look.measure}; }}
    QPushButton[primary="true"]:disabled {{
        background: {look.ground}; color: {look.quiet}; border-color: {edge};
    }}
    QPushButton[primary="true"]:focus {{ border: 2px solid {look.ink}; }}
    QPushButton[fold="true"] {{
        background: transparent; border: 2px solid transparent; padding: 2px 4px; font-weight: 600; text-align: left;
    }}
    QPushButton[fold="true"]:hover {{ color: {look.measure}; }}
    QPushButton[fold="true"]:focus {{ border-color: {look.measure}; }}
    QScrollBar:vertical {{ background: transparent; width: 10px; margin: 0; }}
    QScrollBar:horizontal {{ background: transparent; height: 10px; margin: 0; }}
    QScrollBar::handle {{ background: {look.steel}; border-radius: 4px; margin: 1px; }}
    QScrollBar::handle:vertical {{ min-height: 24px; }}
    QScrollBar::handle:horizontal {{ min-width: 24px; }}
    QScrollBar::add-line, QScrollBar::sub-line {{ width: 0; height: 0; }}
    QScrollBar::add-page, QScrollBar::sub-page {{ background: transparent; }}
    QScrollArea {{ border: none; background: transparent; }}
    """
