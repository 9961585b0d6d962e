"""Clips as files: another process decodes what was drawn; a stop, a full disk, a lack of PyAV leave nothing broken."""

import errno
import importlib.util
import io
import json
import os
import subprocess
import sys
from contextlib import closing
from fractions import Fraction
from hashlib import sha256
from pathlib import Path
from typing import Any

import msgspec
import numpy as np
import pytest
from PIL import Image

from studio.graphics.draw import circle, polyline
from studio.graphics.frame import Frame
from studio.graphics.look import look_named
from studio.graphics.moving.clips import clip_of
from studio.graphics.paint import movies
from studio.graphics.paint.clip import frames
from studio.graphics.paint.movies import MovieError, check_movie
from studio.graphics.paint.raster import png
from studio.graphics.scene import Scene, Shape, Stroke
from studio.handoff import clips
from studio.handoff.clips import Written, write_clip
from studio.handoff.picture_files import Wanted
from studio.handoff.pictures import export_pictures
from studio.model.finding import Findings
from studio.storage.errors import StorageError
from tests.handoff.test_pictures import CHALK, EPISODE, listed

PROJECT = Path(__file__).resolve().parents[2]
MOVING = ("qtrle", "prores", "webm", "mp4")
RATE = "24000/1001"
SMALL = Frame(320, 180)


def ring(clear: bool = False, frame: Frame = SMALL) -> Scene:
    """A rubber ring, then a line across: two steps, in any frame."""
    x, y, side = frame.width / 2, frame.height / 2, frame.height
    outline = circle((x, y), side * 0.4) + circle((x, y), side * 0.2, clockwise=False)
    tire = Shape(name="tire", outline=outline, fill=CHALK.rubber)
    line = Shape(name="line", step=1, outline=polyline(((x - side / 2, y), (x + side / 2, y))),
                 stroke=Stroke(CHALK.measure, 4.0))  # fmt: skip
    return Scene(picture="ring", frame=frame, background=None if clear else CHALK.ground, marks=(tire, line),
                 steps=("tire", "line"))  # fmt: skip


def written(scene: Scene, movie: str, target: Path, rate: str = RATE) -> Written:
    writing = write_clip(scene, rate, movie, CHALK, target)
    while True:
        try:
            next(writing)
        except StopIteration as end:
            return end.value


def decode(path: Path) -> dict[str, Any]:
    script = str(Path(__file__).with_name("decoded.py"))
    done = subprocess.run([sys.executable, script, str(path)], capture_output=True, check=True, timeout=60)
    found: dict[str, Any] = json.loads(done.stdout)
    return found


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def pixels(scene: Scene) -> str:
    return sha256(np.asarray(Image.open(io.BytesIO(png(scene))).convert("RGBA")).tobytes()).hexdigest()


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> dict[str, tuple[Written, dict[str, Any]]]:
    """Each kind of movie, with alpha where it has one, as another process reads it."""
    folder, found = tmp_path_factory.mktemp("clips"), {}
    for movie in MOVING:
        path = folder / f"{movie}{movies.KINDS[movie].ending}"
        found[movie] = (written(ring(clear=movie != "mp4"), movie, path), decode(path))
    return found


@pytest.mark.parametrize("movie", MOVING)
def test_size_rate_and_length_are_exact(movie: str, made: dict[str, Any]) -> None:
    clip, (said, read) = clip_of(ring(), RATE), made[movie]
    assert (read["width"], read["height"], read["rate"]) == (320, 180, RATE)
    assert read["frames"] == said.frames == clip.frames
    assert said.duration_s == pytest.approx(clip.frames * 1001 / 24000)
    if movie == "webm":  # Matroska counts milliseconds and leaves a stream's length to its container
        assert read["times_ms"] == [0, round((clip.frames - 1) * 1001 / 24)]
    else:
        assert read["duration"] == str(Fraction(clip.frames * 1001, 24000))


@pytest.mark.parametrize("movie", MOVING)
def test_colour_tags_are_those_of_bt_709(movie: str, made: dict[str, Any]) -> None:
    """ITU-T H.273: colour primaries 1, transfer characteristics 1, matrix coefficients 1; YUV in limited range."""
    read = made[movie][1]
    assert read["tags"] == [1, 1, 1]
    assert read["range"] == (0 if movie == "qtrle" else 1)


def test_yuv_follows_bt_709(made: dict[str, Any]) -> None:
    """Rec. ITU-R BT.709-6, items 3.2 to 3.5: E'Y = 0.2126 R + 0.7152 G + 0.0722 B, Y = 219 E'Y + 16, and so on."""
    red, green, blue = (int(CHALK.ground[i : i + 2], 16) / 255 for i in (1, 3, 5))
    luma = 0.2126 * red + 0.7152 * green + 0.0722 * blue
    wanted = (219 * luma + 16, 224 * (blue - luma) / 1.8556 + 128, 224 * (red - luma) / 1.5748 + 128)
    assert made["mp4"][1]["planes"] == pytest.approx(wanted, abs=1.0)
    luma_, cb, cr, alpha = made["prores"][1]["planes"]  # 12 bits when decoded; the ground lies below, hidden
    assert (luma_ / 16, cb / 16, cr / 16) == pytest.approx(wanted, abs=0.5) and alpha == 0


