"""A few findings of our own with plain numbers, so that expected texts are arithmetic and not the program's."""

from studio.model.finding import Figure, Finding, Findings
from studio.model.quantity import Quantity, depth, length
from studio.model.source import Source

SOURCE = Source(title="a rule", locator="one", standing="common practice")
TREAD = Finding(
    id="tread_left.front_left", topic="tread_left", subject="front_left", sentence="Front left has 4/32 in left.",
    verdict="watch", value=4.0, unit="32nds", limit=2.0, limit_label="legal minimum", margin=2.0, uncertainty=0.75,
    figures=(
        Figure(name="depth", label="lowest reading", quantity=depth(4.0, "32nds")),
        Figure(name="depth_new", label="depth when new", quantity=depth(10.0, "32nds")),
        Figure(name="usable_left", label="usable tread left", quantity=Quantity(25.0, "%")),
    ),
    sources=(SOURCE,),
)  # fmt: skip
MATCH = Finding(
    id="matching.front_axle", topic="matching", subject="front_axle", sentence="Front tires are too far apart.",
    verdict="replace", value=0.8, unit="in", limit=0.5, limit_label="maker's tolerance", margin=-0.3,
    figures=(
        Figure(name="difference", label="difference of mean depth", quantity=depth(4.0, "32nds")),
        Figure(name="tape_difference", label="difference of circumference by tape", quantity=length(0.8 * 25.4)),
    ),
)  # fmt: skip
UNKNOWN = Finding(
    id="life.front_left", topic="life", subject="front_left", sentence="How far it will go is not known yet.",
    verdict="unknown", missing=("two readings",),
)  # fmt: skip
CHOICE = Finding(
    id="choices.four", topic="choices", subject="four", sentence="Four new tires: 784.00 USD.", value=784.0,
    unit="money", detail=(("currency", "USD"),),
)  # fmt: skip
MADE_UP = Findings((TREAD, MATCH, UNKNOWN, CHOICE))
