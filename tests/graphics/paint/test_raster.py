"""The pixels of a scene, read back with Pillow."""

import io
import math
import subprocess
import sys
from pathlib import Path

import pytest
from msgspec.structs import replace
from PIL import Image, ImageChops, ImageCms, ImageStat
from PySide6.QtGui import QColor, QImage, QPainter

from studio.graphics import draw
from studio.graphics.frame import FRAMES, Frame
from studio.graphics.layout.text import box, font_size
from studio.graphics.paint.raster import image, paint, png, save_png
from studio.graphics.scene import Linear, Radial, Scene, Shape, Stroke
from tests.graphics.paint.samples import INK, PAPER, RED, along, decoded, everything, line, pixels, scene, square

_ALONE = """
import hashlib
from PySide6.QtGui import QGuiApplication
from studio.graphics.paint.raster import png
from tests.graphics.paint.samples import everything
print(hashlib.sha256(png(everything())).hexdigest(), QGuiApplication.instance())
"""


def at(made: Scene, x: float, y: float) -> tuple[int, ...]:
    found = decoded(png(made)).getpixel((round(x), round(y)))
    assert isinstance(found, tuple)
    return found


@pytest.mark.parametrize("frame", [*FRAMES.values(), Frame(3840, 2160), Frame(333, 421)], ids=str)
def test_a_png_is_exactly_the_frame_in_8_bit_straight_rgba(frame: Frame) -> None:
    read = decoded(png(scene(square(10, 10, 200, fill=RED), frame=frame)))
    assert (read.mode, read.size) == ("RGBA", (frame.width, frame.height))


@pytest.mark.parametrize("background", [PAPER, None])
def test_a_png_holds_the_pixels_of_the_image(background: str | None) -> None:
    made = everything(background)
    assert decoded(png(made)).tobytes() == pixels(image(made)).tobytes()


def test_the_profile_is_srgb() -> None:
    """The curve at code 128: (128/255 + 0.055)/1.055 to the 2.4 (IEC 61966-2-1), seen through Little CMS."""
    profile = ImageCms.ImageCmsProfile(io.BytesIO(decoded(png(everything())).info["icc_profile"]))
    assert "sRGB" in ImageCms.getProfileDescription(profile)
    own, flat = ImageCms.createProfile("sRGB"), Image.new("RGB", (3, 1))
    for order, color in enumerate(((128, 128, 128), (200, 30, 90), (10, 250, 120))):
        flat.putpixel((order, 0), color)
    turned = ImageCms.profileToProfile(flat, profile, own, renderingIntent=ImageCms.Intent.RELATIVE_COLORIMETRIC)
    assert turned is not None
    assert max(high for _, high in ImageChops.difference(flat, turned).getextrema()) <= 1  # type: ignore[misc]
    assert profile.profile.creation_date is not None


def test_the_same_scene_gives_the_same_bytes_in_another_process_and_without_an_application() -> None:
    runs = [
        subprocess.run([sys.executable, "-c", _ALONE], capture_output=True, text=True, check=True).stdout.split()
        for _ in range(2)
    ]
    assert runs[0] == runs[1]
    assert runs[0][1] == "None"
    first = png(everything())
    assert png(everything()) == first


def test_an_opaque_picture_has_no_transparency_and_a_clear_one_straight_alpha() -> None:
    assert decoded(png(everything())).getchannel("A").getextrema() == (255, 255)
    made = scene(square(10, 10, 50, fill="#FF800080"), background=None)
    assert at(made, 30, 30) == pytest.approx((255, 128, 0, 128), abs=1)
    assert at(made, 200, 200)[3] == 0
    assert image(made).format() == QImage.Format.Format_ARGB32
    assert image(everything()).format() == QImage.Format.Format_RGB32


@pytest.mark.parametrize("behind", ["#000000", "#FFFFFF", "#00B140"])
def test_a_clear_picture_has_no_fringe_over_anything(behind: str) -> None:
    """Laid over a colour by Pillow it is the picture that was painted on that colour."""
    clear, direct = decoded(png(everything(None))), decoded(png(everything(behind)))
    laid = Image.alpha_composite(Image.new("RGBA", clear.size, behind), clear)
    difference = ImageChops.difference(laid.convert("RGB"), direct.convert("RGB"))
    assert max(high for _, high in difference.getextrema()) <= 3  # type: ignore[misc]


