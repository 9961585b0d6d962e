"""The demo episodes are what a tire technician would believe, and what a saved file looks like."""

import re
from itertools import pairwise
from pathlib import Path

import pytest

from studio import shipped
from studio.decide import TOPICS, decide
from studio.headless.opening import open_episode
from studio.model.episode import Episode
from studio.model.specimen import Reading, Specimen
from studio.reference.tables import load_tables
from studio.storage.episode_file import encode

PATHS = sorted(shipped.demos().glob("*.json"))
EPISODES = {path.stem: open_episode(path) for path in PATHS}
VAN, ESTATE = EPISODES["minivan_one_new_tire"], EPISODES["estate_before_winter"]
each_demo = pytest.mark.parametrize("episode", EPISODES.values(), ids=EPISODES)
TIRES = [(f"{name}: {tire.id}", tire) for name, episode in EPISODES.items() for tire in episode.specimens]
each_tire = pytest.mark.parametrize("tire", [tire for _, tire in TIRES], ids=[name for name, _ in TIRES])


def mean_mm(reading: Reading) -> float:
    depths = [depth for groove in reading.depths for depth in groove if depth is not None]
    return sum(depths) / len(depths) * (25.4 / 32 if reading.unit == "32nds" else 1.0)


@pytest.mark.parametrize("path", PATHS, ids=lambda path: path.stem)
def test_the_file_is_as_a_save_would_write_it(path: Path) -> None:
    assert path.read_bytes() == encode(open_episode(path))


@each_tire
def test_dates_and_odometers_rise_and_tread_does_not_grow(tire: Specimen) -> None:
    """By hand a reading repeats itself to about 0.2 mm: common practice, no source."""
    for before, after in pairwise(tire.readings):
        assert before.on < after.on
        assert mean_mm(after) <= mean_mm(before) + 0.2
        if before.odometer and after.odometer:
            assert before.odometer.value < after.odometer.value


@each_tire
def test_the_first_reading_is_not_deeper_than_new_and_the_code_is_older_than_it(tire: Specimen) -> None:
    first = tire.readings[0]
    assert tire.depth_new is not None
    assert mean_mm(first) <= tire.depth_new.to("mm").value + 1e-9
    if len(tire.date_code) == 4:
        week, year = int(tire.date_code[:2]), 2000 + int(tire.date_code[2:])
        assert 1 <= week <= 52 and (year, week) < first.on.isocalendar()[:2]


@pytest.mark.parametrize("id_", ["tire_a", "tire_b", "tire_c", "tire_d", "tire_e"])
def test_the_vans_tires_wear_as_such_tires_do(id_: str) -> None:
    """0.8 to 1.6 thirty-seconds in 5,000 miles for a family car's all-season tires: common practice, no source."""
    tire = VAN.specimen(id_)
    assert tire is not None
    first, last = tire.readings[0], tire.readings[-1]
    assert first.odometer and last.odometer
    worn = (mean_mm(first) - mean_mm(last)) * 32 / 25.4
    assert 0.8 <= worn / (last.odometer.to("mi").value - first.odometer.to("mi").value) * 5_000 <= 1.6


def test_the_van_was_rotated_rearward_crosswise_and_each_tire_stood_where_that_put_it() -> None:
    """All-wheel drive: rear tires go straight forward, front ones crosswise to the rear: common practice, no source."""
    goes = {
        "rear_left": "front_left",
        "rear_right": "front_right",
        "front_left": "rear_right",
        "front_right": "rear_left",
    }
    assert {done.pattern for done in VAN.car.rotations} == {"rearward_cross"}
    moves = [done.on for done in VAN.car.rotations]
    for id_ in ("tire_a", "tire_b", "tire_c"):
        tire = VAN.specimen(id_)
        assert tire is not None
        place = str(tire.readings[0].place)
        for before, after in pairwise(tire.readings):
            for _ in [day for day in moves if before.on <= day < after.on]:
                place = goes[place]
            assert after.place == place
        assert tire.place == place


def test_the_estates_front_tires_wear_faster_as_the_front_wheels_drive() -> None:
    for season in ("summer", "winter"):
        for side in ("left", "right"):
            front, rear = (ESTATE.specimen(f"{season}_{axle}_{side}") for axle in ("front", "rear"))
            assert front is not None and rear is not None
            assert mean_mm(front.readings[-1]) < mean_mm(rear.readings[-1]) - 1.0


def test_the_front_summer_tires_are_worn_at_the_inner_edge() -> None:
    for side in ("left", "right"):
        tire = ESTATE.specimen(f"summer_front_{side}")
        assert tire is not None
        grooves = [[depth for depth in groove if depth is not None] for groove in tire.readings[-1].depths]
        assert 2.0 <= min(grooves[-1]) < 3.0 <= min(grooves[0])


@each_demo
def test_it_tells_a_story_in_segments_and_asks_without_a_name(episode: Episode) -> None:
    assert len(episode.story) > 300 and len(episode.rundown.segments) >= 5
    assert 1 <= len(episode.questions) <= 3
    for question in episode.questions:
        assert not re.search(r"@|https?:|\b(Mr|Mrs|Ms|Dr)\b|my name", question.text)


@each_demo
def test_what_the_rundown_speaks_of_is_there(episode: Episode) -> None:
    found = {finding.id for finding in decide(episode, load_tables())}
    topics = {topic.id for topic in TOPICS}
    named = {id_ for segment in episode.rundown.segments for point in segment.points for id_ in point.findings}
    assert {id_ for id_ in named if id_.split(".")[0] in topics} <= found
    ids = {specimen.id for specimen in episode.specimens}
    assert {id_ for choice in episode.pictures for id_ in choice.specimens} <= ids
