"""Reads the files of a hand-off with libraries that know nothing of this program, and says what is not as meant."""

import csv
import io
import json
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import opentimelineio
import pikepdf
import pypdf
import pysubs2
import webvtt
from lxml import etree
from PIL import Image

from studio import shipped
from studio.handoff.captions import cues_of
from studio.handoff.description import episode_chapters
from studio.handoff.material import Material
from tests.handoff.subrip import read_by_ffmpeg

UNSEEN = re.compile(
    r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u200e\u200f\u2028-\u202e\u2066-\u2069\ud800-\udfff\ufffe\uffff]"
)
"""Control signs other than line ends, and signs that turn the direction of reading (UAX #9)."""
PLAIN_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]*(\.[a-z0-9]+)?")
_FORMULA = re.compile(r"[=+@\t\r\uff1d\uff0b\uff20]|-(?!\d+(\.\d+)?$)")
_LOCAL = re.compile(r"#[\w.-]+|fonts/[\w-]+\.ttf|data:image/png;base64,[A-Za-z0-9+/=\s]+")
_STAMP = re.compile(r"^\d+:\d\d", re.MULTILINE)
_LEFT_OPEN = ("<class '", " object at 0x", "<module ")
"""What a field of a format string would leave in a text if it were ever filled in."""


def complaints(folder: Path, material: Material) -> Iterator[str]:
    """What is wrong in the files below ``folder``, each with its file."""
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder).as_posix()
        if not PLAIN_NAME.fullmatch(path.name):
            yield f"{name}: no plain name for a file"
        if path.is_file() and path.parent.name != "fonts":
            yield from dict.fromkeys(f"{name}: {said}" for said in _of_file(path, folder, material))


def _of_file(path: Path, folder: Path, material: Material) -> Iterator[str]:
    content = path.read_bytes()
    yield from _paths(content, folder)
    try:
        yield from _READERS.get(path.suffix, _text)(path.name, content, material)
    except Exception as error:  # a stranger that cannot read it says so in its own way
        yield f"{type(error).__name__}: {str(error)[:200]!r}"


def _paths(content: bytes, folder: Path) -> Iterator[str]:
    for place in (folder, shipped.resources(), shipped.demos(), Path.home(), Path.cwd()):
        if len(place.parts) > 1 and str(place).encode() in content:
            yield f"the path {place} stands in it"


def _plain(text: str) -> Iterator[str]:
    if found := UNSEEN.search(text):
        yield f"an unseen sign {found[0]!r} in {text[max(0, found.start() - 30) : found.end() + 30]!r}"
    for left in _LEFT_OPEN:
        if left in text:
            yield f"a field of a format string was filled in: {left!r}"


def _text(name: str, content: bytes, material: Material) -> Iterator[str]:
    text = content.decode("utf-8")
    yield from _plain(text)
    chapters = episode_chapters(material).all
    if name in ("description.txt", "chapters.txt") and len(_STAMP.findall(text)) > len(chapters):
        yield f"{len(_STAMP.findall(text))} lines begin with a time, {len(chapters)} chapters are meant"


def _svg(name: str, content: bytes, material: Material) -> Iterator[str]:
    tree = etree.fromstring(content, etree.XMLParser(resolve_entities=False, no_network=True, load_dtd=False))
    if tree.getroottree().docinfo.doctype:
        yield "it has a document type"
    for element in tree.iter():
        if not isinstance(element.tag, str):
            yield f"a comment, entity or instruction: {str(element)[:80]}"
            continue
        tag = etree.QName(element).localname
        if tag in ("script", "foreignObject", "iframe", "a", "use", "animate", "set", "handler"):
            yield f"an element {tag}"
        for key, value in element.attrib.items():
            attribute = etree.QName(key).localname
            if attribute.startswith("on") or (attribute in ("href", "src") and not _LOCAL.fullmatch(value)):
                yield f"{tag} has {attribute}={value[:60]!r}"
            yield from (f"{tag} refers to {to!r}" for to in _referred(value) if not _LOCAL.fullmatch(to))
        if tag == "style":
            css = element.text or ""
            yield from (f"the style refers to {to!r}" for to in _referred(css) if not _LOCAL.fullmatch(to))
            yield from ("the style imports another",) if "@import" in css else ()
        yield from _plain((element.text or "") + (element.tail or ""))


def _referred(value: str) -> list[str]:
    return [found.strip(" '\"") for found in re.findall(r"url\(([^)]*)\)", value)]


def _pdf(name: str, content: bytes, material: Material) -> Iterator[str]:
    with pikepdf.open(io.BytesIO(content)) as document:
        for thing in document.objects:
            if isinstance(thing, (pikepdf.Dictionary, pikepdf.Stream)):
                yield from _active(thing)
        if "/Names" in document.Root and "/EmbeddedFiles" in document.Root.Names:
            yield "a file is embedded"
        for key, value in document.docinfo.items():
            yield from (f"{key}: {said}" for said in _plain(str(value)))
    for page in pypdf.PdfReader(io.BytesIO(content)).pages:
        yield from _plain(page.extract_text())


