"""Templates: every number live, nothing contradicted, what is missing left out and said."""

import pytest

from studio import shipped
from studio.decide import decide
from studio.graphics.catalogue import _MODULES
from studio.headless.opening import open_episode
from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.model.rundown import Rundown
from studio.reference.tables import load_tables
from studio.script.check import check_script
from studio.script.live import filled, screen_text
from studio.script.template_texts import TEMPLATES, TemplateText
from studio.script.templates import _MEANING, _ROLES, plan, template
from tests.script.made_up import MADE_UP

TABLES = load_tables()
EPISODES = {path.stem: open_episode(path) for path in sorted(shipped.demos().glob("*.json"))}
FOUND = {name: decide(episode, TABLES) for name, episode in EPISODES.items()}
each_template = pytest.mark.parametrize("chosen", TEMPLATES, ids=lambda its: its.id)
each_demo = pytest.mark.parametrize("name", EPISODES)


def with_rundown(episode: Episode, rundown: Rundown) -> Episode:
    import msgspec

    return msgspec.structs.replace(episode, rundown=rundown)


@each_template
@each_demo
def test_a_plan_of_a_demo_has_no_hole_and_nothing_to_mend(chosen: TemplateText, name: str) -> None:
    made = plan(chosen, FOUND[name])
    check = check_script(with_rundown(EPISODES[name], Rundown(segments=made.segments)), FOUND[name], TABLES)
    assert len(made.segments) >= 2 and check.holes == () and check.statements == ()
    assert [mark for mark in check.marks if mark.state != "computed"] == []
    assert all(duty.kind == "caution" for duty in check.duties)
    text = " ".join(screen_text(filled(p.text, FOUND[name], "us")) for s in made.segments for p in s.points)
    assert "[" not in text and "{" not in text


@each_template
def test_no_number_is_written_into_a_template(chosen: TemplateText) -> None:
    for segment in chosen.segments:
        for point in segment.points:
            plain = "".join(piece.text for piece in filled(point, Findings(()), "us") if piece.kind == "text")
            assert not any(character.isdigit() for character in plain)


@each_template
def test_its_pictures_cautions_and_roles_exist(chosen: TemplateText) -> None:
    for segment in chosen.segments:
        assert set(segment.pictures) <= set(_MODULES) and set(segment.shows) <= set(TABLES.cautions)
    assert set(_ROLES) == set(_MEANING)


@each_template
def test_without_findings_it_says_what_is_left_out(chosen: TemplateText) -> None:
    made = plan(chosen, Findings(()))
    assert made.left_out and all(line.endswith(".") for line in made.left_out)
    assert not any(point.findings for segment in made.segments for point in segment.points)


def test_a_plan_with_few_findings_keeps_what_they_back() -> None:
    made = plan(TEMPLATES[0], MADE_UP)
    points = [point for segment in made.segments for point in segment.points if point.findings]
    assert {id_ for point in points for id_ in point.findings} == {"tread_left.front_left"}
    assert any("wet_advice" in line for line in made.left_out)


def test_ids_keep_clear_of_those_taken() -> None:
    made = plan(TEMPLATES[0], FOUND["minivan_one_new_tire"], taken=("opening", "opening_2"))
    assert made.segments[0].id == "opening_3" and len({s.id for s in made.segments}) == len(made.segments)


def test_five_kinds_are_offered_by_name() -> None:
    assert [its.id for its in TEMPLATES] == ["tread", "one_or_four", "sizes", "winter", "answers"]
    assert template("winter") is TEMPLATES[3] and template("nothing") is None
