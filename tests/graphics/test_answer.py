"""The picture of a viewer's answer: their own words, the finding's numbers, the caution; nothing of who asked."""

import datetime as dt

import pytest
from msgspec.structs import replace

from studio.decide import decide
from studio.graphics.answer import AnswerPicture, asked_in_short, shortened
from studio.graphics.catalogue import CannotShow, Request
from studio.graphics.frame import FRAMES, Frame, read_frame
from studio.graphics.look import shipped_looks
from studio.graphics.scene import Scene, Shape
from studio.model.episode import Episode, PictureChoice
from studio.model.question import CorrectedFact, Question
from studio.questions.told import with_answer
from studio.reference.tables import load_tables
from tests.graphics.lint import complaints, unbacked_numbers

ON = dt.date(2026, 11, 14)
LOOKS = shipped_looks()
DEPTH = "is 3/32 on my rear left still ok for the winter?"
PRAISE = "Great video!"
BULGE = "There is a bulge in the sidewall, can I drive on it?"
TEXTS = {
    "depth": DEPTH,
    "match": "AWD, left front 5/32, right front 8/32. Too much?",
    "size": "can i run 235/65R17 instead of 225/65R17?",
    "age": "code says 4815, are they too old?",
    "pressure": "35 psi at 68F in the garage, what will it read at 10F?",
    "rotation": "front wheel drive, which rotation pattern?",
    "life": "10/32 new, 6/32 after 20000 miles, how far will they go?",
    "floating": "I run 35 psi, at what speed do they hydroplane?",
    "hole": "nail in the shoulder, can it be patched?",
    "bulge": BULGE,
    "code": "what does 98T mean?",
    "units": "how many mm is 5/32?",
}
SHAPES = {**FRAMES, "narrow": read_frame("720x1600"), "small": read_frame("1280x720")}


def episode(*texts: str, **more: object) -> Episode:
    questions = tuple(Question(id=f"q{number}", text=text) for number, text in enumerate(texts, start=1))
    return Episode(title="Asked", on=ON, questions=questions, **more)  # type: ignore[arg-type]


def drawn(its: Episode, frame: Frame = FRAMES["wide"], look: str = "chalk", title: str = "") -> Scene:
    findings = with_answer(its, decide(its, load_tables()), load_tables())
    picture = AnswerPicture()
    return picture.compose(picture.data(its, findings, Request(units=its.units, title=title)), frame, LOOKS[look])


def texts(scene: Scene, name: str) -> str:
    return " ".join(mark.text for mark in scene.texts if mark.name.startswith(name))


@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("kind", TEXTS)
def test_every_kind_of_question_is_drawn_without_fault(kind: str, shape: str, look: str) -> None:
    assert complaints(drawn(episode(TEXTS[kind]), SHAPES[shape], look)) == []


@pytest.mark.parametrize("kind", TEXTS)
def test_every_number_is_the_viewers_or_the_findings(kind: str) -> None:
    its = episode(TEXTS[kind])
    asked = with_answer(its, decide(its, load_tables()), load_tables()).asked[0]
    assert unbacked_numbers(drawn(its), [asked.finding], [TEXTS[kind]]) == []


def test_the_words_are_the_viewers_own_and_the_number_has_both_units() -> None:
    """3/32 in is 2.38 mm; 49 CFR 570.9(a) asks for 2/32 in."""
    scene = drawn(episode(DEPTH))
    assert texts(scene, "slip/line") == DEPTH
    assert texts(scene, "number/line0").split() == ["3/32", "in"] and "2.4 mm" in texts(scene, "number/line1")
    assert texts(scene, "scale/limit") == "limit 2/32 in" and "49 CFR 570.9" in texts(scene, "sources")
    assert "Worn tread" in texts(scene, "caution") and scene.findings == ("answer.q1",)


def test_number_and_limit_stand_to_one_scale_on_the_bar() -> None:
    """3 and 2 of one unit: the bar's end and the limit's line are as 3 to 2 from the bar's start."""
    shapes = {mark.name: mark for mark in drawn(episode(DEPTH)).marks if isinstance(mark, Shape)}
    across = [float(its[1]) for its in shapes["gauge/value"].outline if len(its) > 1]
    left, right = min(across), max(across)
    limit = float(shapes["gauge/limit"].outline[0][1])
    assert (limit - left) / (right - left) == pytest.approx(2 / 3, abs=0.005)


def test_damage_says_what_not_to_do_in_place_of_a_number() -> None:
    scene = drawn(episode(BULGE))
    assert "do not drive" in texts(scene, "avoid").lower() and not texts(scene, "number")


def test_the_first_that_can_be_answered_is_shown_or_the_one_chosen() -> None:
    its = episode(PRAISE, DEPTH, BULGE)
    assert "3/32" in texts(drawn(its), "slip/line")
    chosen = replace(its, pictures=(PictureChoice(picture="answer", specimens=("q3",)),))
    assert "bulge" in texts(drawn(chosen), "slip/line")
    aside = replace(its, questions=(its.questions[0], replace(its.questions[1], state="set_aside"), its.questions[2]))
    assert "bulge" in texts(drawn(aside), "slip/line")


def test_what_the_presenter_set_right_is_what_is_drawn() -> None:
    its = episode(DEPTH)
    right = replace(its.questions[0], corrected=(CorrectedFact(field="depth", value="6/32"),))
    assert texts(drawn(replace(its, questions=(right,))), "number/line0").startswith("6/32")


@pytest.mark.parametrize("its", [episode(), episode(PRAISE), episode("is my tread ok")])
def test_without_a_question_that_can_be_answered_it_says_so(its: Episode) -> None:
    with pytest.raises(CannotShow, match="no question has been asked yet"):
        drawn(its)


def test_markup_and_signs_that_no_face_has_do_no_harm() -> None:
    hostile = "<b>3/32</b> &amp; {{7*7}} 😀 \u202eleft\u202c $5 $$ is it ok?"
    scene = drawn(episode(hostile))
    assert "<b>3/32</b> &amp; {{7*7}}" in texts(scene, "slip/line") and complaints(scene) == []


def test_a_long_comment_keeps_its_beginning_and_what_it_asks() -> None:
    long = "First we measured. " + "Then we talked about it for a while. " * 20 + "Are 3/32 enough?"
    assert shortened(long).startswith("First we measured.") and shortened(long).endswith("… Are 3/32 enough?")
    assert len(shortened(long)) <= 190 and asked_in_short(long) == "… Are 3/32 enough?"
    assert shortened("word " * 200).endswith("…") and len(asked_in_short("word " * 200)) <= 72
    assert shortened("short one?") == "short one?"


def test_metric_comes_first_where_the_episode_says_so() -> None:
    assert texts(drawn(episode(DEPTH, units="metric", region="de")), "number/line0").split() == ["2.4", "mm"]
