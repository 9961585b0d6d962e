"""From a picture's data to its scene: in the look's face and zones, and nothing of it is left for the next picture."""

import threading
from typing import Any

import pytest
from msgspec.structs import replace

from studio.graphics.composing import composed, frame_for
from studio.graphics.face import Face, current_face, set_in
from studio.graphics.frame import FRAMES, Frame
from studio.graphics.layout.text import width
from studio.graphics.look import Look, Zones, look_named
from studio.graphics.scene import Scene, Text

FACE = Face(family="DejaVu Sans", regular="DejaVuSans.ttf", semibold="DejaVuSans-Bold.ttf", bold="DejaVuSans-Bold.ttf")
CHALK = look_named("chalk")


class Said:
    """A picture that says something, or cannot."""

    def compose(self, data: Any, frame: Frame, look: Look) -> Scene:
        if data is None:
            raise ZeroDivisionError
        mark = Text(name="said", text=data, at=(0, 50), cap_height=30, fill=look.ink, ground=look.ground, role="small")
        return Scene(picture="said", frame=frame, background=None, marks=(mark,), title=f"{width(data, 30):.3f}")


def test_texts_are_measured_and_kept_in_the_looks_face() -> None:
    plain = composed(Said(), "Measured", FRAMES["wide"], CHALK)
    own = composed(Said(), "Measured", FRAMES["wide"], replace(CHALK, face=FACE))
    assert plain.texts[0].face is None and own.texts[0].face == FACE
    assert float(own.title) > float(plain.title)  # DejaVu Sans is the wider one


def test_a_picture_that_fails_leaves_no_face_behind() -> None:
    with pytest.raises(ZeroDivisionError):
        composed(Said(), None, FRAMES["wide"], replace(CHALK, face=FACE))
    assert current_face() is None


def test_another_thread_has_a_face_of_its_own() -> None:
    found = list[Face | None]()
    with set_in(FACE):
        thread = threading.Thread(target=lambda: found.append(current_face()))
        thread.start()
        thread.join()
    assert found == [None]


def test_the_caption_band_is_kept_where_the_frame_or_the_look_wants_it() -> None:
    keeps = replace(CHALK, zones=Zones(captions=True))
    wide, captioned = FRAMES["wide"], replace(FRAMES["wide"], captions=True)
    assert frame_for(wide, CHALK) == wide
    assert frame_for(wide, keeps) == frame_for(captioned, CHALK) == captioned
