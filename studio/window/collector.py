"""Python's garbage is collected in the window's thread only.

Whichever thread happens to trigger the collector also runs the destructors of what it finds. A widget, timer or event
loop of the window that is destroyed in a job's thread crashes the program, so while jobs run the collector waits for
the window's thread to call it.
"""

import gc

_holders = 0


def hold() -> None:
    """A job begins: collect nothing by chance. Called in the window's thread."""
    global _holders
    _holders += 1
    gc.disable()


def release(count: int = 1) -> None:
    """So many jobs have ended. Called in the window's thread."""
    global _holders
    _holders = max(0, _holders - count)
    if _holders == 0:
        gc.enable()


def collect() -> None:
    """Collect the oldest generation that is due; called in the window's thread now and then while jobs run."""
    counts, thresholds = gc.get_count(), gc.get_threshold()
    due = [generation for generation in (0, 1, 2) if counts[generation] > thresholds[generation]]
    if due:
        gc.collect(due[-1])
