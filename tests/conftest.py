"""Every test runs without a screen and without the network."""

import os
import signal
import socket
from collections.abc import Iterator
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


@pytest.fixture
def usual_signals() -> Iterator[None]:
    """Requests to end are taken as in a fresh shell, whoever started the tests: one in the background ignores some."""
    usual = {"SIGINT": signal.default_int_handler, "SIGTERM": signal.SIG_DFL, "SIGHUP": signal.SIG_DFL}
    numbers = {getattr(signal, name): handler for name, handler in usual.items() if hasattr(signal, name)}
    before = {number: signal.signal(number, handler) for number, handler in numbers.items()}
    yield
    for number, handler in before.items():
        signal.signal(number, handler)
