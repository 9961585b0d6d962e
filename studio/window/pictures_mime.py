"""A picture as other programs take it: an image, PNG bytes whose alpha survives, and a file, all in one."""

from pathlib import Path

from PySide6.QtCore import QMimeData, QUrl
from PySide6.QtGui import QImage


def picture_mime(path: Path, png: bytes) -> QMimeData:
    """The mime data of a picture that lies as a file at ``path``."""
    data = QMimeData()
    data.setData("image/png", png)
    data.setImageData(QImage.fromData(png))
    data.setUrls([QUrl.fromLocalFile(str(path))])
    return data
