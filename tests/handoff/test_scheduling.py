"""The rundown in time: planned, by a take, pictures with their points, steps at their reading times."""

import datetime as dt
from fractions import Fraction

from msgspec.structs import replace

from studio.graphics.timing import step_holds
from studio.handoff.scheduling import recorded_take
from studio.model.rundown import PictureCue, Point, Rundown, Segment, Take, TakeTime
from tests.handoff.materials import demo, material_of

TEN = "one two three four five six seven eight nine ten"


def episode(*segments: Segment, **more: object):
    return replace(demo(), rundown=Rundown(segments=segments, words_per_minute=120, **more))


def test_planned_times_worked_by_hand() -> None:
    # 120 words a minute: ten words take 5 s
    made = material_of(
        episode(
            Segment(id="a", title="A", points=(Point(text=TEN, pause_s=2), Point(text=f"{TEN} {TEN}"))),
            Segment(id="b", title="B", points=(Point(text=TEN),)),
        ),
        (),
    ).schedule
    first, second = made.segments
    assert [(p.start, p.end) for p in first.points] == [(0, 5), (7, 17)]
    assert (first.start, first.end, second.start, second.end) == (0, 17, 17, 22)
    assert "120 words a minute" in made.basis


def test_a_recorded_take_gives_the_times() -> None:
    take = Take(on=dt.date(2026, 11, 15), recorded=True, times=(
        TakeTime(segment="a", start_s=10, end_s=20), TakeTime(segment="b", start_s=22, end_s=30),
    ))  # fmt: skip
    segments = (
        Segment(id="a", title="A", points=(Point(text=TEN), Point(text=f"{TEN} {TEN}"))),
        Segment(id="b", title="B", points=(Point(text=TEN),)),
    )
    made = material_of(episode(*segments, takes=(take,)), ()).schedule
    assert [(s.start, s.end) for s in made.segments] == [(0, 12), (12, 20)]
    assert [(p.start, p.end) for p in made.segments[0].points] == [(0, 4), (4, 12)]
    assert made.basis == "by the take of 2026-11-15"


def test_a_take_out_of_order_or_of_other_segments_is_no_schedule() -> None:
    segment = Segment(id="a", title="A", points=(Point(text=TEN),))
    backwards = Take(on=dt.date(2026, 11, 15), recorded=True, times=(TakeTime(segment="a", start_s=9, end_s=3),))
    other = Take(on=dt.date(2026, 11, 15), recorded=True, times=(TakeTime(segment="z", start_s=1, end_s=3),))
    rehearsed = Take(on=dt.date(2026, 11, 15), times=(TakeTime(segment="a", start_s=1, end_s=3),))
    assert recorded_take(episode(segment, takes=(backwards, other, rehearsed))) is None


def test_pictures_stand_from_their_point_to_the_next_picture() -> None:
    cues = (
        PictureCue(picture="size_code"), PictureCue(picture="axle_match", with_point=1),
        PictureCue(picture="depth_by_wheel", with_point=1),
    )  # fmt: skip
    segment = Segment(id="a", title="A", points=(Point(text=TEN), Point(text=f"{TEN} {TEN}")), pictures=cues)
    (timed,) = material_of(episode(segment)).schedule.segments
    assert [(p.picture, p.start, p.end) for p in timed.pictures] == [
        ("size_code", 0, 5), ("axle_match", 5, 10), ("depth_by_wheel", 10, 15),
    ]  # fmt: skip
    assert timed.pictures[0].file == "pictures/size_code.png"


def test_steps_come_at_their_reading_times_where_there_is_room() -> None:
    long = Segment(
        id="a", title="A", points=(Point(text=" ".join([TEN] * 40)),), pictures=(PictureCue(picture="axle_match"),)
    )
    material = material_of(episode(long))
    (picture,) = material.schedule.segments[0].pictures
    holds = step_holds(material.scenes["axle_match"])
    assert [step.start for step in picture.steps] == [sum(holds[:n], Fraction(0)) for n in range(len(holds))]


def test_only_the_steps_that_are_wanted_are_marked() -> None:
    whole = material_of(demo()).scenes["axle_match"].steps
    cue = PictureCue(picture="axle_match", steps=(whole[1], whole[-1]))
    segment = Segment(id="a", title="A", points=(Point(text=TEN),), pictures=(cue,))
    (picture,) = material_of(episode(segment)).schedule.segments[0].pictures
    assert [step.name for step in picture.steps] == [whole[1], whole[-1]]
    assert all(0 <= step.start < 5 for step in picture.steps)


def test_a_cue_of_a_point_or_a_picture_that_is_not_there_stays_within_its_segment() -> None:
    cues = (PictureCue(picture="no_such_picture", with_point=99),)
    (timed,) = material_of(episode(Segment(id="a", title="A", pictures=cues))).schedule.segments
    assert [(p.name, p.file, p.start, p.end) for p in timed.pictures] == [("no_such_picture", "", 0, 0)]
