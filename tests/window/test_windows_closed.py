"""Window after window in one process, used, closed and collected at any moment: nothing is destroyed twice."""

from tests.campaigns.windows_closed import A_PROCESS, run


def test_forty_windows_are_used_and_closed_in_one_process() -> None:
    report = run(4, A_PROCESS)
    assert report.done == {"processes": 1, "windows": 40}
    assert not report.faults, "\n".join(report.lines())
