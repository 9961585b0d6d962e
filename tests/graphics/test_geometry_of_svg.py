"""What is measured in the exported SVG agrees with the findings to half a px, at the scale that the picture states.

A scale is never taken from the program: it is read off the drawing (an axis, a dimension line, a known width) and every
other length must fit it. Expected lengths are the findings' figures.
"""

import re

import pytest

from studio.decide import decide
from studio.graphics.catalogue import CannotShow, Request, catalogue
from studio.graphics.frame import FRAMES, Frame
from studio.graphics.look import shipped_looks
from studio.graphics.scene import Scene
from studio.model.finding import Finding
from studio.reference.tables import load_tables
from tests.graphics.damage_samples import hurt
from tests.graphics.extremes import EXTREMES
from tests.graphics.svg_measure import Drawing
from tests.graphics.test_every_picture import DEMOS, case

HALF_A_PX = 0.5
FLANGE_MM = 17.3  # height of a J flange above the rim's nominal diameter, from memory (ETRTO rim contours)
CASES = [(name, shape) for name in (*DEMOS, *EXTREMES) for shape in FRAMES]
every_case = pytest.mark.parametrize(("name", "shape"), CASES)


def drawn(picture: str, name: str, shape: str, **request: object) -> tuple[Drawing, Scene, dict[str, Finding]]:
    """The exported drawing with the findings by id."""
    episode, findings = case(name)
    entry, frame = catalogue()[picture], FRAMES.get(shape, Frame(1280, 720))
    try:
        data = entry.data(episode, findings, Request(units=episode.units, **request))  # type: ignore[arg-type]
    except CannotShow as reason:
        pytest.skip(f"{picture} of {name}: {reason}")
    scene = entry.compose(data, frame, shipped_looks()["chalk"])
    return Drawing(scene), scene, {finding.id: finding for finding in findings}


def mm(finding: Finding, name: str) -> float:
    quantity = finding.figure(name)
    assert quantity is not None, f"{finding.id} has no figure {name}"
    return quantity.to("mm").value


def near(px: float, slack: float = HALF_A_PX) -> object:
    return pytest.approx(px, abs=slack)


def near_all(lengths_mm: list[float], scale: float) -> list[object]:
    return [near(length * scale) for length in lengths_mm]


@every_case
def test_cross_section(name: str, shape: str) -> None:
    drawing, scene, findings = drawn("cross_section", name, shape)
    size = findings[scene.findings[0]]
    rubber, axis = drawing.box("section-rubber"), drawing.box("axis-line").top
    scale = rubber.width / mm(size, "section_width")
    assert drawing.box("section_height-arrows").height == near(mm(size, "section_height") * scale)
    assert axis - drawing.box("overall_diameter-arrows").top == near(mm(size, "overall_diameter") / 2 * scale)
    assert axis - drawing.box("rim_diameter-arrows").top == near(mm(size, "rim_diameter") / 2 * scale)
    if drawing.has("lens-depth-arrows"):
        depth = mm(findings[scene.findings[1]], "depth")
        times = int(drawing.text("scale-lens").split()[0])
        assert drawing.box("lens-depth-arrows").height == near(depth * scale * times)


@every_case
def test_size_code(name: str, shape: str) -> None:
    """The tire and its rim are to one scale."""
    drawing, scene, findings = drawn("size_code", name, shape)
    size = findings[scene.findings[0]]
    scale = drawing.box("tire-wheel-flange").width / (mm(size, "rim_diameter") + 2 * FLANGE_MM)
    radius = drawing.radius("tire-tread-crown", about="tire-wheel-flange")
    assert radius == near(mm(size, "overall_diameter") / 2 * scale)


