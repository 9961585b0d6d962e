"""A small schedule whose times were chosen by hand, with texts that files of captions trip over."""

from fractions import Fraction

from studio.handoff.schedule import Schedule, TimedPicture, TimedPoint, TimedSegment, TimedStep


def point(text: str, start: float, end: float) -> TimedPoint:
    return TimedPoint(text=text, start=Fraction(start), end=Fraction(end), spoken_words=len(text.split()))


HARD_TEXTS = (
    'Tread < 2 mm & worn --> off it comes. "Really?" asked nobody, 🙂 and that was that.',
    "00:00:01,000 --> 00:00:02,000 is what a timing looks like.",
    "One\n\ntwo, <b>three</b> & four: five thirty-seconds of an inch, or 5/32 in, is 4.0 mm.",
)
SMALL = Schedule(
    title="One tire & \"four\" <new>",
    basis="reading pace",
    segments=(
        TimedSegment(
            id="opening", title="Is 2/32 in --> enough? <b>", start=Fraction(0), end=Fraction(20),
            points=(point(HARD_TEXTS[0], 0, 9), point(HARD_TEXTS[1], 9.5, 18)),
            pictures=(
                TimedPicture(
                    picture="depth_compare", name="Depths", file="pictures/01_depth_compare.png", start=Fraction(9.5),
                    end=Fraction(20),
                    steps=(TimedStep(name="drawing", start=Fraction(9.5)), TimedStep(name="legal", start=Fraction(12))),
                ),
            ),
            notes=("A rolling car can crush a hand.",),
        ),
        TimedSegment(
            id="second", title="Ünd nun 🙂", start=Fraction(20), end=Fraction(40),
            points=(point(HARD_TEXTS[2], 20, 38),),
        ),
        TimedSegment(id="third", title="End", start=Fraction(40), end=Fraction(121, 2)),
    ),
)  # fmt: skip
