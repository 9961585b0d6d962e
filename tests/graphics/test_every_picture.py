"""Every picture of the catalogue, in every frame and look, with ordinary and extreme data: checked as it is drawn."""

from functools import lru_cache

import msgspec
import pytest

from studio import shipped
from studio.decide.admission import problems
from studio.graphics.backdrop import on_background
from studio.graphics.catalogue import CannotShow, catalogue, scene_of
from studio.graphics.color import contrast
from studio.graphics.frame import FRAMES, Frame, read_frame
from studio.graphics.look import shipped_looks
from studio.graphics.scene import Scene
from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.reference.tables import load_tables
from studio.storage.episode_file import decode
from tests.graphics.extremes import EXTREMES, PICTURES, findings_of
from tests.graphics.lint import complaints, unbacked_numbers

SHAPES = {**FRAMES, "small": read_frame("1280x720"), "narrow": read_frame("720x1600")}
DEMOS = {path.stem: path for path in sorted(shipped.demos().glob("*.json"))}


@lru_cache
def case(name: str) -> tuple[Episode, Findings]:
    episode = decode(DEMOS[name].read_bytes()) if name in DEMOS else EXTREMES[name]
    return episode, findings_of(episode)


def drawn(picture: str, name: str, frame: Frame, look: str) -> Scene:
    try:
        return scene_of(*case(name), picture, frame, shipped_looks()[look])
    except CannotShow as reason:
        pytest.skip(f"{picture} of {name}: {reason}")


def test_the_catalogue_holds_what_is_promised() -> None:
    assert tuple(catalogue()) == PICTURES


@pytest.mark.parametrize("name", EXTREMES)
def test_the_extreme_episodes_are_possible(name: str) -> None:
    assert problems(EXTREMES[name], load_tables()) == ()


@pytest.mark.parametrize("picture", PICTURES)
@pytest.mark.parametrize("name", DEMOS)
def test_each_demo_shows_each_picture(picture: str, name: str) -> None:
    assert scene_of(*case(name), picture, FRAMES["wide"], shipped_looks()["chalk"]).marks


@pytest.mark.parametrize("look", shipped_looks())
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("name", [*DEMOS, *EXTREMES])
@pytest.mark.parametrize("picture", PICTURES)
def test_nothing_is_wrong_with_the_picture(picture: str, name: str, shape: str, look: str) -> None:
    assert complaints(drawn(picture, name, SHAPES[shape], look)) == []


@pytest.mark.parametrize("background", [None, "#00B140"])
@pytest.mark.parametrize("look", shipped_looks())
@pytest.mark.parametrize("picture", PICTURES)
def test_over_film_every_text_has_a_halo_or_a_ground_of_its_own(
    picture: str, look: str, background: str | None
) -> None:
    chosen = shipped_looks()[look]
    scene = on_background(drawn(picture, "minivan_one_new_tire", FRAMES["wide"], look), chosen, background)
    assert [line for line in complaints(scene) if "contrast" in line] == []
    assert {mark.name for mark in scene.texts if mark.ground == chosen.ground and not mark.halo} == set()


@pytest.mark.parametrize("name", [*DEMOS, *EXTREMES])
@pytest.mark.parametrize("picture", PICTURES)
def test_every_number_is_a_findings_number(picture: str, name: str) -> None:
    episode, findings = case(name)
    scene = drawn(picture, name, FRAMES["wide"], "chalk")
    shown = [finding for id_ in scene.findings if (finding := findings.get(id_)) is not None]
    assert len(shown) == len(scene.findings) > 0
    markings = [specimen.marking for specimen in episode.specimens]
    codes = [specimen.date_code for specimen in episode.specimens]
    titles = [choice.title for choice in episode.pictures]
    asked = [question.text for question in episode.questions]
    assert unbacked_numbers(scene, shown, [*markings, *codes, *titles, *asked]) == []


@pytest.mark.parametrize("picture", PICTURES)
def test_the_caution_stands_on_the_picture(picture: str) -> None:
    _, findings = case("minivan_one_new_tire")
    scene = drawn(picture, "minivan_one_new_tire", FRAMES["wide"], "chalk")
    said = " ".join(mark.text for mark in scene.texts if mark.name.startswith("caution"))
    shown = (findings.get(id_) for id_ in scene.findings)
    cautions = {finding.caution for finding in shown if finding and finding.caution}
    assert said in cautions


@pytest.mark.parametrize("picture", PICTURES)
def test_a_larger_frame_of_the_same_shape_is_the_same_composition(picture: str) -> None:
    small = drawn(picture, "minivan_one_new_tire", FRAMES["wide"], "chalk")
    large = drawn(picture, "minivan_one_new_tire", Frame(3840, 2160), "chalk")
    assert [mark.name for mark in small.marks] == [mark.name for mark in large.marks]
    for one, other in zip(small.texts, large.texts, strict=True):
        assert one.text == other.text
        assert other.at == pytest.approx((one.at[0] * 2, one.at[1] * 2), abs=1.0)


@pytest.mark.parametrize("picture", PICTURES)
def test_steps_only_add(picture: str) -> None:
    scene = drawn(picture, "minivan_one_new_tire", FRAMES["wide"], "chalk")
    counts = [len(scene.up_to(step).marks) for step in range(len(scene.steps))]
    assert counts == sorted(set(counts)) and counts[-1] == len(scene.marks)


@pytest.mark.parametrize("look", shipped_looks().values(), ids=lambda look: look.id)
def test_a_pale_text_would_be_noticed(look: object) -> None:
    """The checks themselves can fail: a quiet text made paler, a text moved over another."""
    scene = scene_of(*case("minivan_one_new_tire"), "size_code", FRAMES["wide"], shipped_looks()["chalk"])
    first = scene.texts[0]
    pale = msgspec.structs.replace(first, fill=scene.background or "#FFFFFF", name="pale")
    wrong = complaints(msgspec.structs.replace(scene, marks=(*scene.marks, pale)))
    assert any("contrast" in line for line in wrong) and any("lies over" in line for line in wrong)
    assert contrast(pale.fill, pale.fill) == 1.0
