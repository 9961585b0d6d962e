"""The hand-off as a whole: made, stopped, fresh and stale, each state for its reason."""

import json
from pathlib import Path

import pytest
from msgspec.structs import replace

from studio.decide import decide
from studio.graphics.frame import Frame
from studio.graphics.look import look_named
from studio.handoff import works as works_module
from studio.handoff.gathering import gather
from studio.handoff.making import make, read_items, today
from studio.handoff.manifest import MANIFEST
from studio.handoff.material import Material
from studio.handoff.works import ITEMS
from studio.model.episode import Episode
from studio.model.rundown import PictureCue, Point
from studio.reference.tables import load_tables
from studio.storage.errors import StorageError
from tests.handoff.materials import bare, demo, hostile

TABLES = load_tables()
SMALL = Frame(640, 360)
QUICK = tuple(item for item in ITEMS if item not in ("clips", "pictures"))


def material_of(episode: Episode) -> Material:
    return gather(episode, decide(episode, TABLES), TABLES, look_named("chalk"), SMALL)


def made_in(folder: Path, episode: Episode, items: tuple[str, ...] = ()) -> Material:
    material = material_of(episode)
    assert not [step for step in make(material, folder, items) if step.failed]
    return material


def with_reading(episode: Episode, specimen: str, depth: float) -> Episode:
    """One reading of the last visit of one tire, changed: the first groove at the first place."""
    tires = []
    for tire in episode.specimens:
        if tire.id == specimen:
            last = tire.latest
            first = (depth, *last.depths[0][1:])
            changed = replace(last, depths=(first, *last.depths[1:]))
            tire = replace(tire, readings=tuple(changed if each == last else each for each in tire.readings))
        tires.append(tire)
    return replace(episode, specimens=tuple(tires))


def live(episode: Episode, text: str) -> Episode:
    """The episode with one text and two pictures in its first segment, nothing else spoken or shown."""
    first, *rest = episode.rundown.segments
    shown = (PictureCue(picture="depth_by_wheel"), PictureCue(picture="placard"))
    first = replace(first, points=(Point(text=text),), pictures=shown)
    segments = (first, *(replace(each, points=(), pictures=()) for each in rest))
    return replace(episode, rundown=replace(episode.rundown, segments=segments, takes=(), paid_ties=()))


EPISODE = live(demo(), "The front left has {tread_left.front_left}.")
FRONT_LEFT = next(tire.id for tire in EPISODE.specimens if tire.place == "front_left")
REAR_LEFT = next(tire.id for tire in EPISODE.specimens if tire.place == "rear_left")


def stale(folder: Path, episode: Episode) -> dict[str, tuple[str, ...]]:
    return {state.file: state.why for state in today(material_of(episode), folder) if state.state == "stale"}


def test_everything_is_made_and_fresh(tmp_path: Path) -> None:
    material = made_in(tmp_path, EPISODE)
    states = today(material, tmp_path)
    lacking = {state.file for state in states if state.state == "not made"}
    assert lacking == {"chapters.txt", "chapters.vtt"}
    assert all(state.state == "fresh" for state in states if state.file not in lacking)
    listed = json.loads((tmp_path / MANIFEST).read_bytes())["files"]
    on_disk = {str(path.relative_to(tmp_path)) for path in tmp_path.rglob("*") if path.is_file()} - {MANIFEST}
    assert {entry["file"] for entry in listed if entry["state"] == "fresh"} == on_disk
    assert {entry["item"] for entry in listed} == set(ITEMS)


def test_one_changed_reading_makes_exactly_its_dependents_stale(tmp_path: Path) -> None:
    before = made_in(tmp_path, EPISODE)
    after = with_reading(EPISODE, FRONT_LEFT, 8.0)
    now, found = material_of(after), stale(tmp_path, after)
    others = {"brief.pdf", "captions.srt", "captions.vtt", "cue_cards.pdf", "clips/01_depth_by_wheel.mov"}
    pictures = {f for f in found if f.startswith("pictures/")}
    assert set(found) == others | pictures
    # the front left tire's depth decides these; the front right one, the placard or a code decides those
    names = {file.partition("_")[2].removesuffix(".png") for file in pictures}
    assert {"depth_by_wheel", "axle_match"} <= names
    assert not {"placard", "date_code", "coins", "hydroplaning"} & names
    assert names == {id_ for id_, scene in before.scenes.items() if now.scenes[id_] != scene}
    assert found["captions.srt"] == ("front left, reading of 7 Nov 2026, outer groove, place 1: 9/32 in, now 8/32 in",)


def test_a_reading_that_is_not_spoken_leaves_the_spoken_files_fresh(tmp_path: Path) -> None:
    made_in(tmp_path, EPISODE, QUICK)
    found = stale(tmp_path, with_reading(EPISODE, REAR_LEFT, 4.0))
    assert "brief.pdf" in found
    assert not {"captions.srt", "captions.vtt", "cue_cards.pdf", "timeline.otio", "shot_list.csv"} & set(found)


