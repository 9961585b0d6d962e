"""Frame rates as exact ratios, times as counts of frames, and the labels that editing puts on them."""

from fractions import Fraction

from studio.model.rundown import Rate

RATES: dict[str, Fraction] = {
    "24000/1001": Fraction(24000, 1001), "25": Fraction(25), "30000/1001": Fraction(30000, 1001), "60": Fraction(60),
}  # fmt: skip
_DROPPED_PER_MINUTE = 2
_PER_TEN_MINUTES = 17_982  # frames of 30000/1001 in ten minutes of drop-frame label
_PER_MINUTE = 1_798


def read_rate(text: str) -> Rate:
    """``text`` as one of the rates; raises ValueError naming them."""
    if text not in RATES:
        raise ValueError(f"{text[:20]!r} is not a frame rate; expected one of {', '.join(RATES)}")
    return text  # type: ignore[return-value]


def frames_in(seconds: Fraction, rate: Rate) -> int:
    """The count of frames nearest to ``seconds``, halves up."""
    return int(seconds * RATES[rate] + Fraction(1, 2))


def seconds_of(frames: int, rate: Rate) -> Fraction:
    """The exact time of ``frames``."""
    return frames / RATES[rate]


def drops_labels(rate: Rate) -> bool:
    """Whether the rate's labels leave numbers out so that they keep to the clock (SMPTE ST 12-1)."""
    return rate == "30000/1001"


def timecode(frames: int, rate: Rate) -> str:
    """``frames`` as hours, minutes, seconds and frames; ``;`` before the frames where labels are dropped."""
    nominal = round(RATES[rate])
    if drops_labels(rate):
        tens, rest = divmod(frames, _PER_TEN_MINUTES)
        frames += 9 * _DROPPED_PER_MINUTE * tens
        if rest >= _DROPPED_PER_MINUTE:
            frames += _DROPPED_PER_MINUTE * ((rest - _DROPPED_PER_MINUTE) // _PER_MINUTE)
    seconds, frame = divmod(frames, nominal)
    minutes, second = divmod(seconds, 60)
    hour, minute = divmod(minutes, 60)
    return f"{hour:02d}:{minute:02d}:{second:02d}{';' if drops_labels(rate) else ':'}{frame:02d}"
