"""The rows of the list as plain values: numbers in both units, the scale's ends and direction, the table."""

import csv
import io

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.model.finding import Figure, Finding, Findings
from studio.model.quantity import length
from studio.window.findings_rows import COLUMNS, Heading, Row, deciding, rows, table
from studio.window.findings_scale import Scale
from tests.window.findings_samples import sample_decide, sample_episode

QUESTIONS = {"tread_left": "Can it stay on?", "matching": "Do they match?"}


def sample_rows(units="us"):
    return rows(sample_decide(sample_episode(), None), QUESTIONS, units)


def finding(**more):
    return Finding(id="x.y", topic="x", subject="y", sentence="A sentence.", **more)


def test_findings_stand_under_their_question_and_questions_without_findings_are_left_out():
    kinds = [row.question if isinstance(row, Heading) else row.finding.subject for row in sample_rows()]
    assert kinds == ["Can it stay on?", "front_left", "front_right", "rear_left", "rear_right", "Count", "car"]


def test_a_question_says_what_its_answers_call_for_the_gravest_first():
    first, last = sample_rows()[0], sample_rows()[5]
    assert (first.gravest, first.calls) == ("replace", "1 says replace, 1 says watch")
    assert (last.gravest, last.calls) == (None, "")


def test_numbers_are_in_the_audiences_unit_with_the_other_beside():
    row = sample_rows()[1]
    assert (row.number, row.other, row.limit) == ("7/32 in", "5.6 mm", "2/32 in")
    assert row.distance == "5/32 in above the limit"
    row = sample_rows("metric")[1]
    assert (row.number, row.other, row.limit) == ("5.6 mm", "7/32 in", "1.6 mm")  # 7 x 25.4 / 32 = 5.556


def test_a_length_is_not_taken_for_a_tread_depth():
    """An overall diameter in mm has the kind that its figure has; a depth in mm would be shown in 32nds."""
    figure = Figure(name="diameter", label="overall diameter", quantity=length(701.8))
    number = deciding(finding(value=701.8, unit="mm", figures=(figure,)))
    assert number is not None and number.in_system("us").unit == "in"
    worn = Figure(name="worn", label="circumference apart", quantity=length(23.7))
    inches = finding(value=23.7 / 25.4, unit="in", figures=(figure, worn))
    assert rows(Findings((inches,)), {}, "metric")[1].number == "23.7 mm"
    assert rows(Findings((inches,)), {}, "metric")[1].what == "circumference apart"
    plain = deciding(finding(value=4.0, unit="mm"))
    assert plain is not None and plain.in_system("us").unit == "32nds"


def test_all_scales_of_a_question_have_the_same_ends():
    scales = [row.scale for row in sample_rows() if isinstance(row, Row) and row.scale]
    assert len(scales) == 3
    assert len({(scale.low, scale.high) for scale in scales}) == 1
    assert scales[0].high > 7.75 and scales[0].low == 0


@pytest.mark.parametrize(
    "value,margin,better,words",
    [
        (5.0, 3.0, 1, "3/32 in above the limit"), (1.0, -1.0, 1, "1/32 in under the limit"),
        (1.0, 1.0, -1, "1/32 in under the limit"), (5.0, -3.0, -1, "3/32 in over the limit"),
        (2.0, 0.0, 0, "at the limit"),
    ],
)  # fmt: skip
def test_which_side_is_good_is_told_by_value_limit_and_margin(value, margin, better, words):
    row = rows(Findings((finding(value=value, unit="32nds", limit=2.0, margin=margin),)), {}, "us")[1]
    assert isinstance(row, Row) and row.scale is not None
    assert row.scale.better == better
    assert row.distance == words


def test_a_difference_of_temperatures_is_not_moved_by_the_zero_of_another_unit():
    row = rows(Findings((finding(value=20.0, unit="degC", limit=10.0, margin=10.0),)), {}, "us")[1]
    assert row.distance == "10 °C above the limit" and row.number == "68 °F"


def test_the_uncertainty_is_the_gauges_only_where_a_gauge_was_used():
    gauge = finding(value=5.0, unit="32nds", uncertainty=0.5, inputs=("specimens[0].readings[0].gauge.resolution",))
    fit = finding(value=8000.0, unit="km", uncertainty=900.0)
    gauge_row, fit_row = (rows(Findings((its,)), {}, "us")[1] for its in (gauge, fit))
    assert (gauge_row.doubt, fit_row.doubt) == ("gauge ±0.5/32 in", "give or take 559 mi")  # 900 km / 1.609344


def test_too_close_means_that_the_limit_lies_within_the_uncertainty():
    assert Scale(0, 10, 2.5, 2.0, 0.75).too_close
    assert not Scale(0, 10, 3.0, 2.0, 0.75).too_close


@given(low=st.floats(-50, 0), span=st.floats(0, 100), value=st.floats(-100, 200), other=st.floats(-100, 200))
def test_a_scale_keeps_the_order_of_its_numbers_and_stays_within_its_ends(low, span, value, other):
    scale = Scale(low, low + span, 0.0, 0.0)
    assert 0 <= scale.at(value) <= 1
    if value <= other:
        assert scale.at(value) <= scale.at(other)


def test_the_table_reads_back_as_rows_of_equal_length_and_computes_nothing():
    """Read with Python's own csv module; a leading = would run in a spreadsheet."""
    evil = msgspec.structs.replace(sample_rows()[1].finding, sentence="=1+1\tand\nmore")
    lines = list(csv.reader(io.StringIO(table([*sample_rows()[1:4], Row(evil)], QUESTIONS)), delimiter="\t"))
    assert lines[0] == list(COLUMNS)
    assert {len(line) for line in lines} == {len(COLUMNS)}
    assert lines[1][0] == "Can it stay on?" and lines[1][3] == "7/32 in"
    assert lines[-1][2] == "'=1+1 and more"


def test_a_finding_without_number_has_neither_scale_nor_distance():
    row = sample_rows()[-1]
    assert (row.number, row.scale, row.distance, row.doubt) == ("", None, "", "")
    assert row.spoken == "4 tires are on hand"
