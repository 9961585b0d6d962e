"""Make the README's pictures from the demo episode: the real window and the real exports.

    python resources/readme_pictures.py

Runs without a screen; overwrites the files in resources/readme.
"""

import os
import sys
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import Qt
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication

from studio import shipped
from studio.decide import decide
from studio.graphics.catalogue import catalogue, scene_of
from studio.graphics.frame import FRAMES
from studio.graphics.look import look_named
from studio.graphics.paint.raster import png
from studio.reference.tables import load_tables
from studio.storage.episode_file import decode

FOLDER = shipped.resources() / "readme"
DEMO = shipped.demos() / "minivan_one_new_tire.json"
WIDTH = 960
LOOKS = {"depth_by_wheel": "night_bay", "cross_section": "night_bay", "axle_match": "night_bay"}


def pictures() -> None:
    """One export of each picture, at half size."""
    episode = decode(DEMO.read_bytes())
    findings = decide(episode, load_tables())
    for id_ in catalogue():
        look = look_named(LOOKS.get(id_, "chalk"))
        full = QImage.fromData(png(scene_of(episode, findings, id_, FRAMES["wide"], look)))
        save(full.scaledToWidth(WIDTH, Qt.TransformationMode.SmoothTransformation), f"{id_}.png")


def save(image: QImage, name: str) -> None:
    """Write one picture and say so."""
    if not image.save(str(FOLDER / name), "PNG", 50):
        raise SystemExit(f"{FOLDER / name} cannot be written")
    print(FOLDER / name)


def window() -> None:
    """The three places of the window on the demo."""
    from tests.window.screens import screens

    for name, image in screens(DEMO, 1280, 800):
        save(image, f"window_{name}.png")


if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).resolve().parent.parent))
    application = QApplication.instance() or QApplication([])
    FOLDER.mkdir(exist_ok=True)
    pictures()
    window()
