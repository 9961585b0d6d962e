"""An SVG file as a small tree, read as something that may be hostile: what can run, load or refer is refused by name.

Expat is asked for no entity and no file; a document type without declarations is dropped, any other refused.
"""

from collections.abc import Iterator
from typing import Any
from xml.parsers import expat

import msgspec

from studio.graphics.logo.art import LogoError

MOST_BYTES = 1_000_000
MOST_ELEMENTS = 5_000
DEEPEST = 64
_SVG = "http://www.w3.org/2000/svg"
_REFUSED = {
    "script": "a script", "foreignobject": "a foreign object", "image": "an image by reference",
    "use": "a part used by reference", "a": "a link", "iframe": "a frame", "animate": "an animation",
    "animatetransform": "an animation", "animatemotion": "an animation", "set": "an animation", "filter": "a filter",
    "mask": "a mask", "clippath": "a clipping path", "pattern": "a pattern", "lineargradient": "a gradient",
    "radialgradient": "a gradient", "text": "text that is not outlined", "symbol": "a symbol", "marker": "a marker",
    "switch": "a switch", "audio": "sound", "video": "a film", "cursor": "a cursor", "handler": "a script",
}  # fmt: skip
_HINTS = {"a gradient", "a filter", "a mask", "a clipping path", "a pattern", "a marker"}
_NEEDED = "expected plain outlines with flat colours"


class Node(msgspec.Struct, kw_only=True):
    """An SVG element; ``text`` is what stands in it."""

    tag: str
    line: int
    attributes: dict[str, str]
    children: "list[Node]" = []
    text: str = ""

    def walk(self) -> "Iterator[Node]":
        """This element and all in it."""
        yield self
        for child in self.children:
            yield from child.walk()


class Tree(msgspec.Struct, frozen=True):
    """The document's root, and what was left out of it."""

    root: Node
    notes: tuple[str, ...]


def read_tree(content: bytes) -> Tree:
    """The elements of an SVG file. Raises LogoError naming what is in it that a logo may not hold."""
    if len(content) > MOST_BYTES:
        raise LogoError(f"the logo's file holds {len(content)} bytes; expected an SVG of at most {MOST_BYTES}")
    reader = _Reader()
    try:
        reader.parser.Parse(content, True)
    except expat.ExpatError as error:
        words = expat.errors.messages.get(error.code, str(error))
        raise LogoError(f"the logo is not an SVG that can be read (line {error.lineno}: {words})") from error
    except (ValueError, LookupError) as error:
        if isinstance(error, LogoError):
            raise
        raise LogoError("the logo is not an SVG that can be read") from error
    if reader.root is None or reader.root.tag != "svg":
        raise LogoError("the logo is not an SVG file: its first element is not svg")
    return Tree(reader.root, tuple(dict.fromkeys(reader.notes)))


class _Reader:
    """Collects elements while expat reads."""

    def __init__(self) -> None:
        self.root: Node | None = None
        self.notes: list[str] = []
        self._open: list[Node | None] = []
        self._count = 0
        self.parser: Any = expat.ParserCreate(namespace_separator=" ")
        self.parser.SetParamEntityParsing(expat.XML_PARAM_ENTITY_PARSING_NEVER)
        self.parser.StartElementHandler = self._start
        self.parser.EndElementHandler = self._end
        self.parser.CharacterDataHandler = self._characters
        self.parser.StartDoctypeDeclHandler = self._doctype
        self.parser.EntityDeclHandler = self._entity
        self.parser.ProcessingInstructionHandler = self._instruction

    def _start(self, name: str, attributes: dict[str, str]) -> None:
        self._count += 1
        if self._count > MOST_ELEMENTS or len(self._open) >= DEEPEST:
            raise LogoError(f"the logo has too many parts; expected at most {MOST_ELEMENTS}, {DEEPEST} deep")
        space, _, tag = name.rpartition(" ")
        outside = space != _SVG or (bool(self._open) and self._open[-1] is None)
        if tag.lower() in _REFUSED and (not outside or tag.lower() == "script"):
            self._refuse(_REFUSED[tag.lower()])
        if outside:  # an editor's own remarks, and what is in them
            self._open.append(None)
            return
        node = Node(tag=tag, line=self._line, attributes={}, children=[])
        for key, value in attributes.items():
            self._attribute(node, key, value)
        parent = self._open[-1] if self._open else None
        if parent is not None:
            parent.children.append(node)
        elif self.root is None:
            self.root = node
        self._open.append(node)

    def _attribute(self, node: Node, key: str, value: str) -> None:
        space, _, name = key.rpartition(" ")
        low = name.lower()
        if low.startswith("on") and len(low) > 3:
            self._refuse(f"the event handler {name[:20]}")
        if low == "href" or low == "src":
            self._refuse("a reference to something elsewhere")
        squeezed = "".join(value.lower().split())
        if "url(" in squeezed or "javascript:" in squeezed or "@import" in squeezed or "expression(" in squeezed:
            self._refuse("a reference by url()")
        if not space:
            node.attributes[name] = value

    def _end(self, _name: str) -> None:
        self._open.pop()

    def _characters(self, data: str) -> None:
        node = self._open[-1] if self._open else None
        if node is not None and node.tag == "style":
            node.text += data

    def _doctype(self, _name: str, _system: str | None, _public: str | None, has_internal: int) -> None:
        if has_internal:
            self._refuse("a document type with declarations")
        self.notes.append("its document type was left out")

    def _entity(self, *_about: object) -> None:
        self._refuse("an entity declaration")

    def _instruction(self, target: str, _data: str) -> None:
        self._refuse(f"the processing instruction {target[:20]}")

    @property
    def _line(self) -> int:
        return int(self.parser.CurrentLineNumber)

    def _refuse(self, what: str) -> None:
        hint = "; export it as a PNG instead" if what in _HINTS else ""
        raise LogoError(f"the logo holds {what} (line {self._line}); {_NEEDED}{hint}")
