"""Every reader of what comes from outside: what it is given, how it refuses, and what must hold of what it took."""

import datetime as dt
import functools
import io
import json
import re
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from random import Random
from typing import Any

import msgspec
from PIL import Image

from studio import shipped
from studio.decide import decide
from studio.decide.admission import problems
from studio.graphics.logo.art import LogoError
from studio.graphics.logo.reading import art_of, clean_file
from studio.graphics.look import LookError, read_look
from studio.graphics.look_file import encode_look_file, read_look_file
from studio.graphics.look_font import read_face
from studio.graphics.look_parts import Fonts
from studio.model.entry import EntryError, read_quantity
from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.model.quantity import Kind, UnitName
from studio.model.running_text import numbers_in
from studio.questions.answering import answer
from studio.questions.bringing import bring_in
from studio.questions.reading import read
from studio.questions.scrub import scrub
from studio.questions.told import with_answer
from studio.reference.tables import load_tables
from studio.script.check import check_script
from studio.script.check_text import check_text
from studio.script.live import filled, screen_text, spoken_text
from studio.storage.comments_csv import read_comments
from studio.storage.csv_text import CsvError
from studio.storage.episode_file import EpisodeFileError, decode, encode
from studio.storage.readings_csv import read_session
from studio.storage.readings_out import write_readings
from studio.storage.settings import read_settings
from studio.tires.datecode import DateCodeError, parse_date_code
from studio.tires.designation import MarkingError, format_marking, parse_marking
from tests.campaigns.good import COMMENTS, ENTRIES, LOGOS, MARKINGS, READINGS, SENTENCES, TABLES
from tests.campaigns.mutation import spoilt_bytes, spoilt_json, spoilt_png, spoilt_text

ON = dt.date(2026, 11, 14)
_UNFIT = re.compile(r"[\x00-\x09\x0b-\x1f\x7f-\x9f\u200e\u200f\u202a-\u202e\u2066-\u2069\ud800-\udfff]")
LONGEST_LINE = 300
_UNITS: dict[Kind, UnitName] = {
    "depth": "32nds", "length": "mm", "pressure": "psi", "distance": "mi", "load": "lb", "temperature": "degF",
    "torque": "N m", "share": "%", "speed": "mph", "altitude": "m", "rain": "mm/h", "money": "money",
}  # fmt: skip


class Broken(Exception):
    """Something was taken and is not what it should be."""


@dataclass(frozen=True)
class Door:
    """One reader. ``made`` makes an input, ``taken`` reads it and holds what came of it to its promises.

    ``refuses`` are the errors by which it may refuse; ``weight`` is how many of a million inputs it gets, in thousands.
    """

    name: str
    weight: int
    made: Callable[[Random], Any]
    taken: Callable[[Any], None]
    refuses: tuple[type[Exception], ...] = ()


def one_line(message: str) -> None:
    """A refusal is one line that a person can read. Raises Broken."""
    if not message or not message.isprintable():
        raise Broken(f"a refusal with control signs or of several lines: {message[:200]!r}")
    if len(message) > LONGEST_LINE:
        raise Broken(f"a refusal that is too long: {len(message)} signs, {message[:200]!r}")


def _hold(holds: bool, what: str) -> None:
    if not holds:
        raise Broken(what)


@functools.lru_cache(maxsize=1)
def _folder() -> Path:
    return Path(_kept().name)


@functools.lru_cache(maxsize=1)
def _kept() -> "tempfile.TemporaryDirectory[str]":
    return tempfile.TemporaryDirectory(prefix="fuzz-")


@functools.lru_cache(maxsize=1)
def _demos() -> tuple[Any, ...]:
    return tuple(json.loads(path.read_bytes()) for path in sorted(shipped.demos().glob("*.json")))


@functools.lru_cache(maxsize=1)
def _episode() -> tuple[Episode, Findings]:
    episode = decode(json.dumps(_demos()[-1]).encode())
    return episode, decide(episode, load_tables())


def _problems(episode: Episode) -> Any:
    return problems(episode, load_tables())


def _marking(text: str) -> None:
    marking = parse_marking(text)
    _hold(parse_marking(format_marking(marking)) == marking, f"does not read back equal: {format_marking(marking)!r}")


def _date_code(text: str) -> None:
    code = parse_date_code(text, ON)
    _hold(parse_date_code(code.digits, ON) == code, f"does not read back equal: {code.digits!r}")
    _hold((code.last_day - code.first_day).days == 6 and code.first_day <= ON, f"is no week of the past: {code}")


def _an_entry(chance: Random) -> tuple[str, Kind]:
    return spoilt_text(chance, ENTRIES), chance.choice(list(_UNITS))


def _entry(given: tuple[str, Kind]) -> None:
    text, kind = given
    got = read_quantity(text, kind, _UNITS[kind])
    got.text(), got.spoken(), got.both("us"), got.rounded("metric")
    unit = {"N m": "N m", "degC": "C", "degF": "F", "money": ""}.get(got.unit, got.unit)
    plain = format(Decimal(repr(got.value)), "f")
    typed = f"{plain if '.' in plain else plain + '.0'}0 {unit}".strip()  # two decimals are no thousands
    if len(typed) <= 40:
        again = read_quantity(typed, kind, _UNITS[kind])
        _hold(again == got, f"does not read back equal: {got} from {typed!r} as {again}")


