"""Edits of viewers' questions as plain functions from one episode to the next."""

import datetime as dt
from collections.abc import Iterable
from typing import Any

from msgspec.structs import replace

from studio.model.episode import Episode, PictureChoice
from studio.model.finding import Findings
from studio.model.question import Question
from studio.model.rundown import Dismissal, PictureCue, Point, Segment
from studio.questions.answer_values import Answer
from studio.questions.told import PICTURE
from studio.script.check import TITLE, check_script
from studio.window.pictures_choice import with_choice
from studio.window.questions_rows import first_line
from studio.window.rundown_edit import LONGEST_MARK, LONGEST_POINT, clean_text, free_id, insert_segments, with_rundown

_LONGEST_TITLE = 70
_OWN_WORDS = "The viewer's own words."
_COMPUTED = "Computed for the viewer's question, not for this episode's car."


def with_question(episode: Episode, place: int, question: Question) -> Episode:
    """The episode with another question at ``place``."""
    every = episode.questions
    return replace(episode, questions=(*every[:place], question, *every[place + 1 :]))


def with_state(episode: Episode, places: Iterable[int], state: str, today: dt.date) -> Episode:
    """The episode with the questions at ``places`` opened again, answered or set aside."""
    questions = list(episode.questions)
    for place in places:
        on = today if state == "answered" else None
        questions[place] = replace(questions[place], state=state, answered_on=on)
    return replace(episode, questions=tuple(questions))


def without(episode: Episode, places: Iterable[int]) -> Episode:
    """The episode without the questions at ``places``."""
    gone = set(places)
    return replace(episode, questions=tuple(its for at, its in enumerate(episode.questions) if at not in gone))


def shown_as_picture(episode: Episode, question: Question) -> Episode:
    """The episode whose picture of an answer shows this question."""
    choice = next((its for its in episode.pictures if its.picture == PICTURE), PictureChoice(picture=PICTURE))
    return with_choice(episode, replace(choice, specimens=(question.id,)))


def with_segment_of(episode: Episode, question: Question, its: Answer) -> tuple[Episode, str]:
    """The episode with a last segment that tells the question and its answer; the segment's id."""
    title = first_line(question.text)
    short = title if len(title) <= _LONGEST_TITLE else f"{title[:_LONGEST_TITLE].rsplit(' ', 1)[0]}…"
    said = [f"A viewer asks: {first_line(question.text)}", its.said]
    said += [other.said for other in its.also] + [its.caution]
    points = tuple(Point(text=_plain(text)[:LONGEST_POINT]) for text in dict.fromkeys(said) if text)
    segment = Segment(
        id=free_id(episode.rundown, f"viewer {question.id}"), title=_plain(f"Viewer: {short}"), points=points,
        pictures=(PictureCue(picture=PICTURE, with_point=min(1, len(points) - 1)),),
    )  # fmt: skip
    after = insert_segments(episode, len(episode.rundown.segments), (segment,))
    return shown_as_picture(after, question), segment.id


def with_marks_settled(episode: Episode, segment: str, findings: Findings, tables: Any) -> Episode:
    """The episode in which the number check knows that this segment's numbers are a viewer's, not the car's."""
    found = check_script(episode, findings, tables)
    reasons: dict[str, str] = {}
    marked = [(mark.segment, mark.point, mark.text.strip()) for mark in found.standing]
    marked += [(said.segment, said.point, said.text.strip()) for said in found.statements]
    for its, point, text in marked:
        if its == segment and len(text) <= LONGEST_MARK:
            reasons.setdefault(text, _OWN_WORDS if point in (TITLE, 0) else _COMPUTED)
    kept = tuple(Dismissal(segment=segment, text=text, reason=why) for text, why in reasons.items())
    return with_rundown(episode, dismissed=(*episode.rundown.dismissed, *kept))


def _plain(text: str) -> str:
    """Words for a talking point: braces would ask for a live number."""
    return clean_text(text).replace("{", "(").replace("}", ")")
