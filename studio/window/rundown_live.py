"""Which live number stands for what was typed: found among a finding's numbers by how it reads."""

from studio.model.finding import Finding
from studio.model.quantity import System
from studio.script.live import Reference
from studio.script.numbers import VALUE, numbers_of
from studio.window.rundown_remarks import RemarkRow


def live_for(row: RemarkRow, finding: Finding) -> str:
    """The source text of the live number that takes the place of a typed one; empty where the finding has none."""
    numbers = numbers_of(finding)
    if not numbers or finding.verdict == "unknown":
        return ""
    expected = getattr(row.remark, "expected", "")
    systems: tuple[System, System] = ("us", "metric")
    reads = {name: [number.short(system) for system in systems] for name, number in numbers.items()}
    fits = (name for name, texts in reads.items() if any(text == expected for text in texts))
    name = next(fits, VALUE if VALUE in numbers else next(iter(numbers)))
    spoken = not any(c.isdigit() for c in row.said)
    return Reference(finding=finding.id, number=name, form="spoken" if spoken else "short").written()
