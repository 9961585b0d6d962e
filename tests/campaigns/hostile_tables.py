"""Hostile tables of comments: broken quotation marks, control signs, formulas, huge cells, names glued to digits.

    python -m tests.campaigns.hostile_tables --seed 1 --count 100000

Every row is accounted for; every comment's mark is found in what was imported or is shown as in doubt; nothing that
tells an author gets through; a second import, in another order and after reopening, adds nothing. ``count`` is rows, in
tables of up to 10,000 in many encodings. The second import sees each text as the first did: what is tried there is
that it is found again.
"""

import csv
import datetime as dt
import io
import random
import time
from collections.abc import Callable, Iterator, Sequence
from typing import Any

from studio.model.episode import Episode
from studio.questions.bringing import Brought, Comment, Found, bring_in
from studio.questions.on_cores import on_cores
from studio.questions.scrub import scrub
from studio.storage.comments_csv import Comments, read_comments
from studio.storage.episode_file import decode, encode
from tests.campaigns.report import Report, main
from tests.questions.comment_set import cases

SHORT = 250
COUNT = 100_000
_SHARE = 0.05  # of rows, for each way in which a row is broken
_OPEN, _STRAY, _TORN, _LINES, _WIDE = ("open", "stray", "torn", "lines", "wide")
_SECRETS = (
    "https://who{n}.example/me", "www.page{n}.example", "mail{n}@host{n}.example", "@handle_{n}", "+49 171 {n:07d}",
    "my name is Bertil{x}", "hi Bertil{x},", "plate ABC {m:04d}",
)  # fmt: skip
_TOLD = ("who{n}.", "page{n}.", "mail{n}@", "handle_{n}", "{n:07d}", "Bertil{x}", "Bertil{x}", "ABC {m:04d}")
_ODD = ("\x00", "\x07", "\x1b[31m", "\u202e", "\u200b", "=HYPERLINK(1)", "{{7*7}}", "<img src=x>", "&lt;b&gt;")
_ENCODINGS = ("utf-8", "utf-8-sig", "utf-16", "utf-16-le", "cp1252")
_SEPARATORS = (",", ";", "\t")
_ENDS = ("\n", "\r\n", "\r")
_IN_TABLE = 10_000


class _Once:
    """Looks at each text on all cores, and at none twice: the same text is always seen in the same way."""

    def __init__(self) -> None:
        self._found: dict[tuple[str, str], Any] = {}

    def __call__(self, look: Callable[[str], Found], texts: Sequence[str]) -> Iterator[list[Found]]:
        new = [text for text in texts if (look.__name__, text) not in self._found]
        found = [its for lot in on_cores(look, new) for its in lot]
        self._found.update({(look.__name__, text): its for text, its in zip(new, found, strict=True)})
        yield [self._found[look.__name__, text] for text in texts]


class _Row:
    """One row as it is written, the word that has to be found again, and what must not be."""

    def __init__(self, chance: random.Random, number: int, separator: str, texts: list[str]) -> None:
        self.mark = f"mark{number}x"
        secret = chance.randrange(len(_SECRETS)) if chance.random() < _SHARE else -1
        fill = {"n": number, "m": number % 10_000, "x": _letters(number)}
        self.secret = _TOLD[secret].format(**fill) if secret >= 0 else ""
        words = chance.choice(texts)
        if secret >= 0:
            glue = chance.choice([" ", "72", "5/32"]) if secret < 5 else chance.choice([". ", " 72"])
            words = f"{words}{glue}{_SECRETS[secret].format(**fill)} ok?"
        if chance.random() < _SHARE:
            words += chance.choice(_ODD)
        if chance.random() < _SHARE / 50:
            words += " x" * 20_000
        how = chance.choices(
            ["", _OPEN, _STRAY, _TORN, _LINES, _WIDE], [1 - 5 * _SHARE, _SHARE, _SHARE, _SHARE, _SHARE, _SHARE]
        )[0]
        self.line = separator.join([f"{number}", f"viewer{number}", _cell(f"{self.mark} {words}", how, separator)])


