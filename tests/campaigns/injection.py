"""Makes hand-offs and pictures of episodes whose every free text is an injection; strangers read each file back.

The texts carry formulas, markup, scripts, cues, timecodes, paths, control and direction signs, format strings.
What is read back is what is meant: as many cues, rows, clips and pages, no script, no address, no path, no formula.
Moving clips hold nothing but pixels and are left out.
"""

import tempfile
from collections.abc import Iterator
from pathlib import Path
from random import Random
from typing import Any

import msgspec

from studio import shipped
from studio.decide import decide
from studio.decide.admission import problems
from studio.graphics.catalogue import catalogue
from studio.graphics.frame import FRAMES
from studio.graphics.look import look_named
from studio.handoff.gathering import gather
from studio.handoff.making import make
from studio.handoff.material import Material
from studio.handoff.picture_files import Format, Wanted
from studio.handoff.pictures import export_pictures
from studio.handoff.works import ITEMS
from studio.model.episode import Episode
from studio.questions.told import with_answer
from studio.reference.tables import load_tables
from studio.storage.episode_file import decode, encode
from studio.storage.readings_out import write_readings
from tests.campaigns.report import Report, main
from tests.campaigns.strangers import complaints

COUNT = 60
SHORT = 1
_MOST_TOLD = 60
_FREE = {
    "title", "channel", "story", "name", "note", "text", "what", "line", "card", "framing", "reason", "reply", "words",
    "props", "photos", "pattern",
}  # fmt: skip
_LISTS = {"props", "photos"}
POISON = (
    '=HYPERLINK("http://evil.example/","x")', "@SUM(1+1)*cmd|' /C calc'!A0", "+1+1", "-2+3", "\t=1+1", "\r=1+1",
    "\uff1d1+1",
    "<script>alert(1)</script>", '<img src="http://evil.example/x.png" onerror="alert(1)">', "]]>", "<![CDATA[",
    "</text></g></svg><image href='file:///etc/hosts'/>", "<!DOCTYPE a [<!ENTITY b SYSTEM 'file:///etc/hosts'>]>&b;",
    "x\n\n7\n00:00:01,000 --> 00:00:02,000\nforged", "00:00:01.000 --> 00:00:02.000", "x\n\nNOTE forged\n\nWEBVTT",
    "<00:00:01.000><c.red>", "{\\an8}{\\pos(1,2)}", "<font color=red>", "&lt;b&gt; &#x202e; &amp;",
    "x\n0:00 Forged\n",
    "* FROM CLIP NAME: forged\n001  AX V C 00:00:00:00 00:00:01:00 00:00:00:00 00:00:01:00", "M2 AX 024.0 00:00:00:00",
    "{0.__class__}", "{tread_left.front_left.__class__}", "{", "}} {{", "%s %n %(a)s", "$\\frac{1}{0}$", "$^$",
    "../../../etc/passwd", "C:\\Windows\\x.exe", "/etc/passwd", "file:///etc/passwd", "javascript:alert(1)",
    "CON", "\x00\x07\x1b[31m red", "\u202eright\u202c", "\u2066isolated\u2069", "\ud7ff\ufffe", "\u2028a",
    ") /S /URI /URI (http://evil.example) (", "endstream endobj trailer", "'; DROP TABLE cars; --", "a" * 90, "",
)  # fmt: skip


def run(seed: int, count: int) -> Report:
    """``count`` episodes: of each the whole hand-off without clips, and some pictures in every format."""
    files, faults = 0, list[str]()
    for number in range(count):
        chance = Random(f"{seed}/{number}")
        with tempfile.TemporaryDirectory(prefix="injection-") as name:
            folder, material = Path(name), _material(chance)
            found = [*_made(material, chance, folder), *complaints(folder, material)]
            files += sum(path.is_file() for path in folder.rglob("*"))
        faults += [f"seed {seed}, episode {number}: {fault}" for fault in found]
    told = faults[:_MOST_TOLD] + ([f"and {len(faults) - _MOST_TOLD} more"] if len(faults) > _MOST_TOLD else [])
    return Report(done={"episodes": count, "files read back": files}, faults=tuple(told))


def poisoned(chance: Random) -> Episode:
    """A demo with every free text replaced."""
    path = chance.choice(sorted(shipped.demos().glob("*.json")))
    raw = msgspec.json.decode(path.read_bytes())
    for specimen in raw["specimens"]:
        specimen |= {"name": "", "note": "", "photos": ["", ""]}
        for reading in specimen.get("readings", ()):
            reading["note"] = ""
    raw["pictures"] = [{"picture": id_, "title": ""} for id_ in catalogue() if chance.random() < 0.5]
    for segment in raw["rundown"]["segments"]:
        segment |= {"props": ["", ""], "shots": [{"text": "", "framing": ""}] * 2}
    _poison(chance, raw)
    episode = decode(msgspec.json.encode(raw))
    assert not problems(episode, load_tables()), "a poisoned episode is one that can be"
    return decode(encode(episode))


def _poison(chance: Random, here: Any) -> None:
    """Replace the free texts of ``here``, in place; a question keeps its words before the poison, to be answered."""
    for key, value in here.items() if isinstance(here, dict) else enumerate(here):
        if isinstance(value, (dict, list)) and key not in _LISTS:
            _poison(chance, value)
        elif key in _LISTS:
            here[key] = [_text(chance) for _ in value]
        elif key in _FREE and isinstance(value, str):
            here[key] = f"{value[:300]} {_text(chance)}" if "asked" in here or "state" in here else _text(chance)


def _text(chance: Random) -> str:
    """One poison or several, no longer than the shortest text may be."""
    return chance.choice(("", " ", "\n")).join(chance.choices(POISON, k=chance.choice((1, 1, 2, 3))))[:100]


def _material(chance: Random) -> Material:
    episode, tables = poisoned(chance), load_tables()
    findings = with_answer(episode, decide(episode, tables), tables)
    return gather(episode, findings, tables, look_named(chance.choice(("chalk", "night_bay"))))


def _made(material: Material, chance: Random, folder: Path) -> Iterator[str]:
    """Write everything into ``folder``; whatever fails is a fault, and so is a refusal of several lines."""
    items = tuple(item for item in ITEMS if item not in ("clips", "pictures"))
    for step in make(material, folder / "handoff", items):
        if step.failed or not step.problem.isprintable():
            yield f"{step.file} failed: {step.problem[:200]!r}"
    (folder / "readings.csv").write_bytes(write_readings(material.episode))
    some = tuple(chance.sample(list(catalogue()), 3))
    ways: tuple[tuple[Format, bool], ...] = (("png", False), ("svg", False), ("svg", True), ("pdf", False))
    for format_, outlined in ways:
        frame = chance.choice(list(FRAMES.values()))
        wanted = Wanted(ids=some, frame=frame, format=format_, outlined=outlined)
        into = folder / f"{format_}{'_outlined' if outlined else ''}"
        for told in export_pictures(material.episode, material.findings, material.look, wanted, into):
            if told.failed or not f"{told.problem}{told.warning}".isprintable():
                yield f"{told.picture} as {format_} failed: {told.problem[:200]!r} {told.warning[:200]!r}"


if __name__ == "__main__":
    main(run, __doc__, COUNT)
