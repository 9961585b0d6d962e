"""What ended windows left is removed soon after the start, off the window's thread."""

import datetime as dt

from studio.window.tasks import Job, JobRunner, Progress


def start_sweep(jobs: JobRunner) -> None:
    """Remove the leavings of ended processes; nobody waits for it and nothing of a living one is touched."""
    jobs.run("Sweeping", _sweep_job, quiet=True)


def _sweep_job() -> Job:
    from studio.storage.leftovers import sweep  # not at start

    for done, _path in enumerate(sweep(dt.date.today()), start=1):
        yield Progress(done, 0)
