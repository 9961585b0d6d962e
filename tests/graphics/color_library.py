"""The general colour library that colours are held against, loaded when a test first asks: it takes a second."""

import warnings
from functools import lru_cache
from typing import Any


@lru_cache
def library() -> Any:
    """colour-science."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # it says at import what it does without
        import colour
    return colour


@lru_cache
def matrix(deficiency: str) -> Any:
    """Its matrix of Machado 2009 for ``Protanomaly``, ``Deuteranomaly`` or ``Tritanomaly``, severity 1."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # it warns that its tritan matrix approximates
        return library().blindness.matrix_cvd_Machado2009(deficiency, 1.0)