def _active(thing: Any) -> Iterator[str]:
    for key in ("/JS", "/JavaScript", "/AA", "/Launch", "/RichMedia", "/F"):
        if key in thing and not (key == "/F" and "/Subtype" in thing):  # /F of an annotation are its flags
            yield f"an object has {key}"
    if thing.get("/S") in ("/URI", "/GoToR", "/SubmitForm", "/ImportData"):
        to = str(thing.get("/URI", thing.get("/F", "")))
        if not to.startswith("https://") or "evil" in to:
            yield f"it leads to {to[:80]!r}"


def _srt(name: str, content: bytes, material: Material) -> Iterator[str]:
    text, cues = content.decode("utf-8"), cues_of(material.schedule)
    read = read_by_ffmpeg(text)
    other = pysubs2.SSAFile.from_string(text, format_="srt", keep_unknown_html_tags=True)
    if not len(read) == len(other) == len(cues):
        yield f"{len(read)} and {len(other)} cues are read, {len(cues)} are meant"
    for number, ((start, end, told), cue) in enumerate(zip(read, cues, strict=False), start=1):
        if (start, end) != (cue.start_ms, cue.end_ms):
            yield f"cue {number} stands at another time than is meant"
        if "-->" in told or re.search(r"<[a-z/]|\{\\", told, re.IGNORECASE):
            yield f"cue {number} holds an arrow or a tag: {told[:80]!r}"
    yield from _plain(text)


def _vtt(name: str, content: bytes, material: Material) -> Iterator[str]:
    text = content.decode("utf-8")
    meant = len(cues_of(material.schedule)) if name == "captions.vtt" else len(episode_chapters(material).all)
    read = list(webvtt.from_buffer(io.StringIO(text)))
    if len(read) != meant:
        yield f"{len(read)} cues are read, {meant} are meant"
    if text.count("-->") != meant:
        yield f"{text.count('-->')} arrows, {meant} are meant"
    for each in read:
        if "<" in each.raw_text:
            yield f"a cue holds a tag: {each.raw_text[:80]!r}"
    yield from _plain(text)


def _csv(name: str, content: bytes, material: Material) -> Iterator[str]:
    text = content.decode("utf-8-sig")
    rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    if len({len(row) for row in rows}) != 1:
        yield "its rows have not the same number of cells"
    for row in rows:
        for cell in row:
            if _FORMULA.match(cell.lstrip(" \n\u00a0")):
                yield f"a cell runs as a formula: {cell[:60]!r}"
            if "\n" in cell or "\r" in cell:
                yield f"a cell of several lines: {cell[:60]!r}"
            yield from _plain(cell)


def _otio(name: str, content: bytes, material: Material) -> Iterator[str]:
    timeline = opentimelineio.adapters.read_from_string(content.decode("utf-8"), "otio_json")
    for clip in timeline.find_clips():
        to = getattr(clip.media_reference, "target_url", "")
        if to and (to.startswith("/") or ".." in to or not re.fullmatch(r"[a-z0-9_./-]+", to)):
            yield f"a clip leads to {to[:80]!r}"
    for said in _strings(json.loads(content)):
        yield from _plain(said)
        if "\n" in said:
            yield f"a name of several lines: {said[:60]!r}"


def _edl(name: str, content: bytes, material: Material) -> Iterator[str]:
    text = content.decode("utf-8")
    yield from _plain(text)
    events = 0
    for line in text.split("\n"):
        if re.match(r"\d{3,6}\s", line):
            events += 1
        elif line and not re.match(r"TITLE: |FCM: |\* ", line):
            yield f"a line that is none of its own: {line[:80]!r}"
    if len(re.findall(r"^\* FROM CLIP NAME:", text, re.MULTILINE)) > events:
        yield "more clips are named than there are events"


def _json(name: str, content: bytes, material: Material) -> Iterator[str]:
    held = json.loads(content)
    for entry in (*held.get("files", ()), *held.get("pictures", ())):
        file = entry["file"]
        if file.startswith("/") or ".." in file or not all(PLAIN_NAME.fullmatch(part) for part in file.split("/")):
            yield f"it names {file!r}"


def _strings(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    for inner in value.values() if isinstance(value, dict) else value if isinstance(value, list) else ():
        yield from _strings(inner)


def _png(name: str, content: bytes, material: Material) -> Iterator[str]:
    with Image.open(io.BytesIO(content), formats=["PNG"]) as picture:
        picture.load()
        texts = [f"{key}: {value}" for key, value in picture.info.items() if isinstance(value, (str, bytes))]
    for said in texts:
        yield from _plain(said)


_READERS: dict[str, Callable[[str, bytes, Material], Iterator[str]]] = {
    ".svg": _svg, ".pdf": _pdf, ".srt": _srt, ".vtt": _vtt, ".csv": _csv, ".otio": _otio, ".edl": _edl, ".json": _json,
    ".png": _png,
}  # fmt: skip
