"""Material of the demo episodes and of episodes at the ends of what can be."""

from functools import lru_cache
from pathlib import Path

from msgspec.structs import replace

from studio import shipped
from studio.decide import decide
from studio.graphics.catalogue import CannotShow, scene_of
from studio.graphics.frame import FRAMES
from studio.graphics.look import look_named
from studio.graphics.scene import Scene
from studio.handoff.material import Material
from studio.handoff.scheduling import scheduled
from studio.model.episode import Episode
from studio.model.rundown import PictureCue, Point, Rundown, Segment, Shot
from studio.reference.tables import load_tables
from studio.storage.episode_file import decode

SOME = ("depth_by_wheel", "axle_match", "size_code")
HOSTILE = 'A --> B <b>bold</b> & "quotes" {x} $5 🙂 \u202e right \x07'


@lru_cache(maxsize=4)
def demo(name: str = "minivan_one_new_tire") -> Episode:
    return decode(Path(shipped.demos() / f"{name}.json").read_bytes())


def material_of(
    episode: Episode, pictures: tuple[str, ...] = SOME, notes: dict[str, tuple[str, ...]] | None = None
) -> Material:
    tables = load_tables()
    findings, look = decide(episode, tables), look_named("chalk")
    scenes: dict[str, Scene] = {}
    for id_ in pictures:
        try:
            scenes[id_] = scene_of(episode, findings, id_, FRAMES["wide"], look)
        except CannotShow:
            continue
    files = {id_: f"pictures/{id_}.png" for id_ in scenes}
    return Material(episode, findings, tables, look, scheduled(episode, findings, scenes, files, notes or {}), scenes)


@lru_cache(maxsize=4)
def demo_material(name: str = "minivan_one_new_tire") -> Material:
    return material_of(demo(name), notes={"measuring": ("CAUTION: a rolling car can crush a hand.",)})


def bare() -> Episode:
    """No car, no tires, no rundown."""
    return replace(demo(), title="", channel="", story="", car=type(demo().car)(), specimens=(), rundown=Rundown())


def hostile() -> Episode:
    """Every text of the rundown holds what files of captions, tables and PDFs trip over."""
    points = (Point(text=HOSTILE), Point(text=HOSTILE * 20))
    segments = tuple(
        Segment(
            id=f"s{n}", title=HOSTILE, points=points, props=("=1+1", HOSTILE),
            shots=(Shot(text="@SUM(A1)", framing="-1"),),
            pictures=(PictureCue(picture="depth_by_wheel", with_point=9),),
        )
        for n in range(3)
    )  # fmt: skip
    return replace(demo(), title=HOSTILE, channel=HOSTILE, story=HOSTILE, rundown=Rundown(segments=segments))
