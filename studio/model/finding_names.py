"""The names under which other rooms look for a finding's figures and details, so that a type checker knows a wrong one.

A name that is put together (of a wheel, a limit, a number) is not listed: ``figure_at`` and ``word_at`` ask for it.
"""

from typing import Literal

FigureName = Literal[
    "above_legal", "across_apart", "age", "apart_set", "aspect_ratio", "atmosphere", "axle_share", "axles_apart",
    "bought", "circumference_percent", "coin_diameter", "cost_until_next", "crown_half_width", "crown_width", "depth",
    "depth_least", "depth_new", "diameter_after", "diameter_apart", "diameter_change", "difference",
    "driving_temperature", "drop_doubt", "expected", "filling_temperature", "hole_most", "interval", "lamp", "left",
    "left_legal_minimum", "left_wet_advice", "legal_minimum", "load", "load_dual", "load_index_change", "made_week",
    "made_year", "more", "outlay", "overall_diameter", "placard_load", "placard_speed", "rating_each_divided",
    "reported_from", "rim_diameter", "section_height", "section_width", "shown_at", "shown_to", "since", "size",
    "speed", "speed_shown", "street", "tape_difference", "tolerance_circumference", "tread_depth_new", "true_at_60",
    "true_speed", "turns_difference", "turns_main", "turns_spare", "usable_left", "wear_bar", "wear_per_1000",
    "weather", "winter_advice",
]  # fmt: skip
WordName = Literal[
    "after", "after_size", "also", "avoid", "axle", "before_size", "beside", "beside_size", "brief_meaning", "cause",
    "cause_words", "check", "coin", "cold", "construction", "currency", "damage", "decade", "deepest", "digits",
    "filled", "first_avoid", "first_day", "first_day_of_year", "kind", "landmark", "load_index", "load_index_placard",
    "look", "lowest_at", "lowest_groove", "marking", "name", "next", "next.about", "not_drawn", "objection", "on",
    "permitted", "placard", "readings", "reason", "relation", "repairable", "ruled_out", "shallowest", "short_of",
    "sidewall", "since_brief", "size", "sizes", "speed", "speed_shown", "speed_symbol_placard", "standing", "state",
    "tires", "told", "tolerance_form", "true_speed", "undated", "unplaced", "weakest", "words", "years", "zone",
]  # fmt: skip
