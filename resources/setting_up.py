"""What ``set_up.py`` does once a Python that fits runs it: environment, what is locked, system libraries, the task.

What is installed is exactly what the files in ``resources/lock`` name, held to their hashes: ``run.txt`` for the window
(with what builds the studio), ``test.txt`` for the tests.
"""

import hashlib
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

PROJECT = Path(__file__).resolve().parent.parent
LOCK = PROJECT / "resources" / "lock"
ENVIRONMENT = PROJECT / ".venv"
OUTPUT = PROJECT / "build" / "demo"
SYSTEM_LIBRARIES = (
    "libegl1 libgl1 libopengl0 libfontconfig1 libfreetype6 libdbus-1-3 libglib2.0-0 libxkbcommon0 libxkbcommon-x11-0 "
    "libx11-xcb1 libxcb-cursor0 libxcb-icccm4 libxcb-image0 libxcb-keysyms1 libxcb-randr0 libxcb-render-util0 "
    "libxcb-render0 libxcb-shape0 libxcb-shm0 libxcb-sync1 libxcb-util1 libxcb-xfixes0 libxcb-xinerama0 libxcb-xkb1"
)
PROBE = "from PySide6.QtWidgets import QApplication; QApplication([]); print('ready')"
FAILED = (
    "installing failed; the lines above say why. Is the package index (PyPI) reachable from here? Everything has "
    "ready-made packages for 64-bit Windows, Linux (glibc 2.34; on ARM 2.39) and macOS 15 on Apple silicon"
)


class Missing(Exception):
    """Something that this script cannot bring by itself; the message says what, and what to do."""


def say(text: str) -> None:
    print(f"set up: {text}", flush=True)


def main(task: str) -> int:
    """Set up, then ``window`` or ``tests``; the exit code."""
    tasks = {"window": (open_window, "run"), "tests": (run_tests, "test")}
    work, lock = tasks[task]
    try:
        os.chdir(PROJECT)
        python = set_up(ENVIRONMENT, LOCK, lock)
        qt_libraries(python)
        return work(python)
    except Missing as missing:
        say(str(missing))
        return 2
    except KeyboardInterrupt:
        say("stopped; run the same command again to go on")
        return 130


def set_up(environment: Path, lock: Path, name: str) -> str:
    """The Python of ``environment``, in which what ``lock`` names for ``name`` (run, test) is installed.

    An environment of another Python, of another lock or another place is made anew; one for running is added to.
    """
    python = environment / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
    wanted, stamp = stamp_of(lock), environment / "studio-installed"
    found = stamp.read_text("utf-8").splitlines() if stamp.is_file() else [wanted]
    same = f"import pip, sys; assert sys.version_info[:2] == {sys.version_info[:2]}"
    if found[:1] != [wanted] or not works([str(python), "-c", same]):
        make(environment)
        found = [wanted]
    if name in found[1:] or "test" in found[1:]:
        return str(python)
    say("installing what the studio needs (a few minutes the first time)")
    stamp.unlink(missing_ok=True)
    install(str(python), lock / f"{name}.txt")
    stamp.write_text("\n".join([*found, name]), "utf-8")
    return str(python)


def stamp_of(lock: Path) -> str:
    """One word for all that an environment hangs on: lock, project, place and Python."""
    digest = hashlib.sha256(f"{PROJECT}\n{sys.version_info[:2]}\n".encode())
    for path in (lock / "run.txt", lock / "test.txt", PROJECT / "pyproject.toml"):
        digest.update(path.read_bytes())
    return digest.hexdigest()


def make(environment: Path) -> None:
    """A fresh environment in place of what may be there."""
    if environment.exists():
        say(f"the environment in {environment.name} is of another Python or lock, or does not work; making it anew")
        try:
            shutil.rmtree(environment)
        except OSError as error:
            raise Missing(f"{environment} could not be removed; close what uses it ({error})") from error
    say(f"making an environment in {environment.name} with Python {sys.version_info[0]}.{sys.version_info[1]}")
    command = [getattr(sys, "_base_executable", sys.executable), "-m", "venv", str(environment)]
    if not works(command):
        shutil.rmtree(environment, ignore_errors=True)
        names = f"python3-venv python{sys.version_info[0]}.{sys.version_info[1]}-venv"
        bring_packages(names, "Python's venv module is missing")
        if not works(command):
            raise Missing("Python's venv module does not work; reinstall Python with venv and pip, then run this again")


