"""Depth by wheel: each number the finding's, bars to one scale and in true order, the worst tire decides."""

import itertools

import msgspec
import pytest

from studio.decide import decide
from studio.graphics.catalogue import CannotShow, Request
from studio.graphics.color import contrast
from studio.graphics.depth_by_wheel import DepthByWheel
from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES, Frame
from studio.graphics.look import shipped_looks
from studio.graphics.scene import Scene, Shape, Text
from studio.model.car import Car
from studio.model.quantity import length
from studio.model.specimen import Specimen
from studio.reference.tables import load_tables
from tests.decide.build import TENTHS, damage, episode, flat, four, reading, tire
from tests.graphics.lint import complaints

LOOKS = shipped_looks()
CAR = Car(wheelbase=length(2800), front_track=length(1600), rear_track=length(1590))
FRAMES_TRIED = {**FRAMES, "small": Frame(1280, 720), "slim": Frame(640, 1100), "captions": Frame(1080, 1920, True),
                "square captions": Frame(1080, 1080, True)}  # fmt: skip
UNEVEN = ((7, 7, 7), (6, 6, 6), (4, 4, 3))
SPARE = tire("spare", flat(4), marking="T145/80D17 107M")


def data(*specimens: Specimen, units="us", title="", **more):
    its = episode(*specimens, **{"car": CAR, **more})
    return DepthByWheel().data(its, decide(its, load_tables()), Request(units=units, title=title))


def drawn(*specimens: Specimen, frame=FRAMES["wide"], look="chalk", units="us", title="", **more) -> Scene:
    return DepthByWheel().compose(data(*specimens, units=units, title=title, **more), frame, LOOKS[look])


def text(scene: Scene, name: str) -> Text:
    mark = scene.named(name)
    assert isinstance(mark, Text)
    return mark


def shape(scene: Scene, name: str) -> Shape:
    mark = scene.named(name)
    assert isinstance(mark, Shape)
    return mark


def bars(scene: Scene, place: str) -> list[tuple[float, float, float, float]]:
    """The boxes of a wheel's bars from the left."""
    outline = shape(scene, f"{place}/chart/bars").outline
    starts = [index for index, command in enumerate(outline) if command[0] == "M"]
    pieces = [outline[a:b] for a, b in itertools.pairwise([*starts, len(outline)])]
    return sorted(bounds(piece) for piece in pieces)


def test_each_wheel_gives_its_lowest_reading_in_the_findings_words():
    scene = drawn(*four([9, 4, 5, 6]))
    said = {p: text(scene, f"{p}/depth").text for p in ("front_left", "front_right", "rear_left", "rear_right")}
    assert said == {"front_left": "9/32", "front_right": "4/32", "rear_left": "5/32", "rear_right": "6/32"}
    assert text(scene, "front_right/other").text == "3.2 mm"  # 4/32 in = 3.175 mm
    assert text(drawn(*four([9, 4, 5, 6]), units="metric"), "front_right/depth").text == "3.2"


def test_the_worst_tire_has_the_deciding_number_the_sentence_and_its_sign():
    scene = drawn(*four([9, 8, 2, 6]))
    roles = {mark.name: mark.role for mark in scene.texts if mark.name.endswith("/depth")}
    assert [name for name, role in roles.items() if role == "deciding"] == ["rear_left/depth"]
    assert scene.title.startswith("Rear left")
    assert any(mark.name.startswith("rear_left/sign/") for mark in scene.marks)


def test_damage_on_a_deep_tire_is_worse_than_a_shallower_sound_one():
    torn = tire("front_left", reading(((9, 9, 9),) * 3, damage=(damage("bulge"),)))
    scene = drawn(torn, *four([9, 5, 6, 6])[1:])
    assert text(scene, "front_left/depth").role == "deciding"


def test_bars_are_means_of_grooves_from_outer_to_inner_mirrored_on_the_right():
    scene = drawn(tire("front_left", reading(UNEVEN)), tire("front_right", reading(UNEVEN)))
    left = [bottom - top for _, top, _, bottom in bars(scene, "front_left")]
    right = [bottom - top for _, top, _, bottom in bars(scene, "front_right")]
    assert left == sorted(left, reverse=True) and right == sorted(right)
    assert left[1] / left[0] == pytest.approx(6 / 7, abs=0.01)
    assert left[2] / left[0] == pytest.approx((11 / 3) / 7, abs=0.01)
    assert right == pytest.approx(left[::-1])


def test_all_charts_have_one_scale_and_the_limit_stands_at_its_depth():
    scene = drawn(*four([9, 4, 5, 6]), SPARE)
    scales = set()
    for place, depth in (("front_left", 9), ("rear_right", 6), ("spare", 4)):
        floor = bounds(shape(scene, f"{place}/chart/floor").outline)[1]
        _, top, _, bottom = bars(scene, place)[0]
        assert bottom == pytest.approx(floor)
        scales.add(round((bottom - top) / depth, 3))
        limit = bounds(shape(scene, f"{place}/chart/limit").outline)[1]
        assert (floor - limit) / (bottom - top) == pytest.approx(2 / depth, abs=0.01)  # 49 CFR 570.9 (a): 2/32 in
    assert len(scales) == 1