def _cell(text: str, how: str, separator: str) -> str:
    if how == _OPEN:
        return f'"{text}'
    if how == _STRAY:
        return f'{text}"'
    if how == _TORN:
        return f'"{text}" and "so'
    if how == _WIDE:
        return f"{text}{separator} or{separator} not"
    out = io.StringIO()
    text = f"{text}\nmore{separator} of it\n" if how == _LINES else text
    csv.writer(out, delimiter=separator, lineterminator="").writerow([text])
    return out.getvalue()


def _letters(number: int) -> str:
    return "".join(chr(ord("a") + int(digit)) for digit in str(number))


def _tables(seed: int, count: int) -> Iterator[tuple[bytes, list[_Row]]]:
    chance = random.Random(seed)
    texts = [case.text for case in cases()]
    for first in range(0, count, _IN_TABLE):
        separator, end, encoding = chance.choice(_SEPARATORS), chance.choice(_ENDS), chance.choice(_ENCODINGS)
        rows = [_Row(chance, number, separator, texts) for number in range(first, min(count, first + _IN_TABLE))]
        table = "\n".join([separator.join(["id", "author", "comment"]), *(row.line for row in rows)])
        yield table.replace("\n", end).encode(encoding, "replace"), rows


def run(seed: int, count: int) -> Report:
    """Read, bring in, bring in again."""
    faults: list[str] = []
    episode = Episode(title="Hostile tables", on=dt.date(2026, 3, 1))
    done = {"rows": 0, "in doubt": 0, "new": 0, "counted": 0, "seconds to read": 0.0, "seconds to bring in": 0.0}
    for number, (content, rows) in enumerate(_tables(seed, count)):
        where = f"table {number}"
        started = time.monotonic()
        found = read_comments(content)
        done["seconds to read"] += time.monotonic() - started
        faults += _not_accounted(where, found, rows)
        started = time.monotonic()
        comments = [(its.text, its.on) for its in found.comments]
        looking = _Once()
        brought = bring_in(episode, comments, looking)
        done["seconds to bring in"] += time.monotonic() - started
        faults += _told(where, brought, rows)
        random.Random(seed + number).shuffle(comments)
        faults += _added_again(where, brought.episode, comments, looking)
        done["rows"] += len(rows)
        done["in doubt"] += len(found.in_doubt)
        done["new"] += brought.added + brought.set_aside
        done["counted"] += brought.counted
    return Report(done=done, faults=tuple(faults))


def _not_accounted(where: str, found: Comments, rows: list[_Row]) -> Iterator[str]:
    began = len(found.comments) + found.without_words + sum(not row.is_taken for row in found.in_doubt)
    if began + found.joined != found.lines:
        yield f"{where}: {found.lines} lines, of which {began + found.joined} are accounted for"
    shown = [its.text for its in found.comments] + [row.text for row in found.in_doubt if not row.is_taken]
    there = {word for text in shown for word in text.split()}
    yield from (f"{where}: the row of {row.mark} is lost" for row in rows if row.mark not in there)


def _told(where: str, brought: Brought, rows: list[_Row]) -> Iterator[str]:
    kept = "\n".join(its.text for its in brought.episode.questions)
    for row in rows:
        if row.secret and row.secret in kept and row.secret in kept.split(row.mark, 1)[-1].split("mark", 1)[0]:
            yield f"{where}: {row.secret!r} got through"
    if any(ord(sign) < 32 and sign != "\n" for sign in kept) or "\u202e" in kept:
        yield f"{where}: a control sign got through"
    if brought.added + brought.set_aside + brought.counted != brought.read:
        yield f"{where}: {brought.read} comments read, not as many brought in or counted"


def _added_again(where: str, episode: Episode, comments: list[Comment], looking: "_Once") -> Iterator[str]:
    for name, its in (("again", episode), ("after reopening", decode(encode(episode)))):
        twice = bring_in(its, comments, looking)
        if twice.added or twice.set_aside:
            yield f"{where}: brought in {name}, {twice.added + twice.set_aside} are new"
    if any(scrub(question.text).text != question.text for question in episode.questions[-50:]):
        yield f"{where}: a text that was kept is not clean"


if __name__ == "__main__":
    main(run, __doc__, COUNT)
