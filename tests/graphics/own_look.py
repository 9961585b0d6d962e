"""A look of a channel's own with everything a look can bring, made in a folder; all of it invented here."""

import json
import shutil
from pathlib import Path
from typing import Any

import matplotlib
from PIL import Image

from studio import shipped

FONTS = Path(matplotlib.get_data_path()) / "fonts" / "ttf"  # DejaVu Serif lies there, free to embed
LOGO = (
    b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 300 100"><style>.a{fill:#7A2E12}</style>'
    b'<circle class="a" cx="50" cy="50" r="48"/><rect x="110" y="20" width="180" height="20" fill="#1F4E5F"/></svg>'
)
SMALL_PRINT = "Bay Seven: shop talk, not a ruling."


def values(**more: Any) -> dict[str, Any]:
    """The shipped light look under another name, with ``more``."""
    chalk = json.loads((shipped.resources() / "looks" / "chalk.json").read_text("utf-8"))
    return dict(chalk | {"id": "own", "name": "Bay Seven"} | more)


def own_look(folder: Path, **more: Any) -> Path:
    """The look's file in ``folder``, a logo and two fonts beside it."""
    folder.mkdir(exist_ok=True)
    (folder / "logo.svg").write_bytes(LOGO)
    Image.new("RGBA", (40, 20), (122, 46, 18, 255)).save(folder / "logo.png")
    for name in ("DejaVuSerif.ttf", "DejaVuSerif-Bold.ttf"):
        shutil.copyfile(FONTS / name, folder / name)
    for weight in ("Regular", "Bold"):
        shutil.copyfile(shipped.resources() / "fonts" / f"Inter-{weight}.ttf", folder / f"Ours-{weight}.ttf")
    path = folder / "own.json"
    path.write_text(json.dumps(values(**more)), "utf-8")
    return path
