"""The truck of the demos: two sizes by its placard, a cut, a leaking hole and a bulge (common practice, no source)."""

from functools import lru_cache

from studio import shipped
from studio.decide import decide
from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.reference.tables import load_tables
from studio.storage.episode_file import decode
from tests.graphics.extremes import episode


@lru_cache
def truck() -> tuple[Episode, Findings]:
    whole = decode((shipped.demos() / "feed_truck_three_hurt_tires.json").read_bytes())
    return whole, decide(whole, load_tables())


def test_two_sizes_by_the_placard_are_not_asked_to_be_alike() -> None:
    whole, findings = truck()
    assert whole.car.placard.front.marking != whole.car.placard.rear.marking
    assert {finding.subject for finding in findings.of("matching")} == {"front_axle", "rear_axle"}


def test_one_size_by_the_placard_is_held_together_as_a_set() -> None:
    one_size = decide(episode("225/60R17 99H", 4), load_tables())
    assert one_size.get("matching.set") is not None


def test_nothing_is_rotated_while_a_tire_is_cut() -> None:
    finding = truck()[1].get("rotation.car")
    assert finding is not None and finding.verdict == "inspect"
    assert "cut" in finding.sentence and "checked" in finding.sentence


def test_no_hurt_tire_is_told_to_stay_on() -> None:
    _, findings = truck()
    for subject in ("front_right", "rear_left", "tire_4"):
        for topic in ("tread_left", "condition"):
            finding = findings.get(f"{topic}.{subject}")
            assert finding is not None and finding.verdict in ("inspect", "replace") and finding.caution
