"""Cautions that stand by themselves, and what paid ties owe (16 CFR 255.0(f), 255.5: seen and heard)."""

import pytest

from studio.model.rundown import PaidTie, Point, Rundown, Segment, Shot
from studio.reference.tables import load_tables
from studio.script.duties import cautions_of, duties_of, script_cautions

TABLES = load_tables()


def segment(text: str = "", shows: tuple[str, ...] = (), shot: str = "") -> Segment:
    shots = (Shot(text=shot),) if shot else ()
    return Segment(id="a", title="A segment", points=(Point(text=text),), shows=shows, shots=shots)


@pytest.mark.parametrize(
    ("text", "caution"),
    [
        ("We jack up the car.", "jacking"), ("Lift the corner until the wheel is free.", "jacking"),
        ("The wheel nuts get a hundred.", "wheel_nuts"), ("Set the torque wrench.", "wheel_nuts"),
        ("The small spare goes on.", "temporary_spare"), ("Now inflate it.", "inflating"),
        ("We fill the tires in the shop.", "inflating"), ("See that bulge?", "damage"),
        ("The cut in the sidewall is deep.", "damage"), ("A plug from outside is not enough.", "repair"),
        ("It was patched last month.", "repair"), ("A puncture in the shoulder.", "repair"),
    ],
)  # fmt: skip
def test_words_bring_their_caution(text: str, caution: str) -> None:
    assert caution in [its.caution.id for its in cautions_of(segment(text), TABLES)]
    duties = duties_of(Rundown(segments=(segment(text),)), TABLES)
    assert caution in [duty.caution for duty in duties] and all(duty.sentence.endswith(".") for duty in duties)


def test_shots_and_titles_count_too() -> None:
    assert "jacking" in [its.caution.id for its in cautions_of(segment(shot="The jack under the sill"), TABLES)]


@pytest.mark.parametrize("caution", sorted(TABLES.cautions))
def test_what_a_segment_shows_carries_its_caution_without_more_ado(caution: str) -> None:
    (its,) = [c for c in cautions_of(segment(shows=(caution,)), TABLES) if c.caution.id == caution]
    assert its.named and its.caution.text == TABLES.cautions[caution].text
    assert duties_of(Rundown(segments=(segment(shows=(caution,)),)), TABLES) == ()


def test_plain_talk_carries_nothing_and_unknown_work_is_named() -> None:
    assert cautions_of(segment("Look at the code on the side."), TABLES) == ()
    (duty,) = duties_of(Rundown(segments=(segment(shows=("juggling",)),)), TABLES)
    assert duty.kind == "unknown_work" and "'juggling'" in duty.sentence and "jacking" in duty.sentence


@pytest.mark.parametrize(
    ("tie", "kinds"),
    [
        (PaidTie(what="a gauge", segment="a", line="It was lent to us.", card="Gauge lent"), []),
        (PaidTie(what="a gauge", segment="a", line=" ", card="Gauge lent"), ["tie_line"]),
        (PaidTie(what="a gauge", segment="a", line="It was lent to us."), ["tie_card"]),
        (PaidTie(what="a gauge", segment="b", line="It was lent to us.", card="x"), ["tie_segment"]),
        (PaidTie(what="", line="", card=""), ["tie_line", "tie_segment", "tie_card"]),
    ],
)
def test_a_paid_tie_owes_a_line_a_place_and_a_card(tie: PaidTie, kinds: list[str]) -> None:
    duties = duties_of(Rundown(segments=(segment(),), paid_ties=(tie,)), TABLES)
    assert [duty.kind for duty in duties] == kinds


def test_the_scripts_cautions_are_those_of_its_segments() -> None:
    rundown = Rundown(segments=(segment("jack"), segment(shows=("wheel_nuts",))))
    assert [its.caution.id for its in script_cautions(rundown, TABLES)] == ["jacking", "wheel_nuts"]