@every_case
def test_sizes_beside(name: str, shape: str) -> None:
    """All tires stand on one line, to one scale; the step between the last two is their difference."""
    drawing, scene, findings = drawn("sizes_beside", name, shape)
    shown = [findings[id_] for id_ in scene.findings]
    scales = {}
    for id_ in drawing.ids(r".*-diameter-arrows"):
        tire = id_.removesuffix("-diameter-arrows")
        arrows = drawing.box(id_)
        tread = next(f"{tire}-tire-{part}" for part in ("tread-crown", "tread") if drawing.has(f"{tire}-tire-{part}"))
        said = next(drawing.text(line) for line in drawing.ids(rf"{tire}-line\d") if "R" in drawing.text(line)
                    or "D" in drawing.text(line))  # fmt: skip
        diameter = _diameter(tire, said, shown, findings)
        scales[tire] = arrows.height / diameter
        assert drawing.radius(tread, about=f"{tire}-tire-wheel-flange") == near(arrows.height / 2)
        assert arrows.bottom == near(drawing.box("ground").top, 1.0)
    assert len(scales) >= 2
    longest = max(drawing.box(f"{tire}-diameter-arrows").height for tire in scales)
    for tire, scale in scales.items():
        assert scale / next(iter(scales.values())) == pytest.approx(1, abs=HALF_A_PX / longest * 2), tire


def _diameter(tire: str, said: str, shown: list[Finding], findings: dict[str, Finding]) -> float:
    """A tire's diameter: its own figure in what is shown, else that of its size."""
    for finding in shown:
        if finding.figure(f"diameter_{tire}"):
            return mm(finding, f"diameter_{tire}")
    sizes = [finding for finding in findings.values() if finding.topic == "size" and finding.word("size") == said]
    assert sizes, f"no finding has the diameter of {tire} ({said})"
    return mm(sizes[0], "overall_diameter")


@every_case
def test_axle_match(name: str, shape: str) -> None:
    """Circumferences to one scale; what they differ by, and what is allowed, enlarged as many times as is stated."""
    drawing, scene, findings = drawn("axle_match", name, shape)
    its = findings[scene.findings[0]]
    if not drawing.has("scale-times"):
        pytest.skip("the frame has no room for the turn")
    stated = re.search(r"(\d+)", drawing.text("scale-times"))  # without a number: to scale
    times = int(stated[1]) if stated else 1
    around = {place: drawing.box(id_).width for id_ in drawing.ids(r"lane-\w+-unrolled")
              for place in (id_.removeprefix("lane-").removesuffix("-unrolled"),)}  # fmt: skip
    deepest, other = its.word("deepest"), its.word("shallowest")
    scale = around[deepest] / (mm(its, f"diameter_{deepest}") * 3.141592653589793)
    apart = mm(its, f"diameter_{deepest}") - mm(its, f"diameter_{other}")
    assert around[deepest] - around[other] == near(apart * 3.141592653589793 * scale * times)
    if drawing.has("finish-allowed"):
        allowed = mm(its, "tolerance_circumference") * scale * times
        assert drawing.box("finish-allowed").width == near(allowed)


@every_case
def test_depth_compare(name: str, shape: str) -> None:
    """The axis gives the scale: each tread's top, and each limit, stands at its depth."""
    drawing, scene, findings = drawn("depth_compare", name, shape)
    zero, unit = _axis(drawing)
    for id_ in scene.findings:
        its = findings[id_]
        column = f"{its.subject}-tread-rubber"
        if drawing.has(column):
            assert zero - drawing.box(column).top == near(mm(its, "depth") * unit)
    tread = findings[scene.findings[0]]
    for line in ("legal_minimum", "wet_advice"):
        if drawing.has(f"{line}-line") and tread.figure(line):
            assert zero - drawing.box(f"{line}-line").top == near(mm(tread, line) * unit)


def _axis(drawing: Drawing) -> tuple[float, float]:
    """The y of zero on a depth axis and the px of a millimetre, read off its numbers."""
    numbers = sorted(int(id_.removeprefix("axis-")) for id_ in drawing.ids(r"axis-\d+"))
    low, high = numbers[0], numbers[-1]
    px = (drawing.baseline(f"axis-{low}") - drawing.baseline(f"axis-{high}")) / (high - low)
    unit = 25.4 / 32 if "32" in drawing.text("axis-unit") else 1.0
    zero = drawing.box("axis-ticks").bottom
    assert low == 0
    return zero, px / unit


