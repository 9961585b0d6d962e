"""Comments brought into an episode: scrubbed, counted, sorted; nothing lost."""

import datetime as dt
import random

from hypothesis import given, settings
from hypothesis import strategies as st

from studio.model.episode import Episode
from studio.questions.bringing import bring_in, rows_of
from studio.questions.sorting import sort_out
from studio.storage.episode_file import decode, encode
from tests.questions.comment_set import cases

EPISODE = Episode(title="test", on=dt.date(2026, 3, 1))
COMMENTS = [
    ("Greg wrote: my tires are at 5/32, do I need new ones?", dt.date(2026, 2, 1)),
    ("MY TIRES ARE AT 5/32 do i need new ones", None),
    ("great video!", None),
    ("bulge on my sidewall, @someone says drive on. ok?", None),
    ("how much longer at 4 mm?", None),
    ("DOT 2319 too old?", None),
]


def test_each_comment_is_kept_once_and_counted() -> None:
    brought = bring_in(EPISODE, COMMENTS)
    assert (brought.read, brought.added, brought.counted, brought.set_aside) == (6, 4, 1, 1)
    assert sum(question.asked for question in brought.episode.questions) == 6
    assert brought.episode.questions[0].asked == 2 and brought.episode.questions[0].on == dt.date(2026, 2, 1)
    text = " ".join(question.text for question in brought.episode.questions)
    assert "Greg" not in text and "someone" not in text
    assert [question.state for question in brought.episode.questions].count("set_aside") == 1


def test_urgent_first_then_answerable_then_what_needs_a_fact() -> None:
    rows = bring_in(EPISODE, COMMENTS).rows
    assert [row.state for row in rows] == ["urgent", "answerable", "answerable", "needs_fact", "none"]
    assert rows[0].kind == "condition" and rows[1].question.asked == 2


def test_bringing_the_same_again_only_counts() -> None:
    once = bring_in(EPISODE, COMMENTS).episode
    twice = bring_in(once, COMMENTS)
    assert len(twice.episode.questions) == len(once.questions) and twice.added == 0
    assert sum(question.asked for question in twice.episode.questions) == 12
    assert len({question.id for question in twice.episode.questions}) == len(twice.episode.questions)
    assert len(rows_of(twice.episode)) == len(twice.rows)


def test_sorting_needs_no_computation() -> None:
    assert sort_out("tires at 5/32 ok?").state == "answerable"
    assert sort_out("how many miles left at 5/32").state == "needs_fact"
    assert sort_out("235/60R17 on an 18 inch rim?").state == "needs_fact"
    assert sort_out("my truck is overloaded, tire load ok?").state == "urgent"


def _chain(chance: random.Random, count: int) -> list[tuple[str, dt.date | None]]:
    """Comments of which each is like the one before: slips, other words, other orders."""
    texts = [case.text for case in chance.sample(cases(), 12)]
    made = []
    for _ in range(count):
        at = chance.randrange(len(texts))
        words = texts[at].split()
        deed = chance.choice(["same", "swap", "drop", "add", "slip", "loud"])
        if deed == "swap" and len(words) > 1:
            i = chance.randrange(len(words) - 1)
            words[i : i + 2] = words[i : i + 2][::-1]
        elif deed == "drop" and len(words) > 3:
            del words[chance.randrange(len(words))]
        elif deed == "add":
            more = chance.choice(["please", "really", "the", "again", "thanks!"])
            words.insert(chance.randrange(len(words) + 1), more)
        elif deed == "slip":
            i = chance.randrange(len(words))
            words[i] = words[i][:2] + words[i][1:]
        elif deed == "loud":
            words = [word.upper() for word in words]
        texts[at] = " ".join(words)
        made.append((texts[at], None))
    return made


@settings(max_examples=20)
@given(seed=st.integers(0, 2**32))
def test_the_same_table_in_whatever_order_and_after_reopening_adds_nothing(seed: int) -> None:
    chance = random.Random(seed)
    comments = _chain(chance, 40)
    once = bring_in(EPISODE, comments)
    assert once.added + once.set_aside + once.counted == once.read
    reopened = decode(encode(once.episode))
    chance.shuffle(comments)
    for episode in (once.episode, reopened):
        twice = bring_in(episode, comments)
        assert (twice.added, twice.set_aside, twice.counted) == (0, 0, twice.read)
        assert [its.text for its in twice.episode.questions] == [its.text for its in once.episode.questions]
