"""The topics, in the order in which a viewer wants to know them."""

from studio.decide import (
    age,
    condition,
    gauges,
    life,
    matching,
    pressure,
    ratings,
    rotation,
    size,
    size_swap,
    slip,
    spare,
    tread_left,
    wear_effects,
    wear_pattern,
    wet,
)
from studio.decide.topic import Topic, from_parts

TOPICS: tuple[Topic, ...] = (
    Topic(id="tread_left", question="Can it stay on?", decide=from_parts(tread_left.parts, tread_left.conclude)),
    Topic(id="condition", question="What does the damage mean?",
          decide=from_parts(condition.parts, condition.conclude)),
    Topic(id="wear_pattern", question="How do they wear?",
          decide=from_parts(wear_pattern.parts, wear_pattern.conclude)),
    Topic(id="gauges", question="What do a coin and the bars show?", decide=from_parts(gauges.parts, gauges.conclude)),
    Topic(id="size", question="What does its sidewall say?", decide=from_parts(size.parts, size.conclude)),
    Topic(id="ratings", question="Can they carry the car?", decide=from_parts(ratings.parts, ratings.conclude)),
    Topic(id="pressure", question="Is the pressure right?", decide=pressure.decide),
    Topic(id="size_swap", question="Would another size do?",
          decide=from_parts(size_swap.parts, size_swap.conclude)),
    Topic(id="wet", question="When does it float on water?", decide=wet.decide),
    Topic(id="matching", question="Do they match?", decide=from_parts(matching.parts, matching.conclude)),
    Topic(id="slip", question="How unequally do they turn?", decide=from_parts(slip.parts, slip.conclude)),
    Topic(id="rotation", question="Where do they go next?", decide=from_parts(rotation.parts, rotation.conclude)),
    Topic(id="spare", question="What does the spare do?", decide=from_parts(spare.parts, spare.conclude)),
    Topic(id="age", question="How old is it?", decide=from_parts(age.parts, age.conclude)),
    Topic(id="life", question="How far will it go?", decide=from_parts(life.parts, life.conclude)),
    Topic(id="wear_effects", question="What does wear do to speed and distance?",
          decide=from_parts(wear_effects.parts, wear_effects.conclude)),
)
