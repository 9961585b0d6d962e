"""The colours that pictures really draw with a meaning are told apart with each colour-vision deficiency, and in grey.

Seen as Machado, Oliveira and Fernandes have it (IEEE TVCG 15, 2009, severity 1, on linear sRGB), measured by CIEDE2000
(ISO/CIE 11664-6); matrices and distances are colour-science's, not the program's. House rule: 10 apart with each
deficiency; in grey 10 apart in L*, or a second sign (a word, a hatch, a drawn sign) beside each of the two.
"""

from functools import lru_cache
from itertools import combinations

import msgspec
import numpy as np
import pytest

from studio.graphics.catalogue import CannotShow, Request, catalogue, scene_of
from studio.graphics.frame import FRAMES
from studio.graphics.look import Look, shipped_looks
from studio.graphics.scene import Scene, Shape, Text
from tests.graphics.color_library import library, matrix
from tests.graphics.extremes import EXTREMES, PICTURES
from tests.graphics.test_every_picture import DEMOS, case

DEFICIENCIES = ("Protanomaly", "Deuteranomaly", "Tritanomaly")
LEAST_APART, LEAST_GREY = 10.0, 10.0
VERDICTS = ("keep", "watch", "rotate", "replace")
SIGN_PARTS = ("/tread", "/bar", "/arrow out", "/arrow back")  # the drawn signs: shape tells them apart


@lru_cache
def seen(color: str, deficiency: str) -> tuple[float, ...]:
    """L*, a*, b* of a colour as a person with this deficiency sees it; empty for full colour vision."""
    srgb = library().models.RGB_COLOURSPACE_sRGB
    linear = srgb.cctf_decoding(np.array([int(color[start : start + 2], 16) / 255 for start in (1, 3, 5)]))
    if deficiency:
        linear = np.clip(matrix(deficiency) @ linear, 0, 1)
    return tuple(library().XYZ_to_Lab(srgb.matrix_RGB_to_XYZ @ linear, srgb.whitepoint))


def apart(one: str, other: str, deficiency: str) -> float:
    return float(library().difference.delta_E_CIE2000(seen(one, deficiency), seen(other, deficiency)))


def grey_apart(one: str, other: str) -> float:
    return abs(seen(one, "")[0] - seen(other, "")[0])


def fills(scene: Scene, look: Look) -> dict[str, list[Shape]]:
    """The shapes filled with each verdict's colour, by verdict."""
    found: dict[str, list[Shape]] = {}
    for mark in scene.marks:
        for verdict in VERDICTS:
            if isinstance(mark, Shape) and mark.fill == getattr(look.verdicts, verdict):
                found.setdefault(verdict, []).append(mark)
    return found


def has_second_sign(shape: Shape, scene: Scene) -> bool:
    """Whether words, a hatch or a drawn sign of the same whole stand beside the fill."""
    if shape.name.endswith(SIGN_PARTS):
        return True
    whole = shape.name.split("/")[0]
    group = [mark for mark in scene.marks if mark.name.split("/")[0] == whole]
    return any(isinstance(mark, Text) or "hatch" in mark.name or mark.name.endswith(SIGN_PARTS) for mark in group)


def complaints(scene: Scene, look: Look) -> list[str]:
    found, wrong = fills(scene, look), []
    for one, other in combinations(found, 2):
        a, b = (getattr(look.verdicts, verdict) for verdict in (one, other))
        for deficiency in ("", *DEFICIENCIES):
            if (distance := apart(a, b, deficiency)) < LEAST_APART:
                wrong.append(f"{one} and {other} are {distance:.1f} apart with {deficiency or 'full vision'}")
        if grey_apart(a, b) < LEAST_GREY:
            wrong += [f"{shape.name}: in grey like {other if verdict == one else one}, and nothing else tells"
                      for verdict in (one, other) for shape in found[verdict]
                      if not has_second_sign(shape, scene)]  # fmt: skip
    return wrong


def scenes(picture: str, look: str) -> list[Scene]:
    """The picture of every demo and extreme, of every tire that a person could ask for."""
    drawn = []
    for name in (*DEMOS, *EXTREMES):
        episode, findings = case(name)
        entry = catalogue()[picture]
        wanted = [(), *((specimen.id,) for specimen in episode.specimens)] if entry.takes else [()]
        for specimens in wanted:
            try:
                data = entry.data(episode, findings, Request(specimens=specimens, units=episode.units))
            except CannotShow:
                continue
            drawn.append(entry.compose(data, FRAMES["wide"], shipped_looks()[look]))
    return drawn


@pytest.mark.parametrize("look", shipped_looks())
@pytest.mark.parametrize("deficiency", DEFICIENCIES)
def test_each_pair_of_verdicts_of_a_look_is_told_apart(look: str, deficiency: str) -> None:
    colors = [getattr(shipped_looks()[look].verdicts, verdict) for verdict in VERDICTS]
    assert min(apart(one, other, deficiency) for one, other in combinations(colors, 2)) >= LEAST_APART


@pytest.mark.parametrize("look", shipped_looks())
@pytest.mark.parametrize("picture", PICTURES)
def test_what_a_picture_draws_in_colours_of_verdicts_is_told_apart(picture: str, look: str) -> None:
    wrong = [line for scene in scenes(picture, look) for line in complaints(scene, shipped_looks()[look])]
    assert wrong == []


@pytest.mark.parametrize("look", shipped_looks().values(), ids=lambda look: look.id)
def test_every_fill_of_a_verdict_has_an_edge_or_a_second_sign(look: Look) -> None:
    """Alone on its ground a fill is told from that by its edge in ink, whatever the deficiency."""
    drawn: set[str] = set()
    for picture in PICTURES:
        for scene in scenes(picture, look.id):
            drawn |= fills(scene, look).keys()
            for shape in (shape for every in fills(scene, look).values() for shape in every):
                edged = shape.stroke is not None and shape.stroke.color in (look.ink, look.ground)
                assert edged or has_second_sign(shape, scene), f"{picture}: {shape.name}"
    assert drawn == set(VERDICTS)


@pytest.mark.parametrize("look", shipped_looks().values(), ids=lambda look: look.id)
def test_struck_out_rubber_is_told_from_the_rubber_that_is_left(look: Look) -> None:
    scene = scene_of(*case("feed_truck_three_hurt_tires"), "repair_zone", FRAMES["wide"], look)
    zone, rubber = scene.named("never/zone"), scene.named("section/rubber")
    assert isinstance(zone, Shape) and isinstance(rubber, Shape)
    assert isinstance(zone.fill, str) and isinstance(rubber.fill, str)
    for deficiency in ("", *DEFICIENCIES):
        assert apart(zone.fill, rubber.fill, deficiency) >= LEAST_APART
    assert any(mark.name == "never/hatch" for mark in scene.marks)


def test_two_colours_that_are_seen_as_one_would_be_noticed() -> None:
    look = shipped_looks()["chalk"]
    fills_ = msgspec.structs.replace(look.verdicts, replace="#B3543E", keep="#8A6A2A")
    alike = msgspec.structs.replace(look, verdicts=fills_)
    square = (("M", 0.0, 0.0), ("L", 9.0, 0.0), ("L", 9.0, 9.0), ("Z",))
    marks = tuple(Shape(name=name, outline=square, fill=fill) for name, fill in (("a", "#B3543E"), ("b", "#8A6A2A")))
    scene = Scene(picture="", frame=FRAMES["wide"], background=None, marks=marks)
    wrong = complaints(scene, alike)
    assert any("Deuteranomaly" in line for line in wrong) and any("in grey" in line for line in wrong)
