"""Every test runs without a screen and without the network."""

import os
import socket
from typing import Any

import pytest
from hypothesis import settings

# How long an example takes says how busy the machine is: speed is measured in the benchmarks.
settings.register_profile("studio", deadline=None)
settings.load_profile("studio")

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ.setdefault("QT_LOGGING_RULES", "qt.qpa.*=false")


@pytest.fixture(autouse=True)
def no_network(monkeypatch: pytest.MonkeyPatch) -> None:
    """No test may reach the network: the program never does."""

    def refuse(*_: Any, **__: Any) -> None:
        raise AssertionError("the program tried to reach the network")

    monkeypatch.setattr(socket.socket, "connect", refuse)
    monkeypatch.setattr(socket, "getaddrinfo", refuse)
