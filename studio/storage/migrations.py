"""Older formats of the episode file: a table of steps, each from plain data of one format to that of the next.

A step only moves what it knows to be there. What is not of the older shape it leaves alone, so that the strict
reading afterwards can say where the file is wrong.

Format 0, the first draft: pressures as bare numbers in psi, depths of a tire as one flat list ``depths_32nds`` taken
at a single place round the tire (grooves from the outer side in) with its date under ``measured_on``, one gauge for
the whole episode under ``gauge_32nds``, and the region in capitals.

Format 1, before the rundown could be spoken and timed: a segment's pictures as bare names.
"""

from collections.abc import Callable
from typing import Any

from studio.model.episode import FORMAT

Plain = dict[str, Any]


def upgrade(raw: Any, number: int) -> Any:
    """Bring ``raw``, read from a file of format ``number``, to the present format."""
    for step in range(number, FORMAT):
        if not isinstance(raw, dict):
            return raw
        raw = {**STEPS[step](raw), "format": step + 1}
    return raw


def from_0_to_1(raw: Plain) -> Plain:
    """Quantities get their units, and the flat list of depths becomes a reading with its grid."""
    gauge = {"resolution": {"value": raw.get("gauge_32nds", 1), "unit": "32nds"}}
    after = {name: value for name, value in raw.items() if name != "gauge_32nds"}
    if isinstance(region := raw.get("region"), str):
        after["region"] = region.lower()
    if isinstance(car := raw.get("car"), dict):
        after["car"] = _car_from_0(car)
    if isinstance(specimens := raw.get("specimens"), list):
        after["specimens"] = [_specimen_from_0(each, gauge) for each in specimens]
    return after


def _car_from_0(car: Plain) -> Plain:
    placard = car.get("placard")
    if not isinstance(placard, dict):
        return car
    return {**car, "placard": {name: _placard_tire_from_0(tire) for name, tire in placard.items()}}


def _placard_tire_from_0(tire: Any) -> Any:
    if not isinstance(tire, dict) or "pressure_psi" not in tire:
        return tire
    rest = {name: value for name, value in tire.items() if name != "pressure_psi"}
    return {**rest, "pressure": {"value": tire["pressure_psi"], "unit": "psi"}}


def _specimen_from_0(specimen: Any, gauge: Plain) -> Any:
    if not isinstance(specimen, dict) or "depths_32nds" not in specimen:
        return specimen
    gone = ("depths_32nds", "measured_on", "new_32nds")
    after = {name: value for name, value in specimen.items() if name not in gone}
    if "new_32nds" in specimen:
        after["depth_new"] = {"value": specimen["new_32nds"], "unit": "32nds"}
    depths = specimen["depths_32nds"]
    reading = {
        "on": specimen.get("measured_on"),
        "place": specimen.get("place"),
        "gauge": gauge,
        "unit": "32nds",
        "depths": [[depth] for depth in depths] if isinstance(depths, list) else depths,
    }
    return {**after, "readings": [reading]}


def from_1_to_2(raw: Plain) -> Plain:
    """A segment's pictures become cues, which can say with which point and with which steps they come."""
    rundown = raw.get("rundown")
    if not isinstance(rundown, dict) or not isinstance(rundown.get("segments"), list):
        return raw
    segments = [_segment_from_1(segment) for segment in rundown["segments"]]
    return {**raw, "rundown": {**rundown, "segments": segments}}


def _segment_from_1(segment: Any) -> Any:
    if not isinstance(segment, dict) or not isinstance(segment.get("pictures"), list):
        return segment
    cues = [{"picture": name} if isinstance(name, str) else name for name in segment["pictures"]]
    return {**segment, "pictures": cues}


STEPS: dict[int, Callable[[Plain], Plain]] = {0: from_0_to_1, 1: from_1_to_2}
