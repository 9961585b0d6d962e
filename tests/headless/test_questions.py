"""``questions``: comments come in without their authors, whole or not at all."""

import json
from pathlib import Path

import pytest

from studio.headless import questions
from studio.headless.main import main
from studio.headless.opening import open_episode
from studio.questions import bringing
from studio.storage import room
from tests.questions.test_scrub import SECRETS

Captured = pytest.CaptureFixture[str]


@pytest.fixture
def episode(tmp_path: Path) -> Path:
    path = tmp_path / "mine.json"
    assert main(["new", str(path), "--demo"]) == 0
    return path


def table(folder: Path, text: str) -> Path:
    path = folder / "comments.csv"
    path.write_text(text, encoding="utf-8")
    return path


def test_no_author_reaches_the_file(episode: Path, tmp_path: Path, capsys: Captured) -> None:
    rows = ['"' + text.replace('"', '""') + f'",secret_author_{n}' for n, (text, _) in enumerate(SECRETS)]
    assert main(["questions", str(episode), str(table(tmp_path, "comment,author\n" + "\n".join(rows)))]) == 0
    kept = episode.read_text(encoding="utf-8")
    assert "secret_author" not in kept
    assert [secret for _, secret in SECRETS if secret in json.dumps(json.loads(kept)["questions"])] == []


def test_the_list_is_sorted_and_saved(episode: Path, tmp_path: Path, capsys: Captured) -> None:
    before = len(open_episode(episode).questions)
    comments = table(tmp_path, "comment\nis 5/32 ok?\nIS 5/32 OK??\nbulge on my tire drive?\nnice video\n")
    capsys.readouterr()
    assert main(["questions", str(episode), str(comments)]) == 0
    said = capsys.readouterr().out
    assert said.index("Urgent for safety") < said.index("Answerable now") and "(asked 2 times)" in said
    assert len(open_episode(episode).questions) == before + 3
    assert main(["questions", str(episode), str(comments), "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert (found["read"], found["added"], found["counted_into_others"]) == (4, 0, 4)
    assert {"id", "kind", "also", "state", "asked", "text"} == set(found["questions"][0])


def test_a_table_that_is_refused_changes_nothing(episode: Path, tmp_path: Path, capsys: Captured) -> None:
    before = episode.read_bytes()
    capsys.readouterr()
    assert main(["questions", str(episode), str(table(tmp_path, ""))]) == 2
    assert len(capsys.readouterr().err.splitlines()) == 1
    assert episode.read_bytes() == before


@pytest.mark.parametrize(
    ("limit", "said"), [("MOST_QUESTIONS", "an episode holds at most 20; bring in a part"), ("MOST_BYTES", "of about ")]
)
def test_more_than_an_episode_holds_is_one_line_before_the_work(
    episode: Path, tmp_path: Path, capsys: Captured, monkeypatch: pytest.MonkeyPatch, limit: str, said: str
) -> None:
    def never(*_: object) -> None:
        raise AssertionError("the work began")

    monkeypatch.setattr(room, limit, 20)
    monkeypatch.setattr(questions, "bring_in", never)
    before = episode.read_bytes()
    capsys.readouterr()
    comments = table(tmp_path, "comment\n" + "".join(f"is {n}/32 ok on a wet road?\n" for n in range(1, 30)))
    assert main(["questions", str(episode), str(comments)]) == 2
    line = capsys.readouterr().err
    assert len(line.splitlines()) == 1 and said in line
    assert episode.read_bytes() == before


def test_too_many_found_only_by_the_work_are_one_line_too(
    episode: Path, tmp_path: Path, capsys: Captured, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(bringing, "MOST_QUESTIONS", 1)
    before = episode.read_bytes()
    capsys.readouterr()
    comments = table(tmp_path, "comment\nis 5/32 ok?\nhow old may a tire be?\n")
    assert main(["questions", str(episode), str(comments)]) == 2
    line = capsys.readouterr().err
    assert len(line.splitlines()) == 1 and "would be too many for one episode; expected at most 1," in line
    assert episode.read_bytes() == before


def test_a_long_comment_is_cut_and_told(episode: Path, tmp_path: Path, capsys: Captured) -> None:
    story = "is 5/32 ok on a wet road? " + "we drove on and on " * 500
    assert main(["questions", str(episode), str(table(tmp_path, f"comment\n{story}\n"))]) == 0
    assert "1 comment is longer than 4,000 characters; what goes beyond was left out" in capsys.readouterr().out
    assert max(len(question.text) for question in open_episode(episode).questions) <= 4_000
