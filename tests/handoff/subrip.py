"""SubRip files as FFmpeg's own reader finds them: a stranger to the program that wrote them."""

import io
from fractions import Fraction

import av


def read_by_ffmpeg(text: str) -> list[tuple[int, int, str]]:
    """Begin and end in ms, and the words, of each cue."""
    with av.open(io.BytesIO(text.encode()), format="srt") as file:
        packets = [packet for packet in file.demux(subtitles=0) if packet.size]
    assert all(packet.time_base == Fraction(1, 1000) for packet in packets)
    return [(int(each.pts or 0), int((each.pts or 0) + (each.duration or 0)), bytes(each).decode()) for each in packets]