def test_the_doubt_is_drawn_as_large_as_the_finding_says_on_the_lowest_groove():
    scene = drawn(tire("front_left", reading(UNEVEN)), *four([7, 7, 7, 7])[1:])
    _, top, _, bottom = bounds(shape(scene, "front_left/chart/doubt").outline)
    per_32nd = (lambda box: (box[3] - box[1]) / 7)(bars(scene, "front_left")[0])
    # half a step of 1/32 in (0.397 mm) and 0.2 mm by hand (common practice, no source): 0.597 mm = 0.752/32 in
    assert (bottom - top) / 2 / per_32nd == pytest.approx(0.752, abs=0.01)
    middle = sum(bounds(shape(scene, "front_left/chart/doubt").outline)[::2]) / 2
    innermost = bars(scene, "front_left")[2]
    assert innermost[0] < middle < innermost[2]


def test_the_key_names_the_law_and_whose_it_is_the_advice_and_the_doubt():
    scene = drawn(*four([9, 4, 5, 6]))
    said = " ".join(mark.text for mark in scene.texts if mark.name.startswith("key/"))
    assert "2/32 in" in said and "law, United States" in said
    assert "4/32 in" in said and "wet-road advice" in said and "±0.8/32 in" in said
    german = drawn(*four([7, 4, 5, 6], unit="mm", gauge=TENTHS), units="metric", region="de")
    said = " ".join(mark.text for mark in german.texts if mark.name.startswith("key/"))
    assert "1.6 mm" in said and "law, Germany" in said


def test_a_wheel_without_a_reading_says_so_and_one_without_a_tire_is_left_out():
    scene = drawn(tire("front_left"), tire("front_right", flat(5)))
    assert text(scene, "front_left/other").text == "not measured"
    assert not [mark for mark in scene.marks if mark.name.startswith("front_left/chart")]
    assert not [mark for mark in scene.texts if mark.name.startswith("rear_left")]


def test_nothing_measured_is_refused_in_one_sentence():
    with pytest.raises(CannotShow, match="no tire on the car has a depth reading yet"):
        data(tire("front_left"), tire("bench", flat(5), id="bench_tire"))


def test_steps_go_round_the_car_then_limits_then_the_number():
    scene = drawn(*four([9, 4, 5, 6]))
    assert scene.steps == ("the car", "front left", "front right", "rear left", "rear right", "the limits",
                           "the number that decides")  # fmt: skip
    assert text(scene, "front_right/depth").step == 6
    assert shape(scene, "front_right/chart/bars").step == 2
    assert shape(scene, "rear_left/chart/limit").step == 5
    assert text(scene, "front/word").step == 0


def test_the_wheels_are_to_the_scale_of_wheelbase_and_size():
    scene = drawn(*four([9, 4, 5, 6]))
    front, rear = (bounds(shape(scene, f"tires/{place}/tire").outline) for place in ("front_left", "rear_left"))
    base = (rear[1] + rear[3] - front[1] - front[3]) / 2
    # 225/60R17: 225 mm wide, 17 x 25.4 + 2 x 0.6 x 225 = 701.8 mm high (UN Regulation No. 30, 6.1)
    assert (front[3] - front[1]) / base == pytest.approx(701.8 / 2800, abs=0.002)
    assert (front[2] - front[0]) / base == pytest.approx(225 / 2800, abs=0.002)


def test_pointers_end_at_their_tires():
    for frame in FRAMES.values():
        scene = drawn(*four([9, 4, 5, 6]), frame=frame)
        for place in ("front_left", "rear_right"):
            x, y = shape(scene, f"{place}/pointer").outline[-1][-2:]
            left, top, right, bottom = bounds(shape(scene, f"tires/{place}/tire").outline)
            assert left - 0.5 <= x <= right + 0.5 and top < y < bottom


def test_the_presenters_title_replaces_the_sentence_but_not_the_caution():
    scene = drawn(*four([9, 4, 5, 6]), title="Look at the front right one")
    assert scene.title == "Look at the front right one"
    assert any(mark.name.startswith("caution") for mark in scene.texts)


@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize("frame", FRAMES_TRIED.values(), ids=FRAMES_TRIED)
@pytest.mark.parametrize(
    "specimens",
    [four([0, 0.5, 10.5, 12]), (*four([2, 3, 10.5, 12]), SPARE), (tire("rear_left", flat(5)),),
     (*four([9, 4, 5, 6])[:2], tire("rear_left"), SPARE)],
    ids=["worn out", "with a spare", "one tire", "one not measured"],
)  # fmt: skip
def test_nothing_lies_over_anything_in_any_frame_and_look(specimens, frame, look):
    assert complaints(drawn(*specimens, frame=frame, look=look)) == []


@pytest.mark.parametrize("look", LOOKS)
def test_bars_are_told_from_their_ground_by_an_ink_outline(look):
    scene = drawn(*four([9, 4, 5, 2]), look=look)
    for place in ("front_left", "front_right", "rear_right"):
        pen = shape(scene, f"{place}/chart/bars").stroke
        assert pen.color == LOOKS[look].ink and contrast(pen.color, LOOKS[look].ground) >= 3.0


def test_the_same_episode_gives_the_same_scene():
    assert msgspec.json.encode(drawn(*four([9, 4, 5, 6]))) == msgspec.json.encode(drawn(*four([9, 4, 5, 6])))
