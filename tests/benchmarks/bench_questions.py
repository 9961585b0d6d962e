"""What reading and sorting 10,000 comments costs, against the similarity library over the same texts, in the same run.

    python -m tests.benchmarks.bench_questions [COUNT]

Aim: at most 3 times one pass of the library in which each text is compared with each other one (by sorted words, the
library's own preparation of texts, likenesses under 72 of 100 given up early). Shown too: one query against all texts,
and what is spent on scrubbing, reading and finding the same questions. The comments are the test set's, varied.
"""

import random
import sys
import time
from collections.abc import Callable

from rapidfuzz import fuzz, process, utils

from studio.model.episode import Episode
from studio.questions.bringing import bring_in
from studio.questions.scrub import scrub
from studio.questions.seen import seen
from studio.questions.sorting import sort_out
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


if __name__ == "__main__":
    main()