def _numbers(text: str) -> None:
    end = 0
    for number in numbers_in(text):
        _hold(end <= number.start < number.end <= len(text), f"spans overlap: at {number.start}")
        _hold(
            text[number.start : number.end] == number.text, f"a number is not what stands at its span: {number.text!r}"
        )
        end = number.end
        if number.quantity is not None:
            number.quantity.text(), number.quantity.spoken(), number.quantity.rounded("us")


def _comment(text: str) -> None:
    reading = read(text)
    for fact in reading.facts:
        span = reading.text[fact.start : fact.end]
        inside = 0 <= fact.start <= fact.end <= len(reading.text)
        _hold(inside and span == fact.text, f"a fact is not what stands at its span: {fact.text!r}")
    for line in (*reading.impossible, reading.left_out):
        _hold(line.isprintable(), f"control signs are said: {line!r}")
    clean = scrub(text)
    _hold(scrub(clean.text).text == clean.text, "a scrubbed comment is scrubbed further when it is read again")


def _an_answer(chance: Random) -> tuple[str, str, bool]:
    return spoilt_text(chance, COMMENTS, 20_000), chance.choice(("short", "full")), chance.random() < 0.5


def _answer(given: tuple[Any, Any, bool]) -> None:
    text, length, about = given
    found = answer(text, tables=load_tables(), on=ON, episode=_episode()[0] if about else None, length=length)
    _hold(all(line.isprintable() for line in found.reply.splitlines()), f"control signs are said: {found.reply!r}")
    json.dumps(msgspec.to_builtins(found.numbers), allow_nan=False)


def _a_look(chance: Random) -> bytes:
    look = json.loads((shipped.resources() / "looks" / chance.choice(("chalk.json", "night_bay.json"))).read_bytes())
    look["fonts"] = {"family": "Inter"}
    look["logo"] = {"file": chance.choice(("logo.svg", "logo.svg", "../logo.svg", "/etc/passwd", "logo.png", ""))}
    return spoilt_json(chance, look, mildly=chance.random() < 0.3)


def _look(content: bytes) -> None:
    path = _folder() / "look.json"
    path.write_bytes(content)
    (_folder() / "logo.svg").write_text(LOGOS[1], encoding="utf-8")
    look = read_look(path)
    path.write_bytes(encode_look_file(look))
    _hold(encode_look_file(read_look_file(path)) == encode_look_file(look), "a look does not read back equal")


@functools.lru_cache(maxsize=1)
def _font_bytes() -> bytes:
    return (shipped.resources() / "fonts" / "Inter-Regular.ttf").read_bytes()


def _a_font(chance: Random) -> bytes:
    font = bytearray(_font_bytes())
    if chance.random() < 0.7:  # within the table of tables and what stands at the tables' starts
        for _ in range(chance.randint(1, 4)):
            at = chance.randrange(300)
            font[at : at + 4] = chance.randbytes(4)
        return bytes(font)
    return spoilt_bytes(chance, bytes(font))


def _font(content: bytes) -> None:
    (_folder() / "own.ttf").write_bytes(content)
    read_face(Fonts(family="Own", regular="own.ttf"), _folder())


def _an_svg(chance: Random) -> bytes:
    return spoilt_text(chance, LOGOS).encode("utf-8", "surrogatepass")


def _svg(content: bytes) -> None:
    art = art_of(content, "logo.svg")
    again = art_of(clean_file(art), "logo.svg")
    _hold(len(again.shapes) == len(art.shapes), "a logo written anew has another number of shapes")
    for note in art.notes:
        one_line(note)


@functools.lru_cache(maxsize=1)
def _pngs() -> tuple[bytes, ...]:
    made = []
    for mode, color in (("RGBA", (200, 30, 20, 128)), ("RGB", (1, 2, 3)), ("P", 3), ("L", 9), ("1", 1), ("I;16", 900)):
        stream = io.BytesIO()
        Image.new(mode, (24, 12), color).save(stream, "PNG")  # type: ignore[arg-type]
        made.append(stream.getvalue())
    return tuple(made)


def _png(content: bytes) -> None:
    art = art_of(content, "logo.png")
    _hold(min(art.width, art.height) > 0 and art.png.startswith(b"\x89PNG"), "a logo without pixels was taken")


def _a_table(good: tuple[str, ...]) -> Callable[[Random], bytes]:
    def made(chance: Random) -> bytes:
        text = spoilt_text(chance, good)
        encoding = chance.choice(("utf-8", "utf-8", "utf-8-sig", "utf-16", "latin-1", "cp1252"))
        content = text.encode(encoding, "replace" if encoding in ("latin-1", "cp1252") else "surrogatepass")
        return spoilt_bytes(chance, content) if chance.random() < 0.2 else content

    return made


