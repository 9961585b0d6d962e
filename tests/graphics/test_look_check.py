"""Legibility of a look, pair by pair: the shipped ones hold, and what does not is named with its ratio."""

import json
from typing import Any

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.graphics.color import contrast
from studio.graphics.look import shipped_looks
from studio.graphics.look_check import LEAST_APART, check, cut, faults, pairs, remarks, verdicts
from studio.graphics.look_parts import LookError, LookFile
from tests.graphics.own_look import values


def look(**more: Any) -> LookFile:
    return msgspec.json.decode(json.dumps(values(**more)), type=LookFile)


@pytest.mark.parametrize("its", shipped_looks().values(), ids=lambda its: its.id)
def test_the_shipped_looks_hold(its: LookFile) -> None:
    assert faults(its) == ()
    assert all(pair.holds for pair in pairs(its)) and all(pair.holds for pair in verdicts(its))
    assert {(pair.one, pair.other) for pair in pairs(its)} >= {("ink", "ground"), ("quiet", "plate")}
    assert len(verdicts(its)) == 6


def test_the_deciding_number_needs_seven() -> None:
    """The conventions: 7:1 for the deciding number, which stands in ink."""
    grey = look(ink="#666666", ground="#FFFFFF", plate="#FFFFFF")
    assert contrast("#666666", "#FFFFFF") == pytest.approx(5.74, abs=0.005)  # WCAG: enough for text, not for 7
    assert "ink on ground has contrast 5.74:1; at least 7:1 is needed" in faults(grey)


def test_a_ratio_is_never_rounded_up() -> None:
    assert cut(4.4999) == "4.49" and cut(4.5) == "4.50" and cut(9.996) == "9.99" and cut(0.29) == "0.29"


def test_verdicts_that_one_deficiency_confuses_are_named_with_it() -> None:
    wrong = look(verdicts={"keep": "#6F7A2E", "watch": "#E0A020", "rotate": "#4A83B8", "replace": "#8A5A2E"})
    found = [fault for fault in faults(wrong) if "verdicts.keep and verdicts.replace" in fault]
    assert len(found) == 1 and ("protan" in found[0] or "deutan" in found[0])
    assert f"at least {LEAST_APART:g} is needed" in found[0]


def test_two_equal_fills_are_refused_and_grey_is_only_remarked_on() -> None:
    same = {"keep": "#E0A020", "watch": "#E0A020", "rotate": "#4A83B8", "replace": "#9C2A0B"}
    assert any("keep and verdicts.watch are 0.00 apart" in fault for fault in faults(look(verdicts=same)))
    greys = remarks(shipped_looks()["night_bay"])
    assert len(greys) == 1 and "only their signs" in greys[0]


def test_the_check_names_the_look_and_the_first_pair() -> None:
    with pytest.raises(LookError, match=r"^Bay Seven: ink on ground has contrast 1\.\d\d:1; at least 7:1 is needed$"):
        check(look(ink="#DDDDDD"))


@given(st.integers(0, 0xFFFFFF), st.integers(0, 0xFFFFFF))
def test_a_pair_holds_exactly_where_its_contrast_does(ink: int, ground: int) -> None:
    its = look(ink=f"#{ink:06X}", ground=f"#{ground:06X}")
    said = any(fault.startswith("ink on ground") for fault in faults(its))
    assert said == (contrast(its.ink, its.ground) < 7)
