"""What reading and sorting 10,000 comments costs, against the similarity library over the same texts, in the same run.

    python -m tests.benchmarks.bench_questions [COUNT]

Then a table of as many distinct comments is brought in, on one core and on all, against reading each comment once, and
a hostile table is read, against Python's own reader over the same lines. Aims: on all cores at most 0.75 of one core,
where there are two or more; the hostile table at most 15 times Python's reader.

Aim: at most 3 times one pass of the library in which each text is compared with each other one (by sorted words, the
library's own preparation of texts, likenesses under 72 of 100 given up early). Shown too: one query against all texts,
and what is spent on scrubbing, reading and finding the same questions. The comments are the test set's, varied.
"""

import csv
import random
import sys
import time
from collections.abc import Callable

from rapidfuzz import fuzz, process, utils

from studio.model.episode import Episode
from studio.questions.bringing import bring_in
from studio.questions.on_cores import on_cores
from studio.questions.scrub import scrub
from studio.questions.seen import seen
from studio.questions.sorting import sort_out
from studio.storage.comments_csv import read_comments
from tests.questions.comment_set import ON, cases

COUNT = 10_000
NEAR = 72.0


def comments(count: int) -> list[str]:
    """The set's comments over and over, each time with other digits."""
    chance = random.Random(7)
    texts = [case.text for case in cases()]
    digits = str.maketrans("3456", "6534")
    made = []
    for number in range(count):
        text = texts[number % len(texts)]
        words = ["pls", "thanks!", "asking for a friend", "??", "", "lol", "2nd time asking", "my van"]
        made.append(f"{text.translate(digits) if chance.random() < 0.5 else text} {chance.choice(words)}")
    return made


def timed(what: str, run: Callable[[], object]) -> float:
    start = time.perf_counter()
    run()
    seconds = time.perf_counter() - start
    print(f"{what:<62} {seconds:8.2f} s")
    return seconds


def all_against_all(texts: list[str]) -> None:
    """One pass: each text against each other, in slices that memory holds."""
    ready = [utils.default_process(text) for text in texts]
    for start in range(0, len(ready), 500):
        process.cdist(ready[start : start + 500], ready, scorer=fuzz.token_sort_ratio, score_cutoff=NEAR)


def main() -> None:
    """Measure and print."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else COUNT
    texts = comments(count)
    sort_out(texts[0])
    floor = timed(f"the library: {count} texts, each against each other", lambda: all_against_all(texts))
    timed(
        "the library: one query against all",
        lambda: process.extract(texts[0], texts, scorer=fuzz.token_set_ratio, processor=utils.default_process),
    )
    timed("scrubbed", lambda: [scrub(text) for text in texts])
    found = []
    timed("read and sorted", lambda: found.extend(sort_out(text) for text in texts))
    timed("read, sorted, and told which ask the same", lambda: [seen(text) for text in texts])
    whole = timed(
        "brought in: all of this", lambda: bring_in(Episode(title="t", on=ON), ((text, None) for text in texts))
    )
    print(f"brought in / one pass of the library: {whole / floor:.2f} (aim 3)")

    distinct = [(f"{text} ({number})", None) for number, text in enumerate(texts)]
    empty = Episode(title="t", on=ON)
    one = timed("distinct comments brought in, one core", lambda: bring_in(empty, distinct))
    several = timed("distinct comments brought in, all cores", lambda: bring_in(empty, distinct, on_cores))
    twice = bring_in(empty, distinct, on_cores).episode
    again = timed("the same table a second time, all cores", lambda: bring_in(twice, distinct, on_cores))
    print(f"all cores / one core: {several / one:.2f} (aim 0.75); a second time / the first: {again / several:.2f}")
    print(f"100,000 would take {several * 100_000 / count:.0f} s here and now")
    lines = ["id,comment", *(_hostile(number, text) for number, text in enumerate(texts))]
    table = "\n".join(lines)
    whole_reader = timed("Python's reader over a table", lambda: [list(csv.reader([line])) for line in lines])
    hostile = timed("a hostile table read", lambda: read_comments(table.encode()))
    print(f"hostile table / Python's reader: {hostile / whole_reader:.1f} (aim 15)")


def _hostile(number: int, text: str) -> str:
    """A row whose marks are broken in each tenth."""
    text = text.replace('"', "")
    broken = {3: f'{number},"{text}', 7: f'{number},{text}"'}
    return broken.get(number % 20, f'{number},"{text}"')


if __name__ == "__main__":
    main()
