"""The topics, in the order in which a viewer wants to know them, and the picture that shows what each finds."""

from studio.decide import (
    age,
    choices,
    condition,
    gauges,
    life,
    matching,
    placard,
    pressure,
    ratings,
    repair_zone,
    rotation,
    rotation_plan,
    size,
    size_swap,
    slip,
    spare,
    tread_left,
    wear_effects,
    wear_pattern,
    wet,
)
from studio.decide.topic import Topic, from_parts, saying
from studio.model.finding import Finding
from studio.model.places import ON_CAR

TOPICS: tuple[Topic, ...] = (
    Topic(id="tread_left", question="Can it stay on?", picture="depth_by_wheel",
          decide=from_parts(tread_left.parts, tread_left.conclude)),
    Topic(id="condition", question="What does the damage mean?", picture="damage",
          decide=from_parts(condition.parts, condition.conclude)),
    Topic(id="repair_zone", question="Where could a hole be repaired?", picture="repair_zone",
          decide=from_parts(repair_zone.parts, repair_zone.conclude)),
    Topic(id="wear_pattern", question="How do they wear?", picture="wear_profile",
          decide=from_parts(wear_pattern.parts, wear_pattern.conclude)),
    Topic(id="gauges", question="What do a coin and the bars show?", picture="coins",
          decide=from_parts(gauges.parts, gauges.conclude)),
    Topic(id="size", question="What does its sidewall say?", picture="size_code",
          decide=from_parts(size.parts, size.conclude)),
    Topic(id="ratings", question="Can they carry the car?", picture="ratings",
          decide=from_parts(ratings.parts, ratings.conclude)),
    Topic(id="placard", question="What does the placard ask for?", picture="placard",
          decide=from_parts(placard.parts, placard.conclude)),
    Topic(id="pressure", question="Is the pressure right?", picture="pressure_temperature", decide=pressure.decide),
    Topic(id="size_swap", question="Would another size do?", picture="sizes_beside",
          decide=from_parts(size_swap.parts, size_swap.conclude)),
    Topic(id="wet", question="When does it float on water?", picture="hydroplaning", decide=wet.decide),
    Topic(id="matching", question="Do they match?", picture="axle_match",
          decide=from_parts(matching.parts, matching.conclude)),
    Topic(id="slip", question="How unequally do they turn?", picture="axle_match",
          decide=from_parts(slip.parts, slip.conclude)),
    Topic(id="rotation", question="Where do they go next?", picture="rotation",
          decide=from_parts(rotation.parts, rotation.conclude)),
    Topic(id="spare", question="What does the spare do?", picture="sizes_beside",
          decide=from_parts(spare.parts, saying(spare.conclude))),
    Topic(id="age", question="How old is it?", picture="date_code", decide=from_parts(age.parts, age.conclude)),
    Topic(id="life", question="How far will it go?", picture="life_left",
          decide=from_parts(life.parts, saying(life.conclude))),
    Topic(id="rotation_plan", question="What would rotating gain?", picture="rotation",
          decide=from_parts(rotation_plan.parts, saying(rotation_plan.conclude))),
    Topic(id="choices", question="Keep them, or buy how many?", picture="choices",
          decide=from_parts(choices.parts, choices.conclude)),
    Topic(id="wear_effects", question="What does wear do to speed and distance?",
          decide=from_parts(wear_effects.parts, wear_effects.conclude)),
)


def picture_of(finding: Finding) -> str:
    """The id of the picture that shows this finding; empty where none does."""
    if finding.topic == "tread_left" and finding.subject not in ON_CAR:
        return "depth_compare"  # a tire on the bench does not stand on the car's plan
    if finding.topic == "condition" and finding.word("kind") == "puncture":
        return "repair_zone"  # where the hole is decides, more than how it looks
    if finding.topic == "gauges" and finding.subject == "bars":
        return "wear_bars"
    return next((topic.picture for topic in TOPICS if topic.id == finding.topic), "")
