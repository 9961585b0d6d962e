"""A finding is read by name, never by its prose: no room outside ``decide`` learns anything from a finding's texts.

``reads`` follows, within a function, what comes of those texts, and names every place where it is taken apart or looked
into. What goes out to a person as it is (shown, wrapped, joined) is no reading.
"""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

STUDIO = Path(__file__).resolve().parent.parent / "studio"
ROOMS = ("questions", "script", "graphics", "handoff", "headless", "window")
FILES = sorted(path for room in ROOMS for path in (STUDIO / room).rglob("*.py"))
TEXTS = {"sentence", "working", "caution", "would_change", "limit_label", "wording", "missing"}
LABELLED = {"figure", "f", "number"}
NAMED_SO = {"caution", "would_change", "limit_label"}
IDS = {"permitted", "short_of", "told", "sizes", "size", "marking", "load_index", "service_"}
"""Details that hold ids, or codes off a sidewall: these are for reading, alone or several of them."""
TAKEN_APART = {"startswith", "endswith", "split", "rsplit", "splitlines", "partition", "rpartition", "find", "rfind",
               "index", "removeprefix", "removesuffix", "replace", "count"}  # fmt: skip
PATTERN = {"search", "match", "fullmatch", "sub", "subn", "split", "findall", "finditer"}
READERS = {"numbers_in", "tokens_of", "stems"}
PASSED_ON = {"tuple", "list", "sorted", "next", "iter", "reversed", "enumerate", "str", "join", "lower", "upper",
             "strip", "rstrip", "lstrip", "capitalize", "casefold"}  # fmt: skip
ALLOWED = {
    ("window/rundown_say.py", "point_of"): "the sentence becomes the presenter's own, its numbers live",
    ("window/rundown_say.py", "_texts"): "which number is meant is told by the words shown beside it",
    ("script/offers.py", "_fits"): "a person finds a number by the words that are shown with it",
    ("script/ground.py", "_sizes"): "codes off the sidewall",
}


class Reader(ast.NodeVisitor):
    """Collects, of one function, the lines where a finding's text is looked into."""

    def __init__(self) -> None:
        self.names: set[str] = set()
        self.steps: set[str] = set()
        self.lines: set[int] = set()

    def read(self, function: ast.AST) -> set[int]:
        """The lines; twice over, as a loop may use what it sets later."""
        for _ in range(2):
            self.visit(function)
        return self.lines

    def is_text(self, node: ast.AST | None) -> bool:
        """Whether an expression is a finding's text, or made of one."""
        if isinstance(node, ast.Name):
            return node.id in self.names or node.id in NAMED_SO
        if isinstance(node, ast.Attribute):
            label = node.attr == "label" and isinstance(node.value, ast.Name) and node.value.id in LABELLED
            of_step = node.attr in ("text", "sum") and isinstance(node.value, ast.Name) and node.value.id in self.steps
            return node.attr in TEXTS or label or of_step
        if isinstance(node, ast.Call):
            called = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            if called in ("word", "word_at"):
                name = node.args[0].values[0] if isinstance(node.args[0], ast.JoinedStr) else node.args[0]
                return not (isinstance(name, ast.Constant) and name.value in IDS)
            own = isinstance(node.func, ast.Attribute) and self.is_text(node.func.value)
            return called in PASSED_ON and (own or any(map(self.is_text, node.args)))
        if isinstance(node, ast.GeneratorExp | ast.ListComp | ast.SetComp):
            return self.is_text(node.elt)
        if isinstance(node, ast.Subscript | ast.Starred | ast.NamedExpr | ast.FormattedValue):
            return self.is_text(node.value)
        parts = {ast.JoinedStr: "values", ast.BoolOp: "values", ast.Tuple: "elts", ast.List: "elts"}.get(type(node))
        if parts is not None:
            return any(map(self.is_text, getattr(node, parts)))
        if isinstance(node, ast.IfExp):
            return self.is_text(node.body) or self.is_text(node.orelse)
        return isinstance(node, ast.BinOp) and (self.is_text(node.left) or self.is_text(node.right))

    def take(self, target: ast.AST, value: ast.AST | None) -> None:
        """A name that is given a text is one; of one that goes through steps the text is."""
        if isinstance(target, ast.Tuple) and isinstance(value, ast.Tuple) and len(target.elts) == len(value.elts):
            for one, its in zip(target.elts, value.elts, strict=True):
                self.take(one, its)
        elif isinstance(target, ast.Name) and isinstance(value, ast.Attribute) and value.attr == "steps":
            self.steps.add(target.id)
        elif self.is_text(value):
            self.names |= {node.id for node in ast.walk(target) if isinstance(node, ast.Name)}

    def visit_Assign(self, node: ast.Assign) -> None:
        for target in node.targets:
            self.take(target, node.value)
        self.generic_visit(node)

    def visit_AnnAssign(self, node: ast.AnnAssign) -> None:
        self.take(node.target, node.value)
        self.generic_visit(node)

    def visit_NamedExpr(self, node: ast.NamedExpr) -> None:
        self.take(node.target, node.value)
        self.generic_visit(node)

    def visit_For(self, node: ast.For) -> None:
        self.take(node.target, node.iter)
        self.generic_visit(node)

    def visit_comprehension(self, node: ast.comprehension) -> None:
        self.take(node.target, node.iter)
        self.generic_visit(node)

    def visit_Call(self, node: ast.Call) -> None:
        if isinstance(node.func, ast.Attribute):
            apart = node.func.attr in TAKEN_APART and self.is_text(node.func.value)
            searched = node.func.attr in PATTERN and any(map(self.is_text, node.args))
            if apart or searched:
                self.lines.add(node.lineno)
        elif isinstance(node.func, ast.Name) and node.func.id in READERS and any(map(self.is_text, node.args)):
            self.lines.add(node.lineno)
        self.generic_visit(node)

    def visit_Compare(self, node: ast.Compare) -> None:
        for operator, right in zip(node.ops, node.comparators, strict=True):
            inside = isinstance(operator, ast.In | ast.NotIn) and (self.is_text(right) or self.is_text(node.left))
            if inside:
                self.lines.add(node.lineno)
        self.generic_visit(node)


