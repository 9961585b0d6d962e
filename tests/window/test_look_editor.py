"""The channel's look, made beside the picture on real widgets."""

from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QAccessible, QDropEvent, QGuiApplication
from PySide6.QtWidgets import QLabel, QLineEdit, QWidget

from studio.graphics.look import read_look
from studio.window.pictures_place import PicturesPlace
from studio.window.place import Workshop
from tests.graphics.own_look import LOGO, own_look
from tests.window.findings_samples import sample_document
from tests.window.pictures_samples import sample_catalogue


@pytest.fixture
def place(qtbot, appearance, jobs, answers, monkeypatch, tmp_path):
    pictures = sample_catalogue()
    monkeypatch.setattr("studio.handoff.picture_files.catalogue", lambda: pictures)
    document = sample_document(None)
    document.path = tmp_path / "episode.json"
    made = PicturesPlace(Workshop(document, appearance, jobs, answers), pictures=lambda: pictures)
    qtbot.addWidget(made)
    made.resize(1080, 690)
    with qtbot.waitActive(made, timeout=20_000):
        made.show()
    made.make_look()
    qtbot.waitUntil(lambda: made.drawer.idle and made.stage.drawn is not None, timeout=20_000)
    yield made
    made.editor.draft.clear()
    made.cache.clear()
    QGuiApplication.clipboard().clear()


def typed(qtbot, field: QLineEdit, text: str) -> None:
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, text)


def test_a_colour_is_tried_on_while_it_is_typed_and_the_episode_stays(place, qtbot):
    typed(qtbot, place.editor.form.fields()["ground"], "#FFF8E8")
    qtbot.waitUntil(lambda: place.stage.drawn.scene.background == "#FFF8E8")
    assert place.document.episode.look == "chalk" and place.document.undo_stack.count() == 0
    place.editor.back.click()
    qtbot.waitUntil(lambda: place.stage.drawn.scene.background == "#F5F2EB")
    place.make_look()
    assert place.editor.draft.values.ground == "#FFF8E8"  # what was made is still there


def test_half_a_colour_stays_with_its_reason(place, qtbot):
    field = place.editor.form.fields()["ink"]
    typed(qtbot, field, "#1A1")
    assert field.property("problem") and "expected #RRGGBB" in field.accessibleDescription()
    assert place.editor.draft.values.ink == "#1A1D21"


def test_contrast_is_read_out_beside_each_pair_as_it_changes(place, qtbot):
    words = [row.words.text() for row in place.editor.form.contrasts.rows(9)]
    assert words[0] == "✓ Ink on ground: 15.12 (needs 7)"
    typed(qtbot, place.editor.form.fields()["quiet"], "#B0B0B0")
    words = [row.words.text() for row in place.editor.form.contrasts.rows(9)]
    assert words[2].startswith("✗ Quiet ink on ground: 1.9")
    assert place.editor.form.contrasts.rows(9)[2].words.accessibleName().startswith("Too low: Quiet ink on ground")
    assert "quiet on ground has contrast 1.9" in place.editor.problems.text()
    typed(qtbot, place.editor.form.fields()["replace"], "#E0A020")
    assert any("Watch and replace: 0.00 apart" in row.words.text() for row in place.editor.form.distances.rows(6))


def test_what_cannot_be_read_is_not_saved_and_says_what_to_change(place, qtbot, answers):
    typed(qtbot, place.editor.form.fields()["measure"], "#CCCCCC")
    place.editor.save.click()
    assert "measure on ground has contrast" in answers.asked[-1][1]
    assert place.document.episode.look == "chalk"


def test_saving_writes_the_look_beside_the_episode_and_is_one_step_of_undo(place, qtbot, answers, tmp_path):
    typed(qtbot, place.editor.form.name, "Bay Seven")
    typed(qtbot, place.editor.form.small_print, "Shop talk.")
    answers.queue.append(tmp_path / "bay")
    place.editor.save.click()
    assert place.document.episode.look == "bay.json"
    assert read_look(tmp_path / "bay.json").small_print == "Shop talk."
    assert place.document.undo_stack.count() == 1
    assert place.document.undo_stack.undoText() == "Choose the look Bay Seven"
    place.editor.back.click()
    assert place.controls.look.currentText() == "Bay Seven, ours"
    place.document.undo_stack.undo()
    assert place.document.episode.look == "chalk" and place.controls.look.currentText() == "Chalk"


@pytest.mark.parametrize("where", ["elsewhere", "over the episode"])
def test_a_look_is_saved_with_the_episode_and_never_over_it(place, answers, tmp_path, where):
    (tmp_path / "episode.json").write_text("{}", "utf-8")
    target = tmp_path / "episode.json" if where == "over the episode" else tmp_path.parent / "bay.json"
    answers.queue.append(target)
    place.editor.save.click()
    said = answers.asked[-1][1]
    assert "is no look; choose another name" in said or "expected a place in the episode's folder" in said
    assert (tmp_path / "episode.json").read_text("utf-8") == "{}" and not (tmp_path.parent / "bay.json").exists()


def test_without_a_file_the_episode_is_to_be_saved_first(place, answers):
    place.document.path = None
    place.editor.save.click()
    assert "Save the episode first" in answers.asked[-1][1]


