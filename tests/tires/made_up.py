"""Made-up markings for property tests: every combination that a sidewall may print."""

from hypothesis import strategies as st

from studio.tires.description import LOAD_INDICES, SPEED_SYMBOLS
from studio.tires.designation import Marking


@st.composite
def markings(draw) -> Marking:
    kind = draw(st.sampled_from(["metric", "metric", "metric", "flotation"]))
    rim = draw(st.sampled_from([13.0, 14.0, 15.0, 16.0, 16.5, 17.0, 18.0, 19.0, 20.0]))
    construction = draw(st.sampled_from(["radial", "radial", "diagonal", "bias-belted"]))
    radial = construction == "radial"
    index = draw(st.none() | st.integers(*LOAD_INDICES))
    symbol = None if index is None else draw(st.none() | st.sampled_from(SPEED_SYMBOLS))
    dual = None if index is None else draw(st.none() | st.integers(LOAD_INDICES[0], index))
    common = {
        "kind": kind, "rim_diameter_in": rim, "construction": construction, "load_index": index, "speed_symbol": symbol,
        "load_index_dual": dual, "run_flat": radial and draw(st.booleans()), "z_rated": radial and draw(st.booleans()),
        "bracketed": symbol is not None and dual is None and draw(st.booleans()), "extra_load": draw(st.booleans()),
        "marks": tuple(draw(st.lists(st.sampled_from(["M+S", "3PMSF", "ICE", "10PR", "OUTSIDE"]), unique=True))),
        "load_range": draw(st.none() | st.sampled_from("BCDEFG")),
    }  # fmt: skip
    if kind == "flotation":
        prefix, suffix = draw(st.sampled_from([("", ""), ("", "LT"), ("LT", "")]))
        diameter, width = draw(st.integers(26, 40)), draw(st.integers(20, 60)) / 4
        return Marking(**common, prefix=prefix, suffix=suffix, overall_diameter_in=diameter, section_width_in=width)
    prefix = draw(st.sampled_from(["", "P", "T", "LT", "ST", "HL"]))
    suffix = "" if prefix in ("LT", "ST") else draw(st.sampled_from(["", "C", "CP", "LT"]))
    width, aspect = draw(st.integers(20, 80)) * 5, draw(st.none() | st.integers(4, 19).map(lambda step: step * 5))
    return Marking(**common, prefix=prefix, suffix=suffix, width_mm=width, aspect_percent=aspect)