def install(python: str, lock: Path) -> None:
    """Install what the lock names, by its hashes and never by building; then the studio itself, fetching nothing."""
    pip = [python, "-m", "pip", "install", "--disable-pip-version-check", "--quiet"]
    locked = [*pip, "--require-hashes", "--only-binary", ":all:", "-r", str(lock)]
    studio = [*pip, "--no-index", "--no-deps", "--no-build-isolation", "-e", str(PROJECT)]
    if subprocess.call(locked) != 0 or subprocess.call(studio) != 0:
        raise Missing(FAILED)


def qt_libraries(python: str) -> None:
    """On Linux, see that Qt starts; bring its system libraries where that is possible."""
    if not sys.platform.startswith("linux"):
        return
    for platform in ["offscreen"] + (["xcb"] if os.environ.get("DISPLAY") else []):
        if not qt_starts(python, platform):
            bring_packages(SYSTEM_LIBRARIES, "Qt's system libraries are missing")
            if not qt_starts(python, platform):
                raise Missing(f"Qt does not start ({platform}); run '{python} -c \"{PROBE}\"' to see why")


def qt_starts(python: str, platform: str) -> bool:
    return works([python, "-c", PROBE], QT_QPA_PLATFORM=platform)


def bring_packages(names: str, reason: str) -> None:
    """Install Debian packages if we may; else say which command would."""
    if not shutil.which("apt-get"):
        raise Missing(f"{reason}. On this system install the equivalents of: {names}")
    ask = "sudo apt-get update && sudo apt-get install -y " + names
    leader = [] if hasattr(os, "geteuid") and os.geteuid() == 0 else ["sudo", "-n"]
    if leader and not (shutil.which("sudo") and works([*leader, "true"])):
        raise Missing(f"{reason}. Please run:\n  {ask}\nthen this command again")
    say(reason + "; installing them")
    subprocess.call([*leader, "apt-get", "-qq", "update"])
    known = [name for name in names.split() if works(["apt-cache", "show", name])]
    quiet = {"DEBIAN_FRONTEND": "noninteractive"}
    if not works([*leader, "apt-get", "-qq", "-y", "--no-install-recommends", "install", *known], **quiet):
        raise Missing(f"{reason} and installing them failed. Please run:\n  {ask}")


def works(command: list[str], **extra: str) -> bool:
    """Whether the command ends well; its output is dropped."""
    surroundings, nowhere = dict(os.environ, **extra), subprocess.DEVNULL
    try:
        done = subprocess.run(command, env=surroundings, check=False, stdout=nowhere, stderr=nowhere)
    except OSError:
        return False
    return done.returncode == 0


def has_screen() -> bool:
    if not sys.platform.startswith("linux"):
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def open_window(python: str) -> int:
    demo = OUTPUT / "demo.json"
    OUTPUT.mkdir(parents=True, exist_ok=True)
    if not demo.exists():
        check([python, "-m", "studio", "new", str(demo), "--demo"])
    if has_screen():
        say(f"opening the window on {demo.relative_to(PROJECT)}")
        return subprocess.call([python, "-m", "studio", str(demo)])
    say("there is no screen here, so the demo episode's work is done without a window:")
    check([python, "-m", "studio", "findings", str(demo)])
    check([python, "-m", "studio", "pictures", str(demo), "--to", str(OUTPUT / "pictures")])
    say(f"the demo's pictures lie in {OUTPUT / 'pictures'}")
    return 0


def check(command: list[str]) -> None:
    if subprocess.call(command) != 0:
        spelled = re.sub(r"\s+", " ", " ".join(command))
        raise Missing(f"'{spelled}' failed; the lines above say why")


def run_tests(python: str) -> int:
    say("running the tests")
    surroundings = dict(os.environ)
    if not has_screen():
        surroundings["QT_QPA_PLATFORM"] = "offscreen"
    return subprocess.call([python, "-m", "pytest", "-n", "auto", "--dist", "worksteal"], env=surroundings)
