"""What can be asked of a scene."""

import msgspec
import pytest

from studio.graphics.scene import Scene, Shape
from tests.graphics.paint.samples import everything, line, scene, square


def test_a_step_shows_what_came_before_it_too() -> None:
    made = everything()
    assert [mark.name for mark in made.up_to(0).marks] == ["tire/shadow", "tire/ring", "water", "frame", "small"]
    assert len(made.up_to(1).marks) == 7
    assert made.up_to(2) == made
    assert made.up_to(0).steps == made.steps and made.up_to(0).findings == made.findings


def test_a_mark_is_found_by_name() -> None:
    made = everything()
    assert made.named("water") is made.marks[2]
    with pytest.raises(KeyError, match="nothing"):
        made.named("nothing")


def test_its_texts_are_the_lines_without_the_arcs() -> None:
    assert [mark.name for mark in everything().texts] == ["callouts/depth", "callouts/metric", "small"]


def test_a_scene_cannot_be_changed_and_equals_its_equal() -> None:
    made = scene(square(1, 1, 9), line("x"))
    with pytest.raises(AttributeError):
        made.title = "other"  # type: ignore[misc]
    assert made == scene(square(1, 1, 9), line("x")) != scene(line("x"), square(1, 1, 9))
    assert hash(made.marks[1]) == hash(scene(square(1, 1, 9), line("x")).marks[1])


def test_a_scene_survives_being_written_down() -> None:
    made = scene(line("Depth 5/32 in", halo="#FFFFFF"), square(1, 1, 9, fill="#11223344"))
    again = msgspec.json.decode(msgspec.json.encode(made.texts), type=tuple[type(made.texts[0]), ...])  # type: ignore[misc]
    assert again == made.texts
    assert msgspec.structs.replace(made, marks=made.marks) == made


def test_defaults_are_a_finished_picture_of_one_step() -> None:
    made = Scene(picture="p", frame=everything().frame, background=None, marks=())
    assert made.steps == ("all",) and made.up_to(0) == made
    assert Shape(name="x", outline=()).step == 0
