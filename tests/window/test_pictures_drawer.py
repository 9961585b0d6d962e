"""Drawing off the window's thread: what is kept, what is dropped, what is told."""

import threading
from dataclasses import replace

import msgspec
import pytest
from PySide6.QtCore import QTimer

from studio.graphics.frame import FRAMES
from studio.graphics.look import shipped_looks
from studio.window.pictures_cache import SessionCache
from studio.window.pictures_drawer import Drawer
from studio.window.pictures_order import Drawings, Order
from tests.window.findings_samples import sample_decide, sample_episode
from tests.window.pictures_samples import STEPS, BrokenPicture, sample_catalogue

LOOKS = shipped_looks()


def order_of(picture="size_code", episode=None, **more):
    held = episode or sample_episode()
    return replace(
        Order(key=picture, picture=picture, episode=held, findings=sample_decide(held, None), frame=FRAMES["wide"],
              look=LOOKS["chalk"], size=(192, 108)),
        **more,
    )  # fmt: skip


@pytest.fixture
def pictures():
    return sample_catalogue()


@pytest.fixture
def drawings(pictures, monkeypatch):
    monkeypatch.setattr("studio.handoff.picture_files.catalogue", lambda: pictures)
    cache = SessionCache()
    yield Drawings(lambda: pictures, cache)
    cache.clear()


def test_equal_data_look_and_frame_are_composed_once(drawings, pictures):
    first = drawings.draw(order_of())
    again = drawings.draw(order_of(episode=msgspec.structs.replace(sample_episode(), story="told anew")))
    assert again.image is first.image and again.scene is first.scene
    assert len(pictures["size_code"].composed) == 1
    drawings.draw(order_of(look=LOOKS["night_bay"]))
    drawings.draw(order_of(frame=FRAMES["tall"]))
    drawings.draw(order_of(episode=msgspec.structs.replace(sample_episode(), specimens=sample_episode().specimens[1:])))
    assert len(pictures["size_code"].composed) == 4


def test_another_step_or_size_is_painted_from_the_same_scene(drawings, pictures):
    whole, built = drawings.draw(order_of()), drawings.draw(order_of(step=1))
    larger = drawings.draw(order_of(size=(640, 360)))
    assert len(pictures["size_code"].composed) == 1
    assert whole.image.pixelColor(96, 70).name() != built.image.pixelColor(96, 70).name()
    assert (larger.image.width(), larger.image.height()) == (640, 360)
    assert whole.scene.steps == STEPS


def test_what_is_missing_and_what_is_broken_are_told_and_the_rest_is_drawn(drawings, pictures):
    empty = msgspec.structs.replace(sample_episode(), specimens=())
    missing = drawings.draw(order_of(episode=empty))
    assert (missing.missing, missing.failed, missing.image) == ("no tire has a depth reading yet", False, None)
    pictures["depth_compare"] = BrokenPicture("depth_compare", "Depths compared")
    broken = drawings.draw(order_of("depth_compare"))
    assert broken.failed and "a bug" in broken.missing
    assert drawings.draw(order_of("depth_by_wheel")).image is not None


def test_a_file_is_the_picture_at_its_own_size_and_equal_content_has_one_place(drawings):
    wanted = order_of(file=True, background="clear", step=0)
    one, other = drawings.draw(wanted), drawings.draw(wanted)
    assert one.path == other.path and one.path.read_bytes() == one.png
    assert one.png[16:24] == (1920).to_bytes(4, "big") + (1080).to_bytes(4, "big")  # IHDR, PNG specification 11.2.2
    changed = drawings.draw(replace(wanted, step=None))
    assert changed.path != one.path and one.path.exists()


def test_the_cache_lives_until_it_is_cleared():
    cache = SessionCache()
    path = cache.keep("a.png", b"content")
    assert path.read_bytes() == b"content"
    cache.clear()
    assert not path.exists() and not path.parent.parent.exists()


def test_drawing_leaves_the_windows_thread_to_the_window(qtbot, jobs):
    """The event loop turns while each picture is composed: counted, not timed."""
    pictures = sample_catalogue(slow_s=0.05)
    drawer = Drawer(jobs, Drawings(lambda: pictures, SessionCache()))
    turns, seen = [], []
    probe = QTimer(interval=1, timeout=lambda: turns.append(len(seen)))
    drawer.drawn.connect(seen.append)
    probe.start()
    drawer.order(order_of(id_) for id_ in pictures)
    qtbot.waitUntil(lambda: len(seen) == 3)
    probe.stop()
    assert {0, 1, 2} <= set(turns), "the loop turned before each picture came in"
    threads = {thread for its in pictures.values() for thread in its.composed}
    assert threading.main_thread() not in threads


def test_what_is_looked_at_comes_first_and_an_older_order_for_its_place_is_dropped(qtbot, jobs):
    pictures = sample_catalogue(slow_s=0.03)
    drawer = Drawer(jobs, Drawings(lambda: pictures, SessionCache()))
    seen = []
    drawer.drawn.connect(seen.append)
    drawer.order([order_of("depth_compare", rank=2), order_of("depth_by_wheel", rank=2)])
    drawer.order([order_of("size_code", key="live", rank=0), order_of("size_code", key="live", rank=0, step=0)])
    qtbot.waitUntil(lambda: drawer.idle)
    assert sorted(its.order.key for its in seen) == ["depth_by_wheel", "depth_compare", "live"]
    assert [its.order.step for its in seen if its.order.key == "live"] == [0]
    assert [its.order.key for its in seen].index("live") < 2


def test_what_is_forgotten_is_not_delivered(qtbot, jobs):
    pictures = sample_catalogue(slow_s=0.03)
    drawer = Drawer(jobs, Drawings(lambda: pictures, SessionCache()))
    seen = []
    drawer.drawn.connect(seen.append)
    drawer.order([order_of("size_code"), order_of("depth_compare")])
    drawer.forget("size_code")
    qtbot.waitUntil(lambda: drawer.idle)
    assert [its.order.key for its in seen] == ["depth_compare"]


def test_drawing_is_no_work_that_anybody_waits_for(qtbot, jobs):
    pictures = sample_catalogue(slow_s=0.03)
    drawer = Drawer(jobs, Drawings(lambda: pictures, SessionCache()))
    seen, changes = [], []
    drawer.drawn.connect(seen.append)
    jobs.changed.connect(lambda: changes.append(1))
    drawer.order([order_of("size_code"), order_of("depth_compare")])
    assert not jobs.busy and jobs.current() is None and len(jobs) == 1
    jobs.stop()
    qtbot.waitUntil(lambda: drawer.idle)
    assert len(seen) == 2 and not changes