@every_case
def test_depth_by_wheel(name: str, shape: str) -> None:
    """The limit's line gives the scale; each bar of a chart is its groove's mean, from left to right."""
    drawing, scene, findings = drawn("depth_by_wheel", name, shape)
    checked = 0
    for id_ in scene.findings:
        its = findings[id_]
        chart = f"{its.subject}-chart"
        if not drawing.has(f"{chart}-bars") or not drawing.has(f"{chart}-limit") or its.limit is None:
            continue
        floor = drawing.box(f"{chart}-floor").top
        limit = mm(its, "legal_minimum")
        scale = (floor - drawing.box(f"{chart}-limit").top) / limit
        parts = sorted(drawing.points(f"{chart}-bars"))
        bars = [floor - min(y for _, y in part) for part in parts]
        means = [figure.quantity.to("mm").value for figure in its.figures if figure.name.startswith("groove_")]
        assert bars in (near_all(means, scale), near_all(means[::-1], scale))
        checked += 1
    assert checked or shape != "wide"


@every_case
def test_coins(name: str, shape: str) -> None:
    """Coins to one scale by their true diameters; the depth that each shows, at that scale."""
    drawing, scene, findings = drawn("coins", name, shape)
    scales = []
    for id_ in scene.findings:
        its, coin = findings[id_], id_.removeprefix("gauges.")
        if not drawing.has(f"{coin}-disc") or not its.figure("coin_diameter"):
            continue
        disc = drawing.box(f"{coin}-disc")
        scales.append(disc.width / mm(its, "coin_diameter"))
        if drawing.has(f"{coin}-depth"):
            shown = disc.bottom - drawing.box(f"{coin}-depth").top
            assert shown == near(mm(its, "shown_at") * scales[-1])
    assert scales and max(scales) == pytest.approx(min(scales), rel=1e-3)


@every_case
def test_wear_bars(name: str, shape: str) -> None:
    drawing, scene, findings = drawn("wear_bars", name, shape)
    zero, unit = _axis(drawing)
    its = findings[scene.findings[0]]
    assert zero - drawing.box("bar-line").top == near(mm(its, "shown_at") * unit)
    if drawing.has("this-tire-rubber") and mm(its, "depth") * unit <= zero - drawing.box("axis-ticks").top:
        assert zero - drawing.box("this-tire-rubber").top == near(mm(its, "depth") * unit)


@every_case
def test_repair_zone(name: str, shape: str) -> None:
    drawing, scene, findings = drawn("repair_zone", name, shape)
    its, size = findings[scene.findings[0]], findings[scene.findings[1]]
    scale = drawing.box("section-rubber").width / mm(size, "section_width")
    if not drawing.has("crown-left-arrows"):
        assert its.word("repairable") == "no"
        return
    for side in ("left", "right"):
        assert drawing.box(f"crown-{side}-arrows").width == near(mm(its, "crown_half_width") * scale)
    limits = drawing.box("crown-limits")
    assert limits.width == near(mm(its, "crown_width") * scale)


@pytest.mark.parametrize("shape", FRAMES)
@pytest.mark.parametrize(("kind", "size_mm"), [("cut", 18.0), ("bulge", 45.0), ("cord", 12.0)])
def test_damage(kind: str, size_mm: float, shape: str) -> None:
    """The glass states how many times larger than the tire it shows: the tire's scale is read off its rim."""
    its = hurt(kind, "sidewall", size_mm)  # type: ignore[arg-type]
    entry = catalogue()["damage"]
    data = entry.data(its, decide(its, load_tables()), Request())
    drawing = Drawing(entry.compose(data, FRAMES[shape], shipped_looks()["chalk"]))
    scale = drawing.box("tire-wheel-flange").width / (17 * 25.4 + 2 * FLANGE_MM)  # 225/60R17
    said = drawing.text("scale-glass")
    times = 1 if said == "to scale" else int(said.split()[0])
    (ax, ay), (bx, by) = (part[0] for part in drawing.points("size-arrows"))
    assert ((ax - bx) ** 2 + (ay - by) ** 2) ** 0.5 == near(size_mm * scale * times)


def test_a_drawing_off_its_scale_would_be_noticed() -> None:
    drawing, scene, findings = drawn("cross_section", "minivan_one_new_tire", "wide")
    size = findings[scene.findings[0]]
    scale = drawing.box("section-rubber").width / mm(size, "section_width")
    assert drawing.box("section_height-arrows").height != near((mm(size, "section_height") + 1) * scale)
