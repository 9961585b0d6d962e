"""A machine reads a picture: labels cut out of a shrunk picture and given to tesseract, one line of text each.

The picture is painted at 1920x1080 and shrunk to 640x360, the size of a small phone's player. What is cut out of that
is enlarged again so that its capitals are some 30 px high, as recognition wants them (no detail is gained by it), made
grey, and turned to dark on light where it was light on dark. A label counts as read if it is at one of the sizes in
``CAPITALS``; the reader does not know what it should find.
"""

import os
import re
import shutil
import subprocess
from collections.abc import Iterable, Sequence
from difflib import SequenceMatcher
from pathlib import Path

import msgspec
import numpy as np
from PIL import Image

from studio.graphics.frame import Box
from studio.graphics.layout import text as text_
from studio.graphics.paint.raster import image
from studio.graphics.scene import Scene

SMALL = (640, 360)
CAPITALS = (32.0, 24.0, 40.0, 28.0, 48.0, 20.0)  # px: what recognition may want; no one size suits every text
READER = shutil.which("tesseract")
_MARGIN = 2.0  # px of the small picture round a label
_NUMBER = re.compile(r"\d+(?:[.,/]\d+)*")
_SAME_WORDS = 0.8  # of the letters, in order


class Label(msgspec.Struct, frozen=True, kw_only=True):
    """One line of text as it stands on a picture: its words from left to right, the box in px of the full picture."""

    name: str
    text: str
    box: Box
    cap_height: float


def labels(scene: Scene, roles: Iterable[str]) -> list[Label]:
    """The texts of these roles, each as one line; numbers of discs and marks of scales are left out.

    A disc's digit and a scale's are no callouts, and alone they are no line of text, which is what is read here.
    """
    wanted = set(roles)
    return [
        Label(name=mark.name, text=mark.text, box=text_.box(mark), cap_height=mark.cap_height)
        for mark in scene.texts
        if mark.role in wanted and not mark.name.endswith("_number") and not mark.name.startswith(("axis", "scale"))
    ]


def small_picture(scene: Scene) -> Image.Image:
    """The picture as it is exported, shrunk by averaging."""
    painted = image(scene)
    painted = painted.convertToFormat(painted.Format.Format_RGBA8888)
    whole = Image.frombytes("RGBA", (painted.width(), painted.height()), bytes(painted.constBits()))
    return whole.convert("RGB").resize(SMALL, Image.Resampling.BOX)


def cut_out(small: Image.Image, label: Label, scene: Scene, capitals: float) -> Image.Image:
    """A label of the small picture, enlarged, dark on light, on a little paper of its own."""
    scale = SMALL[0] / scene.frame.width
    box = label.box
    edges = (box.left * scale - _MARGIN, box.top * scale - _MARGIN, box.right * scale + _MARGIN,
             box.bottom * scale + _MARGIN)  # fmt: skip
    piece = small.crop(tuple(round(edge) for edge in edges)).convert("L")  # type: ignore[arg-type]
    times = capitals / (label.cap_height * scale)
    size = (round(piece.width * times), round(piece.height * times))
    large = piece.resize(size, Image.Resampling.BICUBIC)
    paper = int(np.median(np.asarray(large)))
    if paper < 128:
        large, paper = Image.eval(large, lambda value: 255 - value), 255 - paper
    sheet = Image.new("L", (large.width + 40, large.height + 40), paper)
    sheet.paste(large, (20, 20))
    return sheet


def read(pieces: Sequence[Image.Image], folder: Path) -> list[str]:
    """What tesseract reads on each piece, taken as one line of English text."""
    assert READER is not None
    paths = []
    for order, piece in enumerate(pieces):
        paths.append(folder / f"{order:03}.png")
        piece.save(paths[-1], dpi=(300, 300))
    listing = folder / "pieces.txt"
    listing.write_text("\n".join(str(path) for path in paths))
    done = subprocess.run(
        [READER, str(listing), "stdout", "--psm", "7", "-l", "eng", "-c", "page_separator=\f"],
        capture_output=True, text=True, check=True, env=os.environ | {"OMP_THREAD_LIMIT": "1"},
    )  # fmt: skip
    pages = [" ".join(page.split()) for page in done.stdout.split("\f")]
    return pages[: len(pieces)]


def misread(scene: Scene, wanted: Sequence[Label], folder: Path) -> list[str]:
    """The labels that are read at none of the sizes, with what was read last."""
    small, left, complaints = small_picture(scene), list(wanted), dict[str, str]()
    for capitals in CAPITALS:
        seen = read([cut_out(small, label, scene, capitals) for label in left], folder)
        complaints = {
            label.name: f"{label.name}: {label.text!r} is read as {text!r}"
            for label, text in zip(left, seen, strict=True)
            if not same(label.text, text)
        }
        left = [label for label in left if label.name in complaints]
        if not left:
            break
    return list(complaints.values())


def same(shown: str, seen: str) -> bool:
    """Whether the reading gives every number digit by digit, in order, and the words but for a letter here or there."""
    if numbers(shown) != numbers(seen):
        return False
    mine, its = words(shown), words(seen)
    return not mine or SequenceMatcher(None, mine, its, autojunk=False).ratio() >= _SAME_WORDS


def numbers(text: str) -> list[str]:
    """The numbers in a text; a fraction's slash in one form, no space within ``5 / 32``."""
    plain = text.replace("\u2044", "/").replace("\u2215", "/").replace("\u2009", " ")
    return _NUMBER.findall(re.sub(r"(?<=\d)\s*/\s*(?=\d)", "/", plain))


def words(text: str) -> str:
    """The letters of a text, nothing else: quotation marks, dots and signs are read in many forms.

    I, l and | look alike in a typeface without serifs; no reader tells them apart but by the word they stand in.
    """
    return "".join(char for char in text.replace("|", "l").replace("I", "l").lower() if char.isalpha())