def _readings(content: bytes) -> None:
    session = read_session(content, _episode()[0], _problems, replace=True)
    _hold(decode(encode(session.episode)) == session.episode, "readings that were taken cannot be saved")
    written = write_readings(session.episode)
    again = read_session(written, session.episode, _problems, replace=True).episode
    _hold(write_readings(again) == written, "readings that are written out do not read back equal")


def _table_of_comments(content: bytes) -> None:
    for comment in read_comments(content).comments:
        _hold(not _UNFIT.search(comment.text), f"control or direction signs: {comment.text[:80]!r}")


def _brought(content: bytes) -> None:
    comments = read_comments(content).comments
    brought = bring_in(_episode()[0], [(comment.text, comment.on) for comment in comments])
    _hold(decode(encode(brought.episode)) == brought.episode, "questions that were brought in cannot be saved")


def _some_settings(chance: Random) -> bytes:
    good = {"scheme": "dark", "text_percent": 125, "region": "us-md", "units": "us", "gauge": "bench",
            "window": {"a": "b"}, "keep_recent": True, "autosave_every_s": 20, "export_folder": "x"}  # fmt: skip
    return spoilt_json(chance, good)


def _settings(content: bytes) -> None:
    path = _folder() / "settings.json"
    path.write_bytes(content)
    got = read_settings(path)
    if got.note:
        one_line(got.note)
        return
    path.write_bytes(msgspec.json.encode(got.settings))
    _hold(read_settings(path).settings == got.settings, "settings do not read back equal")


def _an_episode(chance: Random, mildly: bool = False) -> bytes:
    whole = dict(chance.choice(_demos()))
    for name in ("questions", "specimens", "rundown", "published"):
        if chance.random() < 0.5 and isinstance(whole.get(name), list):
            whole[name] = whole[name][:1]
    return spoilt_json(chance, whole, mildly)


def _episode_file(content: bytes) -> None:
    episode = decode(content)
    for problem in problems(episode, load_tables()):
        one_line(str(problem))
    try:
        saved = encode(episode)
    except EpisodeFileError as error:
        one_line(str(error))
        return
    _hold(decode(saved) == episode, "an episode does not read back equal")


def _decided(content: bytes) -> None:
    episode, tables = decode(content), load_tables()
    if problems(episode, tables):
        return
    findings = with_answer(episode, decide(episode, tables), tables)
    for finding in findings:
        said = (finding.sentence, finding.caution, *finding.working, *finding.would_change, *finding.missing)
        _hold(all(line.isprintable() for line in said), f"control signs are said: by {finding.id}")
        for figure in finding.figures:
            figure.quantity.both(episode.units), figure.quantity.spoken(), figure.quantity.rounded(episode.units)
    check_script(episode, findings, tables)


def _a_script(chance: Random) -> str:
    ids = [finding.id for finding in _episode()[1]]
    live = [f"{{{chance.choice(ids)} {name} {form}}}" for name in ("", "value", "margin", "limit", "0.__class__")
            for form in ("", "both", "spoken", "rounded", "!r", ":>9999")]  # fmt: skip
    return spoilt_text(chance, [f"{chance.choice(SENTENCES)} {' '.join(chance.sample(live, 3))}", *SENTENCES], 20_000)


def _script(text: str) -> None:
    episode, findings = _episode()
    pieces = filled(text, findings, "us")
    screen_text(pieces), spoken_text(pieces)
    _hold("".join(text[piece.start : piece.end] for piece in pieces) == text, "the pieces are not the whole text")
    for mark in check_text(text, findings, load_tables(), episode.units).marks:
        _hold(text[mark.start : mark.end] == mark.text, f"a mark is not what stands at its span: {mark.text!r}")


DOORS = (
    Door("marking", 243, lambda chance: spoilt_text(chance, MARKINGS), _marking, (MarkingError,)),
    Door("entry", 202, _an_entry, _entry, (EntryError,)),
    Door("date code", 127, lambda c: spoilt_text(c, ("3618", "DOT 1AB XYZ123 3618", "317", "5399")), _date_code,
         (DateCodeError,)),
    Door("svg", 80, _an_svg, _svg, (LogoError,)),
    Door("running numbers", 48, lambda chance: spoilt_text(chance, SENTENCES), _numbers),
    Door("png", 48, lambda chance: spoilt_png(chance, chance.choice(_pngs())), _png, (LogoError,)),
    Door("table of comments", 44, _a_table(TABLES), _table_of_comments, (CsvError,)),
    Door("questions brought in", 4, _a_table(TABLES), _brought, (CsvError,)),
    Door("episode", 40, _an_episode, _episode_file, (EpisodeFileError,)),
    Door("look", 32, _a_look, _look, (LookError,)),
    Door("table of readings", 32, _a_table(READINGS), _readings, (CsvError,)),
    Door("comment", 32, lambda chance: spoilt_text(chance, COMMENTS, 20_000), _comment),
    Door("answer", 32, _an_answer, _answer),
    Door("settings", 24, _some_settings, _settings),
    Door("findings", 4, functools.partial(_an_episode, mildly=True), _decided, (EpisodeFileError,)),
    Door("script", 4, _a_script, _script),
    Door("font", 4, _a_font, _font, (LookError,)),
)  # fmt: skip
