"""Damage: drawn where it was seen, to scale where it was measured; what condemns, the caution and the referral told."""

import math
from typing import get_args

import pytest

from studio.decide import decide
from studio.graphics.catalogue import CannotShow, Request
from studio.graphics.damage import DamageSeen
from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES, Frame
from studio.graphics.look import shipped_looks
from studio.graphics.parts.tire_face import Face, sidewall_of
from studio.graphics.scene import Scene, Shape, Text
from studio.model.episode import Episode
from studio.model.quantity import length
from studio.model.specimen import Damage, DamageKind, Zone
from studio.reference.tables import load_tables
from tests.decide.build import episode, flat, tire
from tests.graphics.damage_samples import DAMAGED, USUAL_MM, hurt
from tests.graphics.lint import complaints, unbacked_numbers

LOOKS = shipped_looks()
SHAPES = {**FRAMES, "small": Frame(1280, 720), "slim": Frame(640, 1100),
          "captions": Frame(1920, 1080, captions=True), "low": Frame(1080, 1920, captions=True)}  # fmt: skip
KINDS, ZONES = get_args(DamageKind), get_args(Zone)
CONDEMNS = ("cord", "bulge", "separation")  # Illinois 92 Adm. Code 428.20 (a), (b)


def drawn(its: Episode, frame=FRAMES["wide"], look="chalk", **request) -> Scene:
    picture = DamageSeen()
    return picture.compose(picture.data(its, decide(its, load_tables()), Request(**request)), frame, LOOKS[look])


def box(scene, name):
    mark = scene.named(name)
    assert isinstance(mark, Shape)
    return bounds(mark.outline)


def said(scene, name=""):
    return " ".join(text.text for text in scene.texts if text.name.startswith(name))


def middle(scene, name):
    left, top, right, bottom = box(scene, name)
    return (left + right) / 2, (top + bottom) / 2


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("shape", SHAPES)
def test_nothing_overlaps_or_leaves_the_safe_area(kind, shape):
    for look in LOOKS if shape == "wide" else ("night_bay",):
        scene = drawn(DAMAGED[kind], SHAPES[shape], look)
        assert complaints(scene) == []
        assert not [text.text for text in scene.texts if "…" in text.text and not text.name.startswith("sentence")]


@pytest.mark.parametrize("zone", ZONES)
@pytest.mark.parametrize("shape", ["wide", "slim", "low"])
@pytest.mark.parametrize("marking", ["155R13 78S", "LT315/75R16 127/124Q", ""])
def test_it_holds_in_every_zone_of_every_tire(zone, shape, marking):
    assert complaints(drawn(hurt("puncture", zone, marking=marking), SHAPES[shape])) == []


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("kind", KINDS)
def test_the_glass_lies_whole_within_the_safe_area(shape, kind):
    frame = SHAPES[shape]
    left, top, right, bottom = box(drawn(DAMAGED[kind], frame), "glass/rim")
    safe = frame.titles
    assert safe.left <= left and right <= safe.right and safe.top <= top and bottom <= safe.bottom


@pytest.mark.parametrize("kind", [kind for kind, (_, size) in USUAL_MM.items() if size])
@pytest.mark.parametrize("shape", ["wide", "tall", "square"])
def test_a_measured_damage_is_as_many_times_larger_than_the_tire_as_the_glass_says(kind, shape):
    frame = SHAPES[shape]
    scene = drawn(DAMAGED[kind], frame)
    words = scene.named("scale/glass")
    assert isinstance(words, Text)
    if words.text == "not to scale":  # larger than the glass: then no length is drawn
        assert not any(mark.name.startswith("size/arrows") for mark in scene.marks)
        return
    times = 1 if words.text == "to scale" else int(words.text.split()[0])
    left, _, right, _ = box(scene, "tire/tire" if USUAL_MM[kind][0] == "crown" else "tire/tread/grooves")
    # 225/60R17: 2 x 135 + 431.8 mm across (UN R30 6.1), 225 mm wide
    from_above = USUAL_MM[kind][0] == "crown"
    scale = (right - left) / 701.8 if from_above else face_of(scene).scale
    points = [command[1:] for command in scene.named("size/arrows").outline if len(command) > 1]
    drawn_long = max(math.dist(a, b) for a in points for b in points)
    assert drawn_long == pytest.approx(USUAL_MM[kind][1] * scale * times, abs=0.5)


