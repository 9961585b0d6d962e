"""Captions, read back by two independent readers each, and held to the limits of subtitle guides."""

import html
import io
import itertools
import re
from fractions import Fraction
from pathlib import Path

import pysubs2
import pytest
import webvtt as webvtt_reader
from hypothesis import example, given, settings
from hypothesis import strategies as st

from studio import shipped
from studio.decide import decide
from studio.handoff.captions import WORD_JOINER, Cue, cues_of, srt, too_fast, webvtt
from studio.handoff.schedule import Schedule, TimedSegment
from studio.handoff.scheduling import scheduled
from studio.headless.opening import open_episode
from studio.reference.tables import load_tables
from tests.handoff.schedules import HARD_TEXTS, SMALL, point
from tests.handoff.subrip import read_by_ffmpeg

CUES = cues_of(SMALL)


def words(text: str) -> list[str]:
    return text.split()


def of(text: str, start: float, end: float) -> tuple[Cue, ...]:
    segment = TimedSegment(
        id="a", title="A", start=Fraction(start), end=Fraction(end), points=(point(text, start, end),)
    )
    return cues_of(Schedule(title="x", segments=(segment,)))


def test_ffmpeg_reads_the_same_times_and_words() -> None:
    numbers = [block.split("\n")[0] for block in srt(CUES).strip().split("\n\n")]
    assert numbers == [str(number) for number in range(1, len(CUES) + 1)]
    read = read_by_ffmpeg(srt(CUES))
    assert [(start, end) for start, end, _ in read] == [(cue.start_ms, cue.end_ms) for cue in CUES]
    assert [text.replace(WORD_JOINER, "") for *_, text in read] == ["\n".join(cue.lines) for cue in CUES]
    assert words(" ".join(text for *_, text in read).replace(WORD_JOINER, "")) == words(" ".join(HARD_TEXTS))


def test_pysubs2_reads_the_same_srt() -> None:
    read = pysubs2.SSAFile.from_string(srt(CUES), format_="srt", keep_unknown_html_tags=True)
    assert [(each.start, each.end) for each in read] == [(cue.start_ms, cue.end_ms) for cue in CUES]


def test_webvtt_py_and_pysubs2_read_the_same_vtt() -> None:
    text = webvtt(CUES)
    assert text.startswith("WEBVTT\n\n")
    read = webvtt_reader.from_buffer(io.StringIO(text))
    assert [html.unescape(each.raw_text) for each in read] == ["\n".join(cue.lines) for cue in CUES]
    other = pysubs2.SSAFile.from_string(text, format_="vtt")
    assert [(each.start, each.end) for each in other] == [(cue.start_ms, cue.end_ms) for cue in CUES]


def test_webvtt_holds_no_arrow_or_tag_but_its_own() -> None:
    body = [line for line in webvtt(CUES).split("\n")[1:] if not re.match(r"\d\d:\d\d:\d\d\.\d{3} --> ", line)]
    assert not any("-->" in line or "<" in line for line in body)
    assert any("&lt;" in line for line in body) and any("&amp;" in line for line in body)


def test_srt_holds_no_arrow_tag_or_override_but_its_own() -> None:
    """SubRip knows no escape: its readers act on tags, on an override in braces, and some on any arrow."""
    made = of("So <i>not slanted</i> {\\an8}not above, a --> b, 2 < 3 and {braces} stay.", 0, 20)
    text = srt(made)
    assert text.count("-->") == len(made)
    assert not re.search(r"</?[a-z]|\{\\", text)
    shown = " ".join(told for *_, told in read_by_ffmpeg(text)).replace(WORD_JOINER, "")
    assert words(shown) == words("So <i>not slanted</i> {\\an8}not above, a --> b, 2 < 3 and {braces} stay.")


def test_hand_worked_cues() -> None:
    made = of("Four grooves, three places round each tire. The lowest number counts.", 10, 17)
    assert [" ".join(cue.lines) for cue in made] == [
        "Four grooves, three places round each tire.", "The lowest number counts.",
    ]  # fmt: skip
    assert made[0].lines == ("Four grooves,", "three places round each tire.")  # parted where one breathes
    assert made[0].start_ms == 10_000 and made[-1].end_ms == 17_000 and made[0].end_ms == made[1].start_ms
    # letters and marks without spaces, counted by hand: 4+8+5+6+5+4+5 = 37 and 3+6+6+7 = 22, of 59 in 7 s
    assert made[0].end_ms == round(10_000 + 7000 * 37 / 59)


@pytest.mark.parametrize(
    ("text", "together"),
    [
        ("The placard at the door asks for 35 psi and that is 241 kPa at the pump.", ("35 psi", "241 kPa")),
        ("At freezing weather the pressure that you find is 21.7 psi and no more.", ("21.7 psi",)),
        ("A new pair at the rear would come to 218.00 USD with the work in it.", ("218.00 USD",)),
        ("Between the axles that makes 4/32 in (3.2 mm) and at least 4,700 miles.",
         ("4/32 in", "3.2 mm", "4,700 miles")),
    ],
)  # fmt: skip
@pytest.mark.parametrize("before", ["", "So ", "Well, then, ", "Now look at this here: ", "One more thing to say and "])
def test_a_number_never_parts_from_its_unit(before: str, text: str, together: tuple[str, ...]) -> None:
    lines = [line for cue in of(before + text, 0, 6) for line in cue.lines]
    assert all(any(number in line for line in lines) for number in together), lines


