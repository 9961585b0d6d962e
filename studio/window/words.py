"""What the choices of the model are called on the screen."""

from studio.model.places import CORNERS, place_words

TREADS = (
    ("plain", "plain"), ("directional", "directional"), ("asymmetric", "asymmetric"),
    ("asymmetric_directional", "asymmetric and directional"),
)  # fmt: skip
SEASONS = (("summer", "summer"), ("all_season", "all-season"), ("winter", "winter"), ("studded", "studded winter"))
PLACES = tuple((place, place_words(place)) for place in (*CORNERS, "spare", "bench"))
DEPTH_UNITS = (("32nds", "32nds"), ("mm", "mm"))
DAMAGES = (
    ("cut", "cut"), ("bulge", "bulge"), ("cord", "cord showing"), ("cracks", "cracks"),
    ("puncture", "nail or screw (puncture)"), ("flat_spot", "flat spot"), ("separation", "separation"),
    ("chunking", "chunks missing"), ("other", "other"),
)  # fmt: skip
ZONES = (
    ("crown", "tread (crown)"), ("shoulder", "shoulder"), ("sidewall", "sidewall"), ("bead", "bead"),
    ("unknown", "not noted"),
)  # fmt: skip
DRIVETRAINS = (
    (None, "not entered"), ("front", "front-wheel drive"), ("rear", "rear-wheel drive"), ("all", "all-wheel drive"),
    ("part_time_four", "part-time four-wheel drive"),
)  # fmt: skip
CERTIFIED = (
    (None, "not entered"), ("passenger_car", "passenger car"), ("mpv", "multipurpose vehicle"),
    ("light_truck", "light truck"),
)  # fmt: skip
TOLERANCES = (
    (None, "none given"), ("depth", "difference of depth"), ("circumference", "difference of circumference"),
    ("percent", "percent of circumference"),
)  # fmt: skip
PATTERNS = (
    ("", "not noted"), ("front_to_back", "front to back"), ("forward_cross", "forward cross"),
    ("rearward_cross", "rearward cross"), ("x", "X"), ("side_to_side", "side to side"),
)  # fmt: skip


def upper_first(text: str) -> str:
    """The text with its first letter large."""
    return text[:1].upper() + text[1:]
