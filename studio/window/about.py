"""What the program is, what it is made of, and under which licences."""

import platform
from importlib.metadata import PackageNotFoundError, version

from PySide6.QtCore import qVersion

import studio
from studio.storage.folders import data_folder, settings_folder
from studio.window.main_window import NAME

PARTS: tuple[tuple[str, str], ...] = (
    ("PySide6-Essentials", "LGPL-3.0"), ("shiboken6", "LGPL-3.0"), ("matplotlib", "PSF-style"), ("reportlab", "BSD"),
    ("msgspec", "BSD-3-Clause"), ("uharfbuzz", "Apache-2.0"), ("isal", "PSF-2.0"), ("Pillow", "MIT-CMU"),
    ("numpy", "BSD-3-Clause and others"), ("fonttools", "MIT"), ("platformdirs", "MIT"),
    ("OpenTimelineIO", "Apache-2.0"), ("rapidfuzz", "MIT"),
)  # fmt: skip
"""Every package that the program itself asks for, with its licence."""
FOR_MOVIES = ("av", "BSD-3-Clause; its packages carry FFmpeg with x264 and x265, which are under the GPL")
"""What makes movie files, where it is installed."""
FONTS = (("Inter", "SIL Open Font License 1.1"), ("DejaVu Sans", "Bitstream Vera licence"))


def about_text() -> str:
    """The program in two sentences."""
    return (
        f"{NAME} {studio.__version__}\n\nIt informs; it does not certify. The vehicle's manual, local law and a "
        "qualified tire professional decide."
    )


def about_detail() -> str:
    """Parts with versions and licences, fonts, folders, and the system: to be copied into a report."""
    parts = [f"{name} {_version(name) or '(not installed)'}: {licence}" for name, licence in PARTS]
    movies = [f"{FOR_MOVIES[0]} {number}: {FOR_MOVIES[1]}"] if (number := _version(FOR_MOVIES[0])) else []
    fonts = [f"{name}: {licence}" for name, licence in FONTS]
    system = [
        f"Qt {qVersion()}, Python {platform.python_version()}, {platform.system()} {platform.release()}",
        f"settings in {settings_folder()}",
        f"rescue copies and log in {data_folder()}",
    ]
    return "\n".join([*parts, *movies, *fonts, *system])


def _version(name: str) -> str:
    try:
        return version(name)
    except PackageNotFoundError:
        return ""