def test_no_word_flashes_at_the_end_of_a_sentence() -> None:
    # at 150 words a minute "June." alone would stand for 0.4 s
    text = "This is the tire that ended it all for us on the long way home, one screw in June. It went flat."
    made = of(text, 0, 8.8)
    assert min(len(words(" ".join(cue.lines))) for cue in made) >= 2
    assert min(cue.end_ms - cue.start_ms for cue in made) >= 1000
    assert too_fast(made) == ()


def test_a_short_point_stands_on_into_the_silence_after_it() -> None:
    points = (point("June.", 0, 0.4), point("It went flat on the way home.", 5, 8))
    segment = TimedSegment(id="a", title="A", start=Fraction(0), end=Fraction(8), points=points)
    first, _ = cues_of(Schedule(title="x", segments=(segment,)))
    assert (first.start_ms, first.end_ms) == (0, 1000)


def test_a_short_point_joins_the_one_that_follows_at_once() -> None:
    points = (point("June.", 0, 0.4), point("It went flat on the way.", 0.4, 3))
    segment = TimedSegment(id="a", title="A", start=Fraction(0), end=Fraction(3), points=points)
    (cue,) = cues_of(Schedule(title="x", segments=(segment,)))
    assert " ".join(cue.lines) == "June. It went flat on the way."


SPOKEN = "the tire of a screw, left. rear 5/32 in 35 psi and measured is that groove; front wide"
WORDS = st.sampled_from(SPOKEN.split())


@settings(max_examples=300)
@example([["in", "left.", "in", "front", "the", "the", "tire", "of"]], 130)
@given(st.lists(st.lists(WORDS, min_size=4, max_size=30), min_size=1, max_size=6), st.sampled_from([130, 150, 170]))
def test_talk_at_a_speakers_pace_gives_cues_that_can_be_read(texts: list[list[str]], pace: int) -> None:
    """Each cue has its second and its 0.3 s a word, by the conventions' least, wherever a whole point has."""
    points, at = [], 0.0
    for text in texts:
        long = len(text) * 60 / pace
        points.append(point(" ".join(text), at, at + long))
        at += long
    segment = TimedSegment(id="a", title="A", start=Fraction(0), end=Fraction(at), points=tuple(points))
    made = cues_of(Schedule(title="x", segments=(segment,)))
    assert words(" ".join(line for cue in made for line in cue.lines)) == [word for text in texts for word in text]
    assert all(cue.end_ms - cue.start_ms >= 999 for cue in made)
    assert all(len(words(" ".join(cue.lines))) > 1 for cue in made)
    assert all(len(line) <= 37 for cue in made for line in cue.lines)


@pytest.mark.parametrize("demo", sorted(shipped.demos().glob("*.json")), ids=lambda path: path.stem)
def test_the_demos_captions_can_be_read_along_and_are_read_back(demo: Path) -> None:
    episode = open_episode(demo)
    made = cues_of(scheduled(episode, decide(episode, load_tables()), {}, {}, {}))
    assert len(made) > 20 and too_fast(made) == ()
    assert all(cue.end_ms - cue.start_ms >= 1000 for cue in made)
    lines = [line for cue in made for line in cue.lines]
    after_numbers = [after for line, after in itertools.pairwise(lines) if line[-1].isdigit()]
    assert not [line for line in after_numbers if re.match(r"(psi|kPa|mm|in|mi|km|USD|EUR|%|°C|°F)\b", line)]
    assert [told.replace(WORD_JOINER, "") for *_, told in read_by_ffmpeg(srt(made))] == [
        "\n".join(cue.lines) for cue in made
    ]
    read = webvtt_reader.from_buffer(io.StringIO(webvtt(made)))
    assert [html.unescape(each.raw_text) for each in read] == ["\n".join(cue.lines) for cue in made]


TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=300)


@given(TEXTS, st.floats(1, 120))
def test_any_text_gives_cues_within_the_limits(text: str, length: float) -> None:
    made = of(text, 3, 3 + length)
    for cue in made:
        assert 1 <= len(cue.lines) <= 2
        assert all(0 < len(line) <= 37 for line in cue.lines)
        assert cue.end_ms - cue.start_ms <= 7000
    for cue, following in itertools.pairwise(made):
        assert following.start_ms == cue.end_ms or following.start_ms - cue.end_ms >= 1000
    assert [(start, end) for start, end, _ in read_by_ffmpeg(srt(made))] == [(cue.start_ms, cue.end_ms) for cue in made]


def test_a_long_silence_after_few_words_is_left_empty() -> None:
    (cue,) = of("Listen.", 0, 30)
    assert (cue.start_ms, cue.end_ms) == (0, 7000)


@pytest.mark.parametrize(("seconds", "fast"), [(3.1, 0), (2.9, 1)])
def test_less_than_three_tenths_of_a_second_a_word_is_too_fast(seconds: float, fast: int) -> None:
    made = of("one two three four five six seven eight nine ten", 0, seconds)
    assert bool(too_fast(made)) == bool(fast)
