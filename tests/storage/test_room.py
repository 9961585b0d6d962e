"""Sizes agree: what can be brought in can be saved and opened, and what cannot is told before anything is replaced."""

import datetime as dt
import json
from pathlib import Path

import msgspec
import pytest

from studio.model.question import MOST_QUESTIONS, CorrectedFact, Question
from studio.storage import episode_file, room
from studio.storage.autosave import recoverable, write_rescue
from studio.storage.episode_file import decode, encode, load, save
from studio.storage.errors import EpisodeFileError
from studio.storage.folders import OVERRIDE
from studio.storage.room import NoRoom, check_room, check_size, file_size, shortened, shortened_remark
from tests.storage.episodes import SMALL, nothing_wrong

LONG = "My front tires wear on the inside, and nobody can tell me why; the shop says rotate. " * 12


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(OVERRIDE, str(tmp_path / "home"))


def asked(count: int, text: str = "") -> tuple[Question, ...]:
    return tuple(Question(id=f"q{n}", text=f"{n} {text}", on=dt.date(2026, 11, 14)) for n in range(count))


def with_questions(*questions: Question):
    return msgspec.structs.replace(SMALL, questions=questions)


def test_more_than_the_twenty_megabytes_that_were_read_once_is_saved_opened_and_rescued(tmp_path: Path) -> None:
    path = tmp_path / "ep.json"
    episode = with_questions(*asked(20_000, LONG))
    save(path, episode)
    assert path.stat().st_size > 20_000_000
    assert load(path, nothing_wrong) == episode
    path.unlink()
    write_rescue(path, episode)
    found = recoverable(path)
    assert found is not None and found.episode == episode


@pytest.mark.parametrize("count", [1, 499, 500, 501, 1203])
def test_lot_by_lot_the_layout_is_that_of_the_whole(count: int) -> None:
    facts = (CorrectedFact(field="marking", value="225/60R17"),)
    questions = [msgspec.structs.replace(each, corrected=facts if n % 3 else ()) for n, each in enumerate(asked(count))]
    episode = with_questions(*questions)
    content = encode(episode)
    assert decode(content) == episode
    assert tuple(json.loads(content)) == SMALL.__struct_fields__
    two_levels = json.dumps(json.loads(content)["questions"][-1], indent=2, ensure_ascii=False)
    assert two_levels.replace("\n", "\n    ").encode() in content


def test_a_question_that_cannot_be_written_is_named_by_its_number_among_all() -> None:
    questions = list(asked(700))
    questions[612] = msgspec.structs.replace(questions[612], text="x" * 10_001)
    with pytest.raises(EpisodeFileError, match=r"^questions\[612\]\.text: expected text of at most 10000 characters"):
        encode(with_questions(*questions))


def test_a_save_that_could_not_be_opened_again_replaces_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "ep.json"
    save(path, SMALL)
    before = path.read_bytes()
    monkeypatch.setattr(episode_file, "MOST_BYTES", 100_000)
    for write in (save, write_rescue):
        with pytest.raises(EpisodeFileError, match=r"0\.1 MB is too large; .* nothing was saved$"):
            write(path, with_questions(*asked(600)))
    assert [each.name for each in tmp_path.iterdir() if each.name != "home"] == ["ep.json"]
    assert path.read_bytes() == before


def test_what_is_no_question_keeps_the_smaller_limit(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(episode_file, "MOST_BYTES_BESIDE_QUESTIONS", 4_000)
    assert decode(encode(with_questions(*asked(500))))
    story = msgspec.structs.replace(SMALL, story="x" * 4_000)
    with pytest.raises(EpisodeFileError, match="without the questions is too large"):
        encode(story)
    hostile = msgspec.json.encode(msgspec.structs.replace(with_questions(*asked(3)), story="x" * 4_000))
    with pytest.raises(EpisodeFileError, match="without the questions is too large"):
        decode(hostile)


def test_too_many_questions_are_not_written() -> None:
    few = asked(1)
    with pytest.raises(EpisodeFileError, match="100,001 questions are too many; expected at most 100,000"):
        encode(with_questions(*(few * (MOST_QUESTIONS + 1))))


def test_a_huge_refused_file_is_not_read_a_second_time(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(episode_file, "_MOST_LOOKED_AT", 100)
    raw = {**json.loads(encode(SMALL)), "title": 5}
    with pytest.raises(EpisodeFileError) as caught:
        decode(json.dumps(raw).encode())
    assert str(caught.value) == 'title: expected text of at most 200 characters; for example "One new tire or four?"'


def test_the_size_told_before_is_never_less_than_that_of_the_file() -> None:
    facts = tuple(CorrectedFact(field=f"fact_{n}", value="a\n\"b\"") for n in range(5))
    full = Question(
        id="q123456", text='"\\\n' * 50, on=dt.date(2026, 1, 1), state="set_aside", corrected=facts, reply="r\n" * 9,
        answered_on=dt.date(2026, 1, 2), asked=1_000_000,
    )  # fmt: skip
    bare = len(encode(SMALL)) - file_size(SMALL)
    for questions in ((full,) * 300, asked(300), asked(300, LONG)):
        episode = with_questions(*questions)
        assert file_size(episode) + bare >= len(encode(episode))


def test_comments_that_do_not_fit_are_told_in_numbers(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(room, "MOST_BYTES", 200_000)
    check_room(SMALL, [f"{n} {LONG}" for n in range(50)], shortened)
    with pytest.raises(NoRoom, match=r"about 1 MB with these comments; it holds at most 0 MB; bring in a part") as told:
        check_room(SMALL, [f"{n} {LONG}" for n in range(500)], shortened)
    assert str(told.value).endswith("nothing was changed")
    with pytest.raises(NoRoom):
        check_size(with_questions(*asked(500, LONG)))


def test_the_number_of_questions_is_checked_by_what_differs(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(room, "MOST_QUESTIONS", 10)
    episode = with_questions(*asked(8))
    check_room(episode, ["a", "b", "a", " ", *(question.text for question in episode.questions)], shortened)
    with pytest.raises(NoRoom, match=r"3 different comments and the 8 questions of the episode are 11; .* at most 10"):
        check_room(episode, ["a", "b", "c"], shortened)


def test_a_table_brought_in_before_fits_however_its_texts_were_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(room, "MOST_QUESTIONS", 3)
    episode = with_questions(*(Question(id=f"q{n}", text=f"kept {n}") for n in range(3)))
    check_room(episode, ["told 0", "told 1", "told 2"], lambda text: text.replace("told", "kept"))
    with pytest.raises(NoRoom):
        check_room(episode, ["told 0", "told 7"], lambda text: text.replace("told", "kept"))


def test_a_long_comment_is_cut_and_counted() -> None:
    assert shortened("x" * 4_000) == "x" * 4_000
    assert shortened("x" * 4_001) == "x" * 3_999 + "…"
    assert shortened_remark(["x" * 4_001, "y", "z" * 9_000]).startswith("2 comments are longer than 4,000 characters")
    assert shortened_remark(["y"]) == ""
