"""What the program is, what it is made of, and under which licences."""

import platform
from importlib.metadata import PackageNotFoundError, version

from PySide6.QtCore import qVersion

import studio
from studio.storage.folders import data_folder, settings_folder
from studio.window.main_window import NAME

PARTS: tuple[tuple[str, str], ...] = (
    ("PySide6-Essentials", "LGPL-3.0"), ("shiboken6", "LGPL-3.0"), ("matplotlib", "PSF-style"), ("reportlab", "BSD"),
    ("msgspec", "BSD"), ("uharfbuzz", "Apache-2.0"), ("isal", "PSF-style"), ("Pillow", "MIT-CMU"),
    ("platformdirs", "MIT"),
)  # fmt: skip
FONTS = (("Inter", "SIL Open Font License 1.1"), ("DejaVu Sans", "Bitstream Vera licence"))


def about_text() -> str:
    """The program in two sentences."""
    return (
        f"{NAME} {studio.__version__}\n\nIt informs; it does not certify. The vehicle's manual, local law and a "
        "qualified tire professional decide."
    )


def about_detail() -> str:
    """Parts with versions and licences, fonts, folders, and the system: to be copied into a report."""
    parts = [f"{name} {_version(name)}: {licence}" for name, licence in PARTS]
    fonts = [f"{name}: {licence}" for name, licence in FONTS]
    system = [
        f"Qt {qVersion()}, Python {platform.python_version()}, {platform.system()} {platform.release()}",
        f"settings in {settings_folder()}",
        f"rescue copies and log in {data_folder()}",
    ]
    return "\n".join([*parts, *fonts, *system])


def _version(name: str) -> str:
    try:
        return version(name)
    except PackageNotFoundError:
        return "(not installed)"
