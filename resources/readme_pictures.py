"""Make the README's pictures from the demo episode: the real window and the real exports.

    python resources/readme_pictures.py

Runs without a screen; overwrites the files in resources/readme.
"""

import os
import sys
import tempfile
import time
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ["TIRE_EPISODE_STUDIO_HOME"] = tempfile.mkdtemp()  # nobody's own settings are read or written
sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from PySide6.QtCore import Qt
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication

from studio import shipped
from studio.decide import decide
from studio.graphics.catalogue import scene_of
from studio.graphics.frame import FRAMES
from studio.graphics.look import look_for
from studio.graphics.paint.raster import png
from studio.reference.tables import load_tables
from studio.storage.episode_file import decode
from studio.window.app import build_window

FOLDER = shipped.resources() / "readme"
DEMO = shipped.demos() / "minivan_one_new_tire.json"
WIDTH = 960
LOOKS = {
    "size_code": "chalk", "depth_by_wheel": "night_bay", "rotation": "chalk", "sizes_beside": "night_bay",
    "damage": "chalk", "date_code": "night_bay",
}  # fmt: skip
PLACES = ("car", "rundown", "questions")
SECONDS_TO_FILL = 4.0


def pictures(folder: Path) -> None:
    """One export of each picture that the README shows, at half size."""
    episode = decode(DEMO.read_bytes())
    findings = decide(episode, load_tables())
    for id_, name in LOOKS.items():
        look = look_for(name, DEMO.parent)
        full = QImage.fromData(png(scene_of(episode, findings, id_, FRAMES["wide"], look)))
        save(full.scaledToWidth(WIDTH, Qt.TransformationMode.SmoothTransformation), folder / f"{id_}.png")


def window(app: QApplication, folder: Path, width: int, height: int, scheme: str, places: tuple[str, ...]) -> None:
    """Places of the window on the demo (none named is all), one picture each."""
    shown = build_window(app)
    shown.appearance.choose(scheme)
    shown.document.start(decode(DEMO.read_bytes()), None)
    shown.resize(width, height)
    shown.show()
    shown.complete()
    for key in places or shown.places:
        shown.show_place(key)
        settle(app)
        save(shown.grab().toImage(), folder / f"window_{key}.png")
    shown.document.undo_stack.setClean()
    shown.close()


def settle(app: QApplication) -> None:
    """Let what fills in off the window's thread arrive."""
    until = time.monotonic() + SECONDS_TO_FILL
    while time.monotonic() < until:
        app.processEvents()
        time.sleep(0.01)


def save(image: QImage, path: Path) -> None:
    """Write one picture and say so."""
    if not image.save(str(path), "PNG", 50):
        raise SystemExit(f"{path} cannot be written")
    print(path)


def main(arguments: list[str]) -> None:
    """All pictures into resources/readme, or `FOLDER WIDTH HEIGHT SCHEME`: the window alone, to look at it."""
    app = QApplication([])
    if arguments:
        folder, width, height, scheme = arguments
        Path(folder).mkdir(parents=True, exist_ok=True)
        window(app, Path(folder), int(width), int(height), scheme, ())
        return
    FOLDER.mkdir(exist_ok=True)
    pictures(FOLDER)
    window(app, FOLDER, 1280, 800, "light", PLACES)


if __name__ == "__main__":
    main(sys.argv[1:])
