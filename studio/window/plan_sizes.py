"""How large the parts of the plan are, in px: known before anything is drawn."""

TAG = (132.0, 150.0)  # width and height of a tag beside a wheel, at 100 %
SIDE_TAG = (216.0, 132.0)  # of a tag of the spare or of a tire on the bench
MARGIN, GAP, CLOSE = 16.0, 24.0, 8.0
CAR_WIDTH = 150.0  # the least width left to the car


def least_width(percent: int) -> float:
    """The width that the plan needs."""
    scale = percent / 100
    return 2 * (MARGIN + TAG[0] * scale + GAP) + CAR_WIDTH