def test_a_logo_is_dropped_and_drawn_and_a_hostile_one_is_refused(place, qtbot, answers, tmp_path):
    (tmp_path / "ours.svg").write_bytes(LOGO)
    (tmp_path / "bad.svg").write_bytes(LOGO.replace(b"<circle", b"<circle onclick='x()'"))
    drop(place.editor.form.logo, tmp_path / "ours.svg")
    qtbot.waitUntil(lambda: place.editor.draft.values.logo.file == "logo.svg")
    assert place.book.shown.art is not None and place.editor.form.logo.state.text() == "Logo: logo.svg"
    drop(place.editor.form.logo, tmp_path / "bad.svg")
    qtbot.waitUntil(lambda: len(answers.asked) == 1)
    assert "bad.svg: the logo holds the event handler onclick" in answers.asked[-1][1]
    place.editor.form.logo.remove.click()
    assert place.book.shown.art is None


def drop(widget: QWidget, path: Path) -> None:
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path))])
    Actions, buttons = Qt.DropAction.CopyAction, Qt.MouseButton.LeftButton
    widget.dropEvent(QDropEvent(QPointF(5, 5), Actions, data, buttons, Qt.KeyboardModifier.NoModifier))


def test_letters_corners_and_zones(place, qtbot, answers, tmp_path):
    given = own_look(tmp_path / "given").parent
    answers.queue += [given / "DejaVuSerif.ttf", given / "own.json"]
    place.editor.form.letters.regular.click()
    assert place.book.shown.face is not None
    qtbot.waitUntil(lambda: place.stage.drawn.scene.texts[0].face == place.book.shown.face)
    place.editor.form.letters.bold.click()
    assert "expected TTF or OTF" in answers.asked[-1][1]
    place.editor.form.corners.setFocus()
    qtbot.keyClick(place.editor.form.corners, Qt.Key.Key_Home)
    assert place.editor.draft.values.corners == 0
    place.editor.form.captions.click()
    qtbot.waitUntil(lambda: place.stage.drawn.scene.frame.captions)


def test_another_look_is_opened_and_chosen(place, answers, tmp_path):
    own_look(tmp_path / "looks")
    answers.queue.append(tmp_path / "looks" / "own.json")
    place.editor.open.click()
    assert place.document.episode.look == "looks/own.json"
    assert place.editor.form.name.text() == "Bay Seven"


def test_beginning_again_asks_before_what_was_made_is_lost(place, qtbot, answers):
    typed(qtbot, place.editor.form.name, "Mine")
    answers.queue += ["keep", "lose"]
    place.editor.begin.click()
    assert place.editor.draft.values.name == "Mine"
    place.editor.start.setCurrentIndex(1)
    place.editor.begin.click()
    assert place.editor.draft.values.name == "Night bay, ours"


def test_a_broken_look_is_named_and_the_episode_keeps_its_choice(place, qtbot, tmp_path):
    from msgspec.structs import replace

    (tmp_path / "torn.json").write_text("{", "utf-8")
    place.editor.back.click()
    place.document.edit("Choose", replace(place.document.episode, look="torn.json"))
    assert place.controls.look.currentText() == "torn.json cannot be used"
    assert "torn.json is not a look" in place.controls.look_problem.text()
    assert "drawn in Chalk" in place.controls.look_problem.text()
    qtbot.waitUntil(lambda: place.stage.drawn.order.look.id == "chalk")
    assert place.document.episode.look == "torn.json"


def test_everything_has_a_name_and_no_label_reads_markup(place, qtbot):
    typed(qtbot, place.editor.form.name, "<b>Bay</b> & Seven")
    for widget in place.editor.findChildren(QWidget):
        if widget.focusPolicy() & Qt.FocusPolicy.TabFocus and widget.isVisible():
            name = QAccessible.queryAccessibleInterface(widget).text(QAccessible.Text.Name)
            assert name.strip(), type(widget).__name__
    assert all(label.textFormat() == Qt.TextFormat.PlainText for label in place.findChildren(QLabel))


def test_the_editor_is_reached_and_left_by_keys(place, qtbot):
    place.editor.back.setFocus()
    qtbot.keyClick(place.editor.back, Qt.Key.Key_Space)
    assert place.controls.make_look.hasFocus()
    qtbot.keyClick(place.controls.make_look, Qt.Key.Key_Space)
    assert place.editor.form.name.hasFocus()
    assert "Channel's &look…" in [action.text() for action in place.actions()]


@pytest.mark.parametrize(
    ("name", "content"),
    [("logo.svg", b"[1, 2]"), ("logo.svg", b"\x00\xff\xfe"), ("logo.png", b"\x89PNG\r\n\x1a\nno picture"), ("a", None)],
)
def test_a_logo_of_another_kind_is_a_sentence_and_nothing_in_the_log(
    place, qtbot, answers, tmp_path, caplog, name, content
):
    path = tmp_path / name
    path.mkdir() if content is None else path.write_bytes(content)
    place.editor.take_logo(path)
    qtbot.waitUntil(lambda: bool(answers.asked), timeout=20_000)
    title, text = answers.asked[-1]
    assert title == "The file was not taken" and "Error" not in text and "\n" not in text and len(text) < 300
    assert not [record for record in caplog.records if record.exc_info]


@pytest.mark.parametrize("content", [b"[1, 2]", b"3", b"null", b"\x00\xff", b"", b"[" * 5000, b'{"id": {"a": 1}}'])
def test_a_look_of_another_kind_is_a_sentence(place, answers, tmp_path, caplog, content):
    path = tmp_path / "other.json"
    path.write_bytes(content)
    answers.queue = [path]
    place.editor.open_look()
    title, text = answers.asked[-1]
    assert title == "The look was not opened" and "\n" not in text and len(text) < 400
    assert not [record for record in caplog.records if record.exc_info]
