"""The set of comments: kinds, readings and numbers against what was written beside each apart from the code.

The first part was tuned on; the second was written afterwards and first scored 95.8 % of kinds, 93.2 % of readings and
one wrong number, after which the causes were mended. The third part, comments in a hurry with kinds only, came in five
rounds of about thirty, whose first scores were 70, 85, 83, 87 and 77 % of kinds with up to four wrong numbers: that is
what unseen comments of the hardest sort must be expected to give. The fourth part, fresh, came in eight batches of 40
to 82 comments in many styles, each scored before anything was mended for it: kinds 90, 79, 88, 72, 78, 83, 86 and
90 %, readings 87, 82, 97, 91, 90, 71, 86 and 92 %, wrong numbers 1, 3, 3, 3, 0, 3, 1 and 2. Here all parts must reach
the aims.
"""

from collections import Counter

import pytest

from studio.questions.kind_words import KINDS
from tests.questions.comment_set import Case, answered, cases, lacking_numbers, reading_score, readings, wrong_numbers

HALVES = ("tune", "report")
PARTS = (*HALVES, "later", "fresh")
LEAST_KINDS, LEAST_READINGS = 0.95, 0.98
GRAVE = ("condition", "repair")


def test_there_are_enough_comments_of_every_kind_and_level() -> None:
    every = cases()
    assert len(every) >= 200
    kinds = Counter(case.kind for case in every)
    assert set(kinds) == {*KINDS, "none"} and min(kinds.values()) >= 8
    assert {"plain", "typos", "words", "foreign", "hard", "missing", "contradiction", "mixed", "none", "hurried"} == {
        case.level for case in every
    }
    assert len({case.text for case in every}) == len(every)


@pytest.mark.parametrize("half", PARTS)
def test_kinds_and_their_confusion(half: str) -> None:
    pairs = Counter((case.kind, answered(case).kind) for case in cases(half))
    right = sum(count for (wanted, got), count in pairs.items() if wanted == got)
    print(f"\n{half}: {right} of {pairs.total()} kinds right\n{_table(pairs)}")
    assert right >= LEAST_KINDS * pairs.total()


def _table(pairs: Counter[tuple[str, str]]) -> str:
    """Wanted kinds in rows, answered ones in columns."""
    names = [*KINDS, "none"]
    lines = [" " * 13 + " ".join(name[:6].rjust(6) for name in names)]
    for wanted in names:
        cells = " ".join((str(pairs[wanted, got]) if pairs[wanted, got] else ".").rjust(6) for got in names)
        lines.append(f"{wanted:<13}{cells}")
    return "\n".join(lines)


@pytest.mark.parametrize("half", (*HALVES, "fresh"))
def test_readings(half: str) -> None:
    """A reading counts as right where field, value and unit are; one that nobody wrote counts as wrong."""
    scores = [(case, *reading_score(case, answered(case))) for case in cases(half)]
    right, every = sum(score for _, score, _ in scores), sum(most for _, _, most in scores)
    wrong = [
        (case.id, sorted(case.readings or ()), sorted(readings(answered(case)))) for case, r, m in scores if r != m
    ]
    print(f"\n{half}: {right} of {every} readings right; not right: {wrong}")
    assert right >= LEAST_READINGS * every


def test_not_one_wrong_number() -> None:
    assert [(case.id, wrong) for case in cases() if (wrong := wrong_numbers(case, answered(case)))] == []


def test_numbers_that_can_be_computed_are_stated() -> None:
    lacking = [(case.id, keys) for case in cases() if (keys := lacking_numbers(case, answered(case)))]
    assert len(lacking) <= 0.02 * len(cases()), lacking


@pytest.mark.parametrize("case", [case for case in cases() if case.missing], ids=lambda case: case.id)
def test_what_is_missing_is_asked_for(case: Case) -> None:
    found = answered(case)
    assert case.missing in found.missing
    assert all(ask in found.reply for ask in found.asks) and all(ask.endswith((".", "?")) for ask in found.asks)


@pytest.mark.parametrize("case", [case for case in cases() if case.also], ids=lambda case: case.id)
def test_further_questions_are_answered_too(case: Case) -> None:
    found = answered(case)
    assert case.also in [other.kind for other in found.also]
    assert "You also ask" in found.reply


@pytest.mark.parametrize("case", [case for case in cases() if case.level == "contradiction"], ids=lambda case: case.id)
def test_what_cannot_be_is_named_and_gives_no_number(case: Case) -> None:
    found = answered(case)
    assert found.invalid and found.invalid[0] in found.reply
    assert all(value is None for value in found.numbers.values())


@pytest.mark.parametrize("case", [case for case in cases() if case.kind in GRAVE], ids=lambda case: case.id)
def test_damage_always_gets_the_caution_and_the_referral(case: Case) -> None:
    found = answered(case)
    assert found.caution and found.reply.rstrip().endswith(("professional.", "judge it.", "word."))
    assert "professional" in found.reply and found.verdict in ("inspect", "replace")
    assert found.state == "urgent"


def test_every_answer_carries_its_caution_and_its_region() -> None:
    for case in cases():
        found = answered(case)
        if found.kind != "none":
            assert found.caution in found.reply and "professional" in found.reply, case.id
            assert "Rules taken: " in found.reply, case.id
