"""Notes: what stands beside a drawing. A value, its unit, what it is; one of them may be the deciding number."""

import msgspec

from studio.graphics.draw import circle, polyline, rectangle
from studio.graphics.frame import Box, Frame
from studio.graphics.layout.text import font_size, width, wrap, wrap_even
from studio.graphics.look import Look
from studio.graphics.scene import Outline, Point, Role, Shape, Stroke, Text
from studio.model.quantity import Quantity, System

LINE_STEP = 1.2


class Note(msgspec.Struct, frozen=True, kw_only=True):
    """One callout: ``value`` large with ``unit`` at half its size if it decides, ``label`` small, ``other`` quiet.

    ``priority`` 0 is kept longest where a frame has room for few. ``brief`` says the label in one or two words: where
    room is scarce the label stands behind the value, or ``brief`` if it is too long for that, and ``other`` gives way.
    """

    name: str
    value: str
    label: str
    unit: str = ""
    other: str = ""
    step: int = 0
    priority: int = 1
    deciding: bool = False
    brief: str = ""
    on_one_line: bool = False

    def shortened(self) -> "Note":
        """The note on one line; itself where it decides or has no brief words."""
        return msgspec.structs.replace(self, on_one_line=True) if self.brief and not self.deciding else self


def note_of(name: str, quantity: Quantity, label: str, units: System, step: int = 0, *, priority: int = 1) -> Note:
    """A note whose value is a finding's quantity, in the audience's units with the other system after it."""
    mine = quantity.in_system(units)
    other = quantity.in_system("metric" if units == "us" else "us")
    shown = "" if other.unit == mine.unit else other.text()
    return Note(name=name, value=mine.text(), label=label, other=shown, step=step, priority=priority)


def deciding_note(name: str, quantity: Quantity, label: str, units: System, step: int = 0) -> Note:
    """The note that holds the deciding number, its unit apart so that it can be set at half its size."""
    plain = note_of(name, quantity, label, units, step)
    number, _, unit = plain.value.partition(" ")
    return msgspec.structs.replace(plain, value=number, unit=unit, deciding=True, priority=0)


class Row(msgspec.Struct, frozen=True, kw_only=True):
    """One line of a note as it will be set: its texts side by side, each with role, weight and colour name."""

    parts: tuple[tuple[str, float, str, str, Role], ...]  # (text, cap height, weight, colour field, role)
    height: float


def rows(note: Note, frame: Frame, widest: float) -> tuple[Row, ...]:
    """The lines of a note, wrapped to ``widest`` px."""
    if note.on_one_line and (line := _one_line(note, frame, widest)):
        return line
    return _deciding_rows(note, frame, widest) if note.deciding else _plain_rows(note, frame, widest)


def _one_line(note: Note, frame: Frame, widest: float) -> tuple[Row, ...]:
    """The value with the label behind it, with the brief words if the label is too long; nothing where neither fits."""
    cap, small = frame.cap_height("callout"), frame.cap_height("small")
    for words in (f"  {note.label}", f"  {note.brief}"):
        if width(note.value, cap, "semibold") + width(words, small) <= widest:
            value: tuple[str, float, str, str, Role] = (note.value, cap, "semibold", "ink", "callout")
            return (Row(parts=(value, (words, small, "regular", "quiet", "small")), height=_step(cap)),)
    return ()


def _step(cap_height: float) -> float:
    return LINE_STEP * font_size(cap_height)


def _deciding_rows(note: Note, frame: Frame, widest: float) -> tuple[Row, ...]:
    least, callout = frame.cap_height("deciding"), frame.cap_height("callout")
    cap = 1.25 * least
    while cap > least and _number_width(note, cap, max(cap / 2, callout)) > widest:
        cap = max(least, 0.95 * cap)
    small = max(cap / 2, callout)
    parts: list[tuple[str, float, str, str, Role]] = [(note.value, cap, "bold", "ink", "deciding")]
    if note.unit:
        parts.append((f" {note.unit}", small, "semibold", "ink", "callout"))
    head = Row(parts=tuple(parts), height=_step(cap))
    second = " · ".join(part for part in (note.other, note.label) if part)
    if not note.other or width(second, callout) <= widest:
        return (head, *_small_rows(second, frame, widest, "callout"))
    others, labels = (_small_rows(text, frame, widest, "callout") for text in (note.other, note.label))
    return (head, *others, *labels)


def _number_width(note: Note, cap: float, small: float) -> float:
    return width(note.value, cap, "bold") + (width(f" {note.unit}", small, "semibold") if note.unit else 0.0)


