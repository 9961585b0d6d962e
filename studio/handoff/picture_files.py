"""What can be wanted of an export of pictures, what its files are named, and what is said of each."""

from typing import Literal, get_args

import msgspec

from studio.graphics.catalogue import catalogue
from studio.graphics.frame import FRAMES, Box, Frame
from studio.graphics.layout.text import box
from studio.graphics.look import Look, read_background
from studio.graphics.paint.glyphs import arc_box, arc_letters
from studio.graphics.paint.movies import DEFAULT_MOVIE, KINDS, check_movie
from studio.graphics.scene import ArcText, Image, Scene, Shape
from studio.model.episode import Episode
from studio.model.rate import read_rate

LIST_NAME = "pictures.json"
Format = Literal["png", "svg", "pdf", "clip"]
Steps = Literal["all", "last"]
FORMATS: tuple[str, ...] = get_args(Format)
STEPS: tuple[str, ...] = get_args(Steps)


class WantedError(ValueError):
    """Something was wanted that there is not; the message is one line."""


class Wanted(msgspec.Struct, frozen=True, kw_only=True):
    """Which pictures (none named is all of them), and how. ``background`` is ``look``, ``clear`` or ``#RRGGBB``.

    ``outlined`` turns an SVG's text into outlines, which need no font at the editor's. ``movie`` is a clip's kind of
    file and ``rate`` its frames a second, exact; empty is that of the episode's rundown.
    ``order`` holds the ids that come before the catalogue's order.
    """

    ids: tuple[str, ...] = ()
    frame: Frame = FRAMES["wide"]
    format: Format = "png"
    background: str = "look"
    steps: Steps = "last"
    outlined: bool = False
    movie: str = DEFAULT_MOVIE
    rate: str = ""
    order: tuple[str, ...] = ()

    def in_order(self) -> tuple[str, ...]:
        """The ids wanted, each once: as the rundown calls for them, then as the catalogue orders them."""
        return tuple(id_ for id_ in self.numbered() if not self.ids or id_ in self.ids)

    def numbered(self) -> tuple[str, ...]:
        """Every id of the catalogue, at the place that gives its file its number."""
        known = catalogue()
        return tuple(dict.fromkeys((*(id_ for id_ in self.order if id_ in known), *known)))


class Label(msgspec.Struct, frozen=True, omit_defaults=True):
    """A line of text in a picture and its box, in px from the top left.

    Along an arc each letter has a label of its own, ``of`` which text it is: the box round all of them would hold what
    stands inside the arc. The boxes stand upright, so those of neighbors that lean may meet at a corner.
    """

    text: str
    x: float
    y: float
    width: float
    height: float
    of: str = ""


class Entry(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """One file of an export; ``step`` names the step up to which it is built and is None for the finished picture.

    A clip has the labels of the finished picture, and its kind, rate and length besides. Where its file is a folder of
    PNG files, the hash is that of all their bytes in order.
    """

    file: str
    id: str
    frame: str
    format: str
    step: str | None
    findings: tuple[str, ...]
    sha256: str
    labels: tuple[Label, ...]
    movie: str | None = None
    rate: str | None = None
    frames: int | None = None
    duration_s: float | None = None


def rundown_order(episode: Episode) -> tuple[str, ...]:
    """The pictures that the rundown calls for, in its order, each where it comes first."""
    cues = [
        cue for segment in episode.rundown.segments for cue in sorted(segment.pictures, key=lambda cue: cue.with_point)
    ]
    return tuple(dict.fromkeys(cue.picture for cue in cues))


def check(wanted: Wanted, look: Look) -> None:
    """Raise WantedError or ValueError, in one line, if ``wanted`` cannot be had."""
    known = catalogue()
    for id_ in wanted.ids:
        if id_ not in known:
            raise WantedError(f"{id_[:40]!r} is not a picture; there are: {', '.join(known)}")
    if wanted.format not in FORMATS:
        raise WantedError(f"{wanted.format[:20]!r} is not a format; expected png, svg, pdf or clip")
    if wanted.steps not in STEPS:
        raise WantedError(f"{wanted.steps[:20]!r} are no steps; expected all or last")
    background = read_background(wanted.background, look)
    if wanted.format == "clip":
        check_movie(wanted.movie, wanted.frame, clear=background is None)
        if wanted.rate:
            read_rate(wanted.rate)


def frame_name(frame: Frame) -> str:
    """``wide``, ``tall``, ``square``, or the size, such as ``1280x720``."""
    for name, known in FRAMES.items():
        if (known.width, known.height) == (frame.width, frame.height):
            return name
    return f"{frame.width}x{frame.height}"


def file_name(id_: str, wanted: Wanted, step: int | None, steps: int) -> str:
    """A name that no other picture, frame, background or step has, and that sorts as the rundown does."""
    known = wanted.numbered()
    parts = [f"{known.index(id_) + 1:0{max(2, len(str(len(known))))}}", id_, frame_name(wanted.frame)]
    if wanted.background != "look":
        parts.append(wanted.background.lstrip("#").lower())
    if wanted.outlined and wanted.format == "svg":
        parts.append("outlined")
    if step is not None:
        parts.append(f"step{step + 1:0{len(str(steps))}}")
    if wanted.format == "clip":
        return "_".join((*parts, wanted.movie, wanted.rate.replace("/", "-"))) + KINDS[wanted.movie].ending
    return f"{'_'.join(parts)}.{wanted.format}"


def entry_of(scene: Scene, wanted: Wanted, file: str, step: str | None, digest: str) -> Entry:
    """What the list says of a file; ``digest`` is its SHA-256."""
    return Entry(
        file=file, id=scene.picture, frame=frame_name(wanted.frame), format=wanted.format, step=step,
        findings=scene.findings, sha256=digest, labels=labels(scene),
    )  # fmt: skip


def labels(scene: Scene) -> tuple[Label, ...]:
    """Every text of a picture with its box, text along an arc letter by letter.

    Lettering that stands out is drawn twice, its shade first: that is one text.
    """
    found: list[tuple[str, Box, tuple[Label, ...]]] = []
    for mark in scene.marks:
        if isinstance(mark, Shape | Image):
            continue
        if isinstance(mark, ArcText):
            around = arc_box(mark)
            said = tuple(_label(letter, its, mark.text) for letter, its in arc_letters(mark))
        else:
            around = box(mark)
            said = (_label(mark.text, around),)
        if found and found[-1][0] == mark.text and _same_place(found[-1][1], around, mark.cap_height / 2):
            found.pop()
        found.append((mark.text, around, said))
    return tuple(label for _, _, said in found for label in said)


def _label(text: str, its: Box, of: str = "") -> Label:
    # A chart's places may be numpy's floats, which the list's encoder does not know.
    left, top, width, height = (round(float(value), 2) for value in (its.left, its.top, its.width, its.height))
    return Label(text, left, top, width, height, of)


def _same_place(one: Box, other: Box, within: float) -> bool:
    return abs(one.left - other.left) < within and abs(one.top - other.top) < within


def encode_list(entries: list[Entry]) -> bytes:
    """``pictures.json``: the same entries give the same bytes."""
    return msgspec.json.format(msgspec.json.encode({"pictures": entries}), indent=2) + b"\n"