def test_other_words_make_the_spoken_files_stale_and_no_picture(tmp_path: Path) -> None:
    made_in(tmp_path, EPISODE)
    found = stale(tmp_path, live(EPISODE, "Quite another sentence, and a longer one than before, stands here now."))
    assert {"captions.srt", "cue_cards.pdf", "brief.pdf", "timeline.otio"} <= set(found)
    assert not [file for file in found if file.startswith("pictures/")]
    assert found["captions.srt"] == ("The rundown's words, order or times have changed.",)


def test_a_file_taken_away_or_changed_by_hand_is_named(tmp_path: Path) -> None:
    material = made_in(tmp_path, EPISODE, ("captions", "description"))
    (tmp_path / "captions.srt").unlink()
    (tmp_path / "description.txt").write_text("mine")
    states = {state.file: state for state in today(material, tmp_path)}
    assert (states["captions.srt"].state, states["captions.srt"].why) == ("not made", ("The file is no longer there.",))
    assert states["description.txt"].why == ("The file was changed after it was made.",)
    assert states["captions.vtt"].state == "fresh"


def test_only_what_is_not_fresh_is_made_again(tmp_path: Path) -> None:
    made_in(tmp_path, EPISODE, QUICK)
    after = material_of(with_reading(EPISODE, FRONT_LEFT, 8.0))
    steps = list(make(after, tmp_path, QUICK, stale_only=True))
    assert {step.file for step in steps if step.state} == {"brief.pdf", "captions.srt", "captions.vtt", "cue_cards.pdf"}
    assert "8/32 in" in (tmp_path / "captions.srt").read_text(encoding="utf-8")
    assert not [s for s in today(after, tmp_path) if s.item in QUICK and s.state == "stale"]


def test_a_stop_leaves_whole_files_and_a_list_of_them(tmp_path: Path) -> None:
    material = material_of(EPISODE)
    steps = make(material, tmp_path, QUICK)
    first = next(steps)
    steps.close()
    listed = json.loads((tmp_path / MANIFEST).read_bytes())["files"]
    assert [entry["file"] for entry in listed if entry["state"] == "fresh"] == [first.file]
    assert not list(tmp_path.rglob("*.part"))


def test_a_full_disk_stops_with_a_sentence_and_leaves_the_old_files(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made_in(tmp_path, EPISODE, ("captions",))
    before = (tmp_path / "captions.srt").read_bytes()

    def full(*_: object) -> None:
        raise StorageError("captions.srt was not saved: the disk is full") from OSError(28, "No space left on device")

    monkeypatch.setattr("studio.handoff.making.write_atomically", full)
    with pytest.raises(StorageError, match="disk is full"):
        list(make(material_of(live(EPISODE, "Something else.")), tmp_path, ("captions",)))
    assert (tmp_path / "captions.srt").read_bytes() == before


def test_one_file_that_fails_does_not_lose_the_rest(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(_: Material) -> bytes:
        raise RuntimeError("no ink")

    monkeypatch.setattr(works_module, "_brief", broken)
    steps = list(make(material_of(EPISODE), tmp_path, ("brief", "captions")))
    assert [(step.file, step.failed) for step in steps] == [
        ("brief.pdf", True), ("captions.srt", False), ("captions.vtt", False),
    ]  # fmt: skip
    assert "no ink" in steps[0].problem
    assert (tmp_path / "captions.srt").exists()


def test_a_list_from_outside_leads_nowhere_and_a_broken_one_is_named(tmp_path: Path) -> None:
    (tmp_path / "secret.txt").write_text("x")
    folder = tmp_path / "handoff"
    folder.mkdir()
    entry = {"item": "brief", "file": "../secret.txt", "state": "fresh", "sha256": "0", "fingerprint": "0"}
    (folder / MANIFEST).write_text(json.dumps({"files": [entry]}))
    assert "../secret.txt" not in {state.file for state in today(material_of(EPISODE), folder)}
    (folder / MANIFEST).write_text("{")
    with pytest.raises(StorageError, match=r"handoff\.json is not a list of the hand-off"):
        today(material_of(EPISODE), folder)


@pytest.mark.parametrize("episode", [bare(), hostile()], ids=["bare", "hostile"])
def test_an_episode_of_nothing_and_a_hostile_one_give_valid_files(tmp_path: Path, episode: Episode) -> None:
    made_in(tmp_path, episode, QUICK)
    assert (tmp_path / "brief.pdf").read_bytes().startswith(b"%PDF")
    assert json.loads((tmp_path / "timeline.otio").read_bytes())["OTIO_SCHEMA"].startswith("Timeline")


def test_two_hand_offs_are_the_same_bytes(tmp_path: Path) -> None:
    for name in ("one", "two"):
        made_in(tmp_path / name, EPISODE, (*QUICK, "pictures"))
    files = sorted(path.relative_to(tmp_path / "one") for path in (tmp_path / "one").rglob("*") if path.is_file())
    assert len(files) > 15
    assert all((tmp_path / "one" / f).read_bytes() == (tmp_path / "two" / f).read_bytes() for f in files)


def test_an_item_that_does_not_exist_is_named_with_those_that_do() -> None:
    assert read_items("brief, captions") == ("brief", "captions")
    for text in ("breif", "", ","):
        with pytest.raises(ValueError, match="there are: brief, pictures, clips"):
            read_items(text)
