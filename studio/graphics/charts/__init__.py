"""Charts: matplotlib draws them, and each of its drawing calls becomes a mark (`marks`).

The words of charts are our own texts. So matplotlib is imported without its look round for the system's fonts, for
which it would start other programs and keep a list in the home folder.
"""

import os
import subprocess
import tempfile
from collections.abc import Iterator
from typing import Any
from unittest.mock import patch


def _no_program(*_: Any, **__: Any) -> bytes:
    raise OSError("charts need no fonts of the system")


def _no_folder(*_: Any, **__: Any) -> Iterator[Any]:
    return iter(())


def _import_matplotlib() -> None:
    with (
        tempfile.TemporaryDirectory(prefix="tire-episode-", ignore_cleanup_errors=True) as folder,
        patch.dict(os.environ, MPLCONFIGDIR=folder),
        patch.object(subprocess, "check_output", _no_program),
        patch.object(os, "walk", _no_folder),
    ):
        import matplotlib.font_manager  # noqa: F401


_import_matplotlib()