def face_of(scene: Scene) -> Face:
    """The face that the picture's tire was drawn from, by its flange: J flange 17.3 mm above the rim's 431.8 / 2 mm."""
    left, top, right, bottom = box(scene, "tire/wheel/flange")
    scale = (right - left) / 2 / (431.8 / 2 + 17.3)
    return Face(outer_mm=701.8, rim_mm=431.8, scale=scale, center=((left + right) / 2, (top + bottom) / 2))


@pytest.mark.parametrize("zone", ["shoulder", "sidewall", "bead"])
@pytest.mark.parametrize("shape", ["wide", "tall", "square"])
def test_the_glass_lies_on_the_zone_where_it_was_seen(zone, shape):
    scene = drawn(hurt("cut", zone), SHAPES[shape])
    face = face_of(scene)
    side, away = sidewall_of(face), math.dist(middle(scene, "glass/rim"), face.center)
    bands = {"shoulder": (side.block_foot, side.crown), "sidewall": (side.lower_rib, side.upper_rib),
             "bead": (side.flange, side.lower_rib)}  # fmt: skip
    assert bands[zone][0] <= away <= bands[zone][1]


def test_damage_of_the_crown_is_shown_from_above_on_the_tread():
    scene = drawn(hurt("puncture", "crown"))
    left, top, right, bottom = box(scene, "tire/blocks")
    x, y = middle(scene, "glass/rim")
    assert left < x < right and top < y < bottom


def test_where_the_zone_is_not_known_the_glass_lies_off_the_sidewall_and_it_says_so():
    scene = drawn(hurt("cut", "unknown"))
    assert "not recorded" in said(scene)
    face = face_of(scene)
    assert math.dist(middle(scene, "glass/rim"), face.center) > face.radius


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("shape", SHAPES)
def test_what_it_means_what_not_to_do_and_the_referral_are_always_there(kind, shape):
    its = DAMAGED[kind]
    scene = drawn(its, SHAPES[shape])
    finding = decide(its, load_tables()).get("condition.rear_left")
    assert said(scene, "meaning/line1") and said(scene, "avoid/line1")
    assert "qualified tire professional" in said(scene)
    assert said(scene, "caution") == finding.caution


@pytest.mark.parametrize("kind", CONDEMNS)
@pytest.mark.parametrize("zone", ZONES)
def test_illinois_428_20_what_condemns_a_tire_is_never_made_less_of(kind, zone):
    scene = drawn(hurt(kind, zone))
    assert "Do not drive on it: replace it." in scene.title
    assert "do not drive on it" in said(scene, "avoid")
    assert any(mark.name.startswith("verdict/bar") for mark in scene.marks)  # the sign of replace


def test_the_gravest_tire_is_shown_unless_another_is_asked_for_and_other_damage_is_named():
    cut, bulge = Damage(kind="cut", zone="sidewall", size=length(12)), Damage(kind="bulge", zone="sidewall")
    its = episode(tire("front_left", flat(8, damage=(cut,))), tire("rear_right", flat(8, damage=(cut, bulge))))
    scene = drawn(its)
    assert scene.findings[0] == "condition.rear_right" and "a cut in the sidewall" in scene.alternative
    assert drawn(its, specimens=("front_left",)).findings[0] == "condition.front_left"


def test_where_no_damage_was_recorded_nothing_is_shown():
    its = episode(tire("front_left", flat(8)))
    for request in ({}, {"specimens": ("front_left",)}):
        with pytest.raises(CannotShow, match="no damage was recorded"):
            drawn(its, **request)


@pytest.mark.parametrize("kind", KINDS)
def test_every_number_is_a_findings_number(kind):
    scene = drawn(DAMAGED[kind])
    shown = [finding for finding in decide(DAMAGED[kind], load_tables()) if finding.id in scene.findings]
    assert unbacked_numbers(scene, shown) == []


@pytest.mark.parametrize("kind", KINDS)
def test_each_kind_looks_like_itself(kind):
    names = {mark.name for mark in drawn(DAMAGED[kind]).marks if mark.name.startswith("damage/")}
    others = [{mark.name for mark in drawn(DAMAGED[other]).marks if mark.name.startswith("damage/")}
              for other in KINDS if other != kind]  # fmt: skip
    assert names and names not in others