@pytest.mark.parametrize("movie", ["qtrle", "prores", "webm"])
def test_alpha_comes_through(movie: str, made: dict[str, Any]) -> None:
    read = made[movie][1]
    assert "a" in read["pixels"]
    faint = 2 if movie == "webm" else 0
    assert read["first"]["alphas"][1] <= faint  # a clip over nothing starts with nothing
    assert read["last"]["corner"][3] <= faint and read["last"]["tire"][3] >= 253
    rubber = [int(CHALK.rubber[i : i + 2], 16) for i in (1, 3, 5)]
    assert read["last"]["tire"][:3] == pytest.approx(rubber, abs=6 if movie == "webm" else 3)


def test_first_and_last_frames_are_the_stills(made: dict[str, Any]) -> None:
    read, scene = made["qtrle"][1], ring(clear=True)
    assert read["first"]["sha256"] == pixels(scene.up_to(-1)) and read["last"]["sha256"] == pixels(scene)


def test_an_opaque_mov_is_exact_too(tmp_path: Path) -> None:
    written(ring(), "qtrle", tmp_path / "a.mov", "25")
    read = decode(tmp_path / "a.mov")
    assert read["last"]["sha256"] == pixels(ring()) and read["last"]["alphas"] == [255, 255]
    assert 1 < read["keys"] < 10  # a whole frame each second, not each frame


@pytest.mark.parametrize("rate", ["24000/1001", "25", "30000/1001", "60"])
def test_every_rate_is_written_exactly(rate: str, tmp_path: Path) -> None:
    said = written(ring(), "mp4", tmp_path / "a.mp4", rate)
    read = decode(tmp_path / "a.mp4")
    assert read["rate"] == rate and read["frames"] == said.frames == clip_of(ring(), rate).frames  # type: ignore[arg-type]


def test_a_sequence_of_pngs_is_the_clip_frame_by_frame(tmp_path: Path) -> None:
    said, scene = written(ring(clear=True), "png", tmp_path / "seq", "25"), ring(clear=True)
    found = names(tmp_path / "seq")
    assert found == [f"frame_{n:05d}.png" for n in range(1, said.frames + 1)]
    for name, drawn in zip(found[::9], list(map(bytes, frames(clip_of(scene, "25"))))[::9], strict=True):
        assert np.asarray(Image.open(tmp_path / "seq" / name)).tobytes() == drawn
    assert (tmp_path / "seq" / found[-1]).read_bytes() == png(scene)
    content = b"".join((tmp_path / "seq" / name).read_bytes() for name in found)
    assert said.sha256 == sha256(content).hexdigest()


@pytest.mark.parametrize("movie", [*MOVING, "png"])
def test_two_exports_are_byte_equal(movie: str, tmp_path: Path) -> None:
    scene = ring(clear=movie != "mp4")
    hashes = [written(scene, movie, tmp_path / name, "25").sha256 for name in ("one", "two")]
    assert hashes[0] == hashes[1]
    if movie != "png":
        assert hashes[0] == sha256((tmp_path / "one").read_bytes()).hexdigest()