def reads(source: str) -> Iterator[tuple[str, int]]:
    """(function, line) of every place in ``source`` that looks into a finding's text."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.FunctionDef):
            yield from ((node.name, line) for line in sorted(Reader().read(node)))


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(STUDIO)))
def test_no_room_reads_a_findings_prose(path: Path) -> None:
    inside = path.relative_to(STUDIO).as_posix()
    found = [its for its in reads(path.read_text("utf-8")) if (inside, its[0]) not in ALLOWED]
    assert not found, f"{inside} reads a finding's text in {found}: give what it looks for a name of its own"


READ = {
    "a line by its beginning": "def f(its):\n    return [line for line in its.working if line.startswith('Wear:')]",
    "a step by what stands in it": "def f(its):\n    return [s for s in its.steps if ' K / ' in s.text]",
    "the date out of a sentence": "def f(its):\n    return its.sentence.replace(', seen on 3 May', '')",
    "a word of a caution": "def f(caution):\n    return 'professional' in caution",
    "a label's end": "def f(index):\n    labels = (x.limit_label for x in index)\n    "
                     "return next(n for label in labels for n in NAMES if label.endswith(n))",
    "a pattern on a sentence": "def f(its):\n    return re.match('a(b)', its.sentence)",
    "numbers told": "def f(its):\n    return numbers_in(its.sentence)",
    "a detail's first part": "def f(its):\n    return re.split('[,;:]', its.word('why'))[0]",
    "a sentence looked for in a reply": "def f(its, head):\n    return its.sentence.rstrip('.') in head",
    "a table's wording": "def f(rule):\n    return 'alpine' not in rule.wording",
}
SHOWN = {
    "joined lines": "def f(its):\n    return '; '.join(line.rstrip('.') for line in its.working)",
    "steps by kind": "def f(its):\n    return [step.text for step in its.steps if step.kind != 'seen']",
    "a detail that is an id": "def f(its):\n    return its.word('permitted').split(',')",
    "whether there is one": "def f(its):\n    return its.sentence if its.caution else ''",
}


@pytest.mark.parametrize("source", READ.values(), ids=READ)
def test_a_reading_is_found(source: str) -> None:
    assert [name for name, _ in reads(source)] == ["f"]


@pytest.mark.parametrize("source", SHOWN.values(), ids=SHOWN)
def test_what_is_only_shown_is_no_reading(source: str) -> None:
    assert list(reads(source)) == []


def test_what_is_allowed_is_still_there() -> None:
    every = ((path.relative_to(STUDIO).as_posix(), reads(path.read_text("utf-8"))) for path in FILES)
    found = {(inside, name) for inside, places in every for name, _ in places}
    assert set(ALLOWED) <= found