def least_number_width(note: Note, frame: Frame) -> float:
    """The width in px that a deciding note's number needs where it is set as small as it may be."""
    return _number_width(note, frame.cap_height("deciding"), frame.cap_height("callout"))


def _plain_rows(note: Note, frame: Frame, widest: float) -> tuple[Row, ...]:
    cap = frame.cap_height("callout")
    parts: list[tuple[str, float, str, str, Role]] = []
    value = "".join(wrap(note.value, cap, "semibold", widest, 1))
    if value:
        parts.append((value, cap, "semibold", "ink", "callout"))
    other = f"  {note.other}"
    small = frame.cap_height("small")
    if note.other and width(value, cap, "semibold") + width(other, small) <= widest:
        parts.append((other, small, "regular", "quiet", "small"))
    head = (Row(parts=tuple(parts), height=_step(cap)),) if parts else ()
    return (*head, *_small_rows(note.label, frame, widest, "small"))


def _small_rows(text: str, frame: Frame, widest: float, role: Role) -> tuple[Row, ...]:
    cap = frame.cap_height(role)
    lines = wrap_even(text, cap, "regular", widest, 3 if frame.shape == "tall" else 2)
    return tuple(Row(parts=((line, cap, "regular", "quiet", role),), height=_step(cap)) for line in lines)


def height(note: Note, frame: Frame, widest: float) -> float:
    """How high a note is when set in ``widest`` px."""
    return sum(row.height for row in rows(note, frame, widest))


def first_middle(note: Note, frame: Frame, widest: float) -> float:
    """How far below its top the capitals of a note's first line have their middle."""
    first = next(iter(rows(note, frame, widest)), None)
    if first is None:
        return 0.0
    cap = first.parts[0][1]
    return cap / 2 + (first.height - font_size(cap)) / 2


def set_note(note: Note, box: Box, frame: Frame, look: Look) -> tuple[Text, ...]:
    """The texts of a note, set from the top left of ``box``."""
    marks: list[Text] = []
    y = box.top
    for line, row in enumerate(rows(note, frame, box.width)):
        cap = row.parts[0][1]
        baseline = y + cap + (row.height - font_size(cap)) / 2
        x = box.left
        for part, (text, size, weight, color, role) in enumerate(row.parts):
            indent = width(" ", size, weight) * (len(text) - len(text.lstrip()))  # type: ignore[arg-type]
            marks.append(
                Text(
                    name=f"{note.name}/line{line}{'abc'[part]}", step=note.step, text=text.strip(),
                    at=(x + indent, baseline), cap_height=size,
                    weight=weight, fill=getattr(look, color), ground=look.ground, role=role,  # type: ignore[arg-type]
                )
            )  # fmt: skip
            x += width(text, size, weight)  # type: ignore[arg-type]
        y += row.height
    return tuple(marks)


def leader(note: Note, start: Point, bend: Point, end: Point, frame: Frame, look: Look) -> tuple[Shape, ...]:
    """A leader that leaves horizontally, bends once and ends in a dot on the thing itself."""
    line = Stroke(color=look.measure, width=frame.short / 360)
    dot = frame.short / 150
    return (
        Shape(name=f"{note.name}/leader", step=note.step, outline=polyline((start, bend, end)), stroke=line),
        Shape(name=f"{note.name}/dot", step=note.step, outline=circle(end, dot), fill=look.measure,
              stroke=Stroke(color=look.ground, width=frame.short / 540)),
    )  # fmt: skip


def badge(note: Note, number: int, center: Point, where: str, frame: Frame, look: Look) -> tuple[Shape | Text, ...]:
    """A numbered disc: on the thing, and again before its note, where leaders would cross the notes."""
    cap = frame.cap_height("small")
    name = f"{note.name}/{where}"
    disc = Shape(name=name, step=note.step, outline=_disc(center, badge_radius(frame), look), fill=look.measure,
                 stroke=Stroke(color=look.ground, width=frame.short / 270))  # fmt: skip
    text = Text(name=f"{name}_number", step=note.step, text=str(number), at=(center[0], center[1] + cap / 2),
                cap_height=cap, weight="bold", fill=look.ground, ground=look.measure, role="small",
                anchor="middle")  # fmt: skip
    return disc, text


def _disc(center: Point, radius: float, look: Look) -> Outline:
    """As round as the look's corners are."""
    if look.corners == 1:
        return circle(center, radius)
    return rectangle(center[0] - radius, center[1] - radius, 2 * radius, 2 * radius, look.rounded(2 * radius))


def badge_radius(frame: Frame) -> float:
    """The radius of a numbered disc in px."""
    return frame.cap_height("small") * 0.95