def test_the_edge_of_a_letter_has_the_letters_colour() -> None:
    clear = decoded(png(scene(line("Saw", fill="#FFFFFF"), background=None)))
    seen = {pixel[:3] for _, pixel in clear.getcolors(100_000) if pixel[3] > 0}  # type: ignore[union-attr, index]
    assert seen == {(255, 255, 255)}


def test_a_linear_gradient_runs_evenly_and_stays_at_its_ends() -> None:
    shade = Linear((100, 0), (300, 0), ((0, "#000000"), (1, "#FF8000")))
    made = scene(Shape(name="bar", outline=draw.rectangle(0, 0, 480, 270), fill=shade))
    assert at(made, 50, 100)[:3] == (0, 0, 0)
    assert at(made, 200, 100)[:3] == pytest.approx((128, 64, 0), abs=3)
    assert at(made, 400, 100)[:3] == (255, 128, 0)


def test_a_radial_gradient_fades_from_its_centre() -> None:
    shade = Radial((240, 135), 100, ((0, "#204060FF"), (1, "#20406000")))
    made = scene(Shape(name="spot", outline=draw.circle((240, 135), 110), fill=shade), background=None)
    assert at(made, 240, 135)[3] == pytest.approx(255, abs=4)
    assert at(made, 290, 135)[3] == pytest.approx(128, abs=4)
    assert at(made, 345, 135)[3] == 0


def test_even_odd_leaves_a_hole_and_winding_does_not() -> None:
    outline = draw.rectangle(50, 50, 100, 100) + draw.rectangle(80, 80, 40, 40)
    assert at(scene(Shape(name="a", outline=outline, fill=RED, even_odd=True)), 100, 100)[:3] == (0xF5, 0xF2, 0xEB)
    assert at(scene(Shape(name="a", outline=outline, fill=RED)), 100, 100)[:3] == (0xD0, 0x20, 0x20)


def test_a_clip_bounds_its_own_mark_only() -> None:
    clipped = square(0, 0, 200, fill=RED, clip=draw.rectangle(0, 0, 100, 270))
    made = scene(clipped, square(300, 0, 100, fill=RED), background=None)
    assert [at(made, x, 50)[3] for x in (50, 150, 350)] == [255, 0, 255]


@pytest.mark.parametrize(("dash", "painted"), [((12, 8), (255, 0, 255)), ((10,), (255, 0, 255)), ((), (255,) * 3)])
def test_dashes_are_counted_in_px(dash: tuple[float, ...], painted: tuple[int, ...]) -> None:
    stroke = Stroke(INK, 4, dash=dash, cap="flat")
    made = scene(Shape(name="a", outline=draw.polyline(((100, 100), (400, 100))), stroke=stroke), background=None)
    assert tuple(at(made, 100 + x, 100)[3] for x in (5, 15, 25)) == painted


@pytest.mark.parametrize(("cap", "reach"), [("flat", 0), ("round", 10)])
def test_a_line_is_as_wide_and_as_long_as_it_says(cap: str, reach: int) -> None:
    stroke = Stroke(INK, 20, cap=cap)  # type: ignore[arg-type]
    made = scene(Shape(name="a", outline=draw.polyline(((100, 100), (200, 100))), stroke=stroke), background=None)
    assert decoded(png(made)).getchannel("A").getbbox() == (100 - reach, 90, 200 + reach, 110)


def test_a_line_of_no_width_is_not_drawn() -> None:
    made = scene(square(100, 100, 50, stroke=Stroke(INK, 0)), background=None)
    assert decoded(png(made)).getchannel("A").getbbox() is None


@pytest.mark.parametrize(("anchor", "left"), [("start", 240), ("middle", 240 - 0.5), ("end", 240 - 1)])
def test_letters_stand_in_the_box_that_was_measured(anchor: str, left: float) -> None:
    mark = line("HH", at=(240.0, 150.0), cap_height=60.0, anchor=anchor)
    inked = decoded(png(scene(mark, background=None))).getchannel("A").getbbox()
    measured = box(mark)
    assert inked is not None
    assert (inked[1], inked[3]) == (90, 150)
    assert measured.left == pytest.approx(240 - (240 - left) * measured.width)
    bearing = measured.width * 0.1
    assert measured.left < inked[0] < measured.left + bearing
    assert measured.right - bearing < inked[2] < measured.right


