"""What a campaign found, and the command line that all of them share."""

import argparse
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass, field


@dataclass(frozen=True, kw_only=True)
class Report:
    """What was done (numbers by name) and what went wrong (one line each; none is what is wanted)."""

    done: dict[str, int | float] = field(default_factory=dict)
    faults: tuple[str, ...] = ()

    def lines(self) -> list[str]:
        """The report for a person: what was done, then each fault."""
        done = [f"{name}: {number:g}" for name, number in self.done.items()]
        return [*done, *(f"FAULT: {fault}" for fault in self.faults), f"{len(self.faults)} faults"]


def main(run: Callable[[int, int], Report], description: str | None, usual_count: int) -> None:
    """Run a campaign from the command line; the process ends with 1 where it found a fault."""
    parser = argparse.ArgumentParser(description=description, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--seed", type=int, default=1, help="the same seed does the same (default: 1)")
    parser.add_argument("--count", type=int, default=usual_count, help=f"how much is done (default: {usual_count})")
    wanted = parser.parse_args()
    started = time.monotonic()
    report = run(wanted.seed, wanted.count)
    print("\n".join(report.lines()))
    print(f"seed {wanted.seed}, {time.monotonic() - started:.0f} s")
    sys.exit(1 if report.faults else 0)
