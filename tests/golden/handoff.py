"""The hand-off of a demo, without clips: texts as they are, every other file as hashes of what it holds.

A picture is kept by the hash of its scene, and a PDF by the hashes of its pages before they are squeezed: pixels and
squeezed bytes may be others on another machine without anything having changed.
"""

import io
from collections.abc import Iterator

from pypdf import PdfReader

from studio.graphics.look import look_for
from studio.handoff.gathering import gather
from studio.handoff.works import Work, works
from studio.reference.tables import load_tables
from tests.golden.lines import Golden, demo_findings, demos, digest

DEMO = "minivan_one_new_tire"
_TEXTS = (".srt", ".vtt", ".txt", ".edl", ".csv")


def given() -> Golden:
    """Each file under its name."""
    episode = demos()[DEMO]
    material = gather(episode, demo_findings(DEMO), load_tables(), look_for(episode.look, None))
    return {work.file: list(_facts(work)) for work in works(material) if work.item != "clips"}


def _facts(work: Work) -> Iterator[str]:
    yield f"{work.item}; {work.fingerprint[:16]}; {work.lacking}"
    yield f"findings {', '.join(work.findings)}"
    if work.lacking or work.file.endswith(".png"):
        return
    content = work.make()
    if work.file.endswith(_TEXTS):
        yield from content.decode("utf-8").splitlines()
    elif work.file.endswith(".pdf"):
        for page in PdfReader(io.BytesIO(content)).pages:
            contents = page.get_contents()
            yield f"page {digest(contents.get_data() if contents else b'')}"
    else:
        yield f"bytes {digest(content)}"