def test_a_halo_reaches_at_least_0_12_em_and_lies_behind_the_letter() -> None:
    mark = line("I", at=(240.0, 200.0), cap_height=100.0, halo="#FFFFFF", fill=INK, weight="bold")
    bare = decoded(png(scene(line("I", at=(240.0, 200.0), cap_height=100.0, weight="bold"), background=None)))
    inked = bare.getchannel("A").getbbox()
    assert inked is not None
    edge, em, made = inked[2], font_size(100.0), scene(mark, background=None)
    assert at(made, edge + 0.12 * em - 2, 150) == (255, 255, 255, 255)
    assert at(made, edge + 0.2 * em, 150)[3] == 0
    assert at(made, (inked[0] + inked[2]) / 2, 150) == (0x1A, 0x1D, 0x21, 255)


@pytest.mark.parametrize("sign", [chr(code) for code in range(0x21, 0x7F)] + list("⅜≈≤≥→Δ⌀é\u6f22"))
def test_a_halo_is_the_letter_made_wider_all_round(sign: str) -> None:
    """Every px within 0.12 em of ink (less the px of rounding) is covered, none beyond 0.18 em."""
    mark = line(sign, at=(180.0, 190.0), cap_height=110.0)
    bare, haloed = (
        decoded(png(scene(each, background=None))).getchannel("A").point(lambda alpha: 255 * (alpha > 127))
        for each in (mark, replace(mark, halo="#FFFFFF"))
    )
    em = font_size(110.0)
    least, most = _grown(bare, 0.12 * em - 1), _grown(bare, 0.18 * em)
    assert ImageChops.subtract(least, haloed).getbbox() is None
    assert ImageChops.subtract(haloed, most).getbbox() is None


def _grown(mask: Image.Image, by: float) -> Image.Image:
    """``mask`` with every px within ``by`` px of it."""
    grown = mask.copy()
    for degrees in range(0, 360, 6):
        for reach in (by / 3, by * 2 / 3, by):
            turn = math.radians(degrees)
            moved = ImageChops.offset(mask, round(reach * math.cos(turn)), round(reach * math.sin(turn)))
            grown = ImageChops.lighter(grown, moved)
    return grown


@pytest.mark.parametrize(("angle", "side"), [(0, "top"), (90, "right"), (180, "bottom"), (270, "left")])
@pytest.mark.parametrize("inward", [False, True])
def test_text_along_an_arc_lies_where_its_angle_says(angle: float, side: str, inward: bool) -> None:
    made = scene(along("IIIII", angle=float(angle), inward=inward), background=None)
    inked = decoded(png(made)).getchannel("A").getbbox()
    assert inked is not None
    x, y = (inked[0] + inked[2]) / 2 - 240, (inked[1] + inked[3]) / 2 - 135
    reach = 90 + (-10 if inward else 10)
    expected = {"top": (0, -reach), "right": (reach, 0), "bottom": (0, reach), "left": (-reach, 0)}[side]
    assert (x, y) == pytest.approx(expected, abs=5)


def test_a_sign_that_no_font_has_is_a_hollow_box() -> None:
    mark = line("\u6f22", cap_height=100.0, at=(200.0, 200.0))
    inked = decoded(png(scene(mark, background=None))).getchannel("A")
    around = inked.getbbox()
    assert around is not None
    assert around[3] - around[1] > 80
    assert inked.getpixel(((around[0] + around[2]) // 2, (around[1] + around[3]) // 2)) == 0


def test_another_size_is_the_same_picture_smaller() -> None:
    small, large = (pixels(image(everything(), size)).convert("RGB") for size in ((240, 135), None))
    assert small.size == (240, 135)
    difference = ImageChops.difference(small, large.resize((240, 135), Image.Resampling.BOX))
    assert max(ImageStat.Stat(difference).mean) < 3


def test_painting_leaves_the_painter_as_it_was_and_stays_inside_the_frame() -> None:
    device = QImage(600, 400, QImage.Format.Format_RGB32)
    device.fill(QColor("#FFFFFF"))
    painter = QPainter(device)
    painter.translate(20, 30)
    before = painter.transform()
    paint(painter, scene(square(-50, -50, 5000, fill=RED)), scale=0.5)
    assert painter.transform() == before
    assert not painter.hasClipping()
    painter.end()
    seen = ImageChops.difference(pixels(device).convert("RGB"), Image.new("RGB", (600, 400), "#FFFFFF"))
    assert seen.getbbox() == (20, 30, 260, 165)


def test_no_room_for_the_pixels_is_said() -> None:
    with pytest.raises(MemoryError, match="1000000 x 1000000"):
        image(everything(), (1_000_000, 1_000_000))


def test_save_png_writes_the_file(tmp_path: Path) -> None:
    save_png(everything(), tmp_path / "a.png")
    assert (tmp_path / "a.png").read_bytes() == png(everything())
