"""The same question found again: nearest earlier ones, groups; wording by rapidfuzz, facts by ours."""

from studio.questions.kinds import kinds_of
from studio.questions.reading import read
from studio.questions.similar import Kept, facts_of, groups, nearest


def kept(id_: str, text: str, **more: object) -> Kept:
    reading = read(text)
    return Kept(id=id_, text=text, kind=kinds_of(reading).kind, facts=facts_of(reading), **more)  # type: ignore[arg-type]


EARLIER = [
    kept("a", "my tires are at 5/32, do i need new ones?", answered=True),
    kept("b", "are 3/32 tires still legal?"),
    kept("c", "bulge on the sidewall, safe to drive?", where="other.json"),
    kept("d", "Do I need new ones, my tires are 4/32"),
]


def test_the_nearest_earlier_answer_comes_first() -> None:
    reading = read("do I need new ones? my tires are at 5/32")
    found = nearest(reading.text, "tread_left", facts_of(reading), EARLIER)
    assert [it.kept.id for it in found][:2] == ["a", "d"]
    assert found[0].same_facts and not found[1].same_facts
    assert nearest("hello", "age", (), EARLIER) == ()


def test_other_episodes_are_searched_too() -> None:
    found = nearest(
        "is a bulge on the sidewall safe to drive on", "condition", ("damage=bulge", "zone=sidewall"), EARLIER
    )
    assert found[0].kept.where == "other.json"


def test_groups_of_the_same_question() -> None:
    found = groups([*EARLIER, kept("e", "do i need new ones my tires are at 5/32", asked=4)])
    assert found[0].asked >= 5 and {it.id for it in found[0].members} >= {"a", "e"} and found[0].first.id == "a"
    assert all(group.kind == member.kind for group in found for member in group.members)