@pytest.mark.parametrize("movie", ["qtrle", "mp4", "png"])
def test_a_stop_leaves_what_was_there_and_nothing_else(
    movie: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(clips, "_SAID_EVERY_S", 0.0)
    target = tmp_path / "clip"
    if movie == "png":
        target.mkdir()
        (target / "frame_00001.png").write_bytes(b"before")
    else:
        target.write_bytes(b"before")
    for shares in (1, 40):
        with closing(write_clip(ring(), "25", movie, CHALK, target)) as writing:
            seen = [next(writing) for _ in range(shares)]
        assert seen == sorted(seen) and 0 < seen[-1] < 1
        assert names(tmp_path) == ["clip"]
        before = target / "frame_00001.png" if movie == "png" else target
        assert before.read_bytes() == b"before"


def test_a_new_sequence_takes_the_whole_place_of_the_old_one(tmp_path: Path) -> None:
    target = tmp_path / "seq"
    target.mkdir()
    (target / "frame_99999.png").write_bytes(b"of a longer clip")
    written(ring(), "png", target, "25")
    assert names(tmp_path) == ["seq"] and not (target / "frame_99999.png").exists()


_FULL = """
import resource, sys
from pathlib import Path
from tests.handoff.test_clips import ring, written
from studio.storage.errors import StorageError
scene = ring(clear=True)
resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, 20_000))
try:
    written(scene, sys.argv[1], Path(sys.argv[2]))
except StorageError as error:
    print(error)
"""


@pytest.mark.skipif(os.name == "nt", reason="file sizes are limited by the system only on others")
@pytest.mark.parametrize("movie", ["qtrle", "prores", "webm"])
def test_no_room_for_a_movie_is_one_line_and_leaves_the_old_one(movie: str, tmp_path: Path) -> None:
    target = tmp_path / "clip.mov"
    target.write_bytes(b"before")
    done = subprocess.run([sys.executable, "-c", _FULL, movie, str(target)], capture_output=True, timeout=60,
                          cwd=PROJECT, env={**os.environ, "PYTHONPATH": str(PROJECT)})  # fmt: skip
    assert done.stdout.decode() == "clip.mov was not saved: File too large; nothing was changed\n", done.stderr.decode()
    assert target.read_bytes() == b"before" and names(tmp_path) == ["clip.mov"]


def test_a_full_disk_in_the_middle_of_a_sequence(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    target, real = tmp_path / "seq", Path.write_bytes
    written(ring(), "png", target, "25")
    before = names(target)

    def full(path: Path, content: bytes) -> int:
        if path.name == "frame_00030.png":
            raise OSError(errno.ENOSPC, "No space left on device")
        return real(path, content)

    monkeypatch.setattr(Path, "write_bytes", full)
    with pytest.raises(StorageError, match="seq was not saved: the disk is full"):
        written(ring(clear=True), "png", target, "25")
    assert names(tmp_path) == ["seq"] and names(target) == before


def test_without_pyav_only_png_can_be_had(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(importlib.util, "find_spec", lambda name: None)
    check_movie("png", Frame(641, 361), clear=True)
    for movie in ("qtrle", "prores"):
        with pytest.raises(MovieError) as said:
            check_movie(movie, Frame(640, 360), clear=True)
        assert "needs the extra clips" in str(said.value) and "\n" not in str(said.value)
        assert "pip install 'tire-episode-studio[clips]'" in str(said.value)


@pytest.mark.parametrize(
    ("movie", "frame", "clear", "said"),
    [
        ("gif", Frame(640, 360), False, "'gif' is not a kind of movie; expected png, prores, qtrle, webm, mp4"),
        ("mp4", Frame(640, 360), True, "mp4 has no transparency"),
        ("mp4", Frame(641, 360), False, "mp4 needs even sides, 641x360 has not: ask for 640x360"),
        ("webm", Frame(640, 361), False, "ask for 640x360"),
    ],
)
def test_what_cannot_be_is_one_line(movie: str, frame: Frame, clear: bool, said: str) -> None:
    with pytest.raises(MovieError, match=said):
        check_movie(movie, frame, clear)


@pytest.mark.parametrize("movie", ["prores", "qtrle"])
def test_odd_sides_are_kept(movie: str, tmp_path: Path) -> None:
    written(ring(frame=Frame(321, 181)), movie, tmp_path / "a.mov", "25")
    read = decode(tmp_path / "a.mov")
    assert (read["width"], read["height"]) == (321, 181)


@pytest.mark.usefixtures("small_catalogue")
def test_an_export_lists_its_clips(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(clips, "_SAID_EVERY_S", 0.0)
    wanted = Wanted(ids=("stepped",), format="clip", frame=Frame(320, 180), steps="all")
    seen = list(export_pictures(EPISODE, Findings(()), CHALK, wanted, tmp_path))
    shares = [progress.share for progress in seen if progress.entry is None]
    assert shares == sorted(shares) and all(0 < share <= 1 for share in shares) and seen[-1].entry is not None
    assert [progress.done for progress in seen] == [0] * len(shares) + [1]
    (entry,) = listed(tmp_path)
    assert entry["file"] == "02_stepped_320x180_qtrle_30000-1001.mov"  # the rate of the episode's rundown
    assert (entry["format"], entry["movie"], entry["rate"], entry["step"]) == ("clip", "qtrle", "30000/1001", None)
    assert entry["duration_s"] == pytest.approx(entry["frames"] * 1001 / 30000)
    assert "".join(label["text"] for label in entry["labels"]) == "225/45R17"
    assert entry["sha256"] == sha256((tmp_path / entry["file"]).read_bytes()).hexdigest()


@pytest.mark.usefixtures("small_catalogue")
def test_a_stopped_export_names_what_is_whole(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(clips, "_SAID_EVERY_S", 0.0)
    wanted = Wanted(ids=("plain", "stepped"), format="clip", frame=Frame(320, 180), rate="25", movie="mp4")
    with closing(export_pictures(EPISODE, Findings(()), CHALK, wanted, tmp_path)) as steps:  # type: ignore[type-var]
        for progress in steps:
            if progress.picture == "stepped" and progress.share > 0.3:
                break
    assert names(tmp_path) == ["01_plain_320x180_mp4_25.mp4", "pictures.json"]
    assert [entry["id"] for entry in listed(tmp_path)] == ["plain"]


def test_a_clip_of_another_look_keeps_its_background(tmp_path: Path) -> None:
    night = look_named("night_bay")
    scene = msgspec.structs.replace(ring(), background=night.ground)
    written(scene, "qtrle", tmp_path / "a.mov", "25")
    assert decode(tmp_path / "a.mov")["first"]["corner"][:3] == [int(night.ground[i : i + 2], 16) for i in (1, 3, 5)]
