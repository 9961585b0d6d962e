"""Captions, read back by two independent readers each, and held to the limits of subtitle guides."""

import html
import io
import itertools
import re
from fractions import Fraction

import av
import pysubs2
import pytest
import webvtt as webvtt_reader
from hypothesis import given
from hypothesis import strategies as st

from studio.handoff.captions import WORD_JOINER, Cue, cues_of, srt, too_fast, webvtt
from studio.handoff.schedule import Schedule, TimedSegment
from tests.handoff.schedules import HARD_TEXTS, SMALL, point

CUES = cues_of(SMALL)


def words(text: str) -> list[str]:
    return text.split()


def read_by_ffmpeg(text: str) -> list[tuple[int, int, str]]:
    """Begin and end in ms, and the words, of each cue that FFmpeg's own reader of SRT files finds."""
    with av.open(io.BytesIO(text.encode()), format="srt") as file:
        packets = [packet for packet in file.demux(subtitles=0) if packet.size]
    assert all(packet.time_base == Fraction(1, 1000) for packet in packets)
    return [(int(each.pts or 0), int((each.pts or 0) + (each.duration or 0)), bytes(each).decode()) for each in packets]


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
    shown = " ".join(each.content for each in srt_reader.parse(text)).replace(WORD_JOINER, "")
    assert words(shown) == words("So <i>not slanted</i> {\\an8}not above, a --> b, 2 < 3 and {braces} stay.")


def test_hand_worked_cues() -> None:
    made = of("Four grooves, three places round each tire. The lowest number counts.", 10, 17)
    assert [cue.lines for cue in made] == [
        ("Four grooves, three places round each", "tire."), ("The lowest number counts.",),
    ]  # fmt: skip
    assert made[0].start_ms == 10_000 and made[-1].end_ms == 17_000 and made[0].end_ms == made[1].start_ms
    # 37 + 5 signs of 67 in 7 s: 4.388 s
    assert made[0].end_ms == 14_388


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
