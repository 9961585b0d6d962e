"""Set the studio up on a fresh machine: make an environment beside the project, install, then open it or test it.

    python3 resources/set_up.py window     opens the window on the demo episode
    python3 resources/set_up.py tests      runs the tests

Only the standard library is used, and nothing that an old Python could not read: an old one shall say so itself.
Safe to run again: what is there and up to date is kept.
"""

import hashlib
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

LEAST = (3, 11)
PROJECT = Path(__file__).resolve().parent.parent
ENVIRONMENT = PROJECT / ".venv"
OUTPUT = PROJECT / "build" / "demo"
SYSTEM_LIBRARIES = (
    "libegl1 libgl1 libopengl0 libfontconfig1 libfreetype6 libdbus-1-3 libglib2.0-0 libxkbcommon0 libxkbcommon-x11-0 "
    "libx11-xcb1 libxcb-cursor0 libxcb-icccm4 libxcb-image0 libxcb-keysyms1 libxcb-randr0 libxcb-render-util0 "
    "libxcb-render0 libxcb-shape0 libxcb-shm0 libxcb-sync1 libxcb-util1 libxcb-xfixes0 libxcb-xinerama0 libxcb-xkb1"
)
PROBE = "from PySide6.QtWidgets import QApplication; QApplication([]); print('ready')"


class Missing(Exception):
    """Something that this script cannot bring by itself; the message says what, and what to do."""


def say(text):
    print("set up: " + text, flush=True)


def main(arguments):
    tasks = {"window": open_window, "tests": run_tests}
    if len(arguments) != 1 or arguments[0] not in tasks:
        print(__doc__)
        return 2
    try:
        if sys.version_info < LEAST:
            raise Missing("this is Python %d.%d; the studio needs 3.11 or newer" % sys.version_info[:2])
        os.chdir(PROJECT)
        python = environment()
        install(python)
        qt_libraries(python)
        return tasks[arguments[0]](python)
    except Missing as missing:
        say(str(missing))
        return 2
    except KeyboardInterrupt:
        say("stopped; run the same command again to go on")
        return 130


def environment():
    """The Python of our environment, which is made if it is not there or broken."""
    python = ENVIRONMENT / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
    if python.exists() and works([str(python), "-c", "import pip, sys; assert sys.version_info >= (3, 11)"]):
        return str(python)
    if ENVIRONMENT.exists():
        say("the environment in %s does not work; making it anew" % ENVIRONMENT.name)
        shutil.rmtree(ENVIRONMENT)
    say("making an environment in %s" % ENVIRONMENT.name)
    make = [sys.executable, "-m", "venv", str(ENVIRONMENT)]
    if not works(make):
        shutil.rmtree(ENVIRONMENT, ignore_errors=True)
        bring_packages("python3-venv python%d.%d-venv" % sys.version_info[:2], "Python's venv module is missing")
        if not works(make):
            raise Missing("Python's venv module does not work; reinstall Python with venv and pip, then run this again")
    return str(python)


def install(python):
    """Install the studio with its tests' tools, unless that was done for this very pyproject.toml."""
    content = (PROJECT / "pyproject.toml").read_bytes() + str(PROJECT).encode()
    wanted = hashlib.sha256(content).hexdigest()
    stamp = ENVIRONMENT / "studio-installed"
    if stamp.exists() and stamp.read_text() == wanted:
        return
    say("installing what the studio needs (a few minutes the first time)")
    command = [python, "-m", "pip", "install", "--disable-pip-version-check", "--quiet", "-e", ".[test]"]
    if subprocess.call(command) != 0:
        raise Missing("installing failed; the lines above say why. Is the package index (PyPI) reachable from here?")
    stamp.write_text(wanted)


def qt_libraries(python):
    """On Linux, see that Qt starts; bring its system libraries where that is possible."""
    if not sys.platform.startswith("linux"):
        return
    for platform in ["offscreen"] + (["xcb"] if os.environ.get("DISPLAY") else []):
        if not qt_starts(python, platform):
            bring_packages(SYSTEM_LIBRARIES, "Qt's system libraries are missing")
            if not qt_starts(python, platform):
                raise Missing("Qt does not start (%s); run '%s -c \"%s\"' to see why" % (platform, python, PROBE))


def qt_starts(python, platform):
    return works([python, "-c", PROBE], QT_QPA_PLATFORM=platform)


def bring_packages(names, reason):
    """Install Debian packages if we may; else say which command would."""
    if not shutil.which("apt-get"):
        raise Missing("%s. On this system install the equivalents of: %s" % (reason, names))
    ask = "sudo apt-get update && sudo apt-get install -y " + names
    leader = [] if hasattr(os, "geteuid") and os.geteuid() == 0 else ["sudo", "-n"]
    if leader and not (shutil.which("sudo") and works([*leader, "true"])):
        raise Missing("%s. Please run:\n  %s\nthen this command again" % (reason, ask))
    say(reason + "; installing them")
    subprocess.call([*leader, "apt-get", "-qq", "update"])
    known = [name for name in names.split() if works(["apt-cache", "show", name])]
    quiet = {"DEBIAN_FRONTEND": "noninteractive"}
    if not works([*leader, "apt-get", "-qq", "-y", "--no-install-recommends", "install", *known], **quiet):
        raise Missing("%s and installing them failed. Please run:\n  %s" % (reason, ask))


def works(command, **extra):
    """Whether the command ends well; its output is dropped."""
    surroundings = dict(os.environ, **extra)
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    try:
        done = subprocess.run(command, env=surroundings, check=False, **quiet)
    except OSError:
        return False
    return done.returncode == 0


def has_screen():
    if not sys.platform.startswith("linux"):
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def open_window(python):
    demo = OUTPUT / "demo.json"
    OUTPUT.mkdir(parents=True, exist_ok=True)
    if not demo.exists():
        check([python, "-m", "studio", "new", str(demo), "--demo"])
    if has_screen():
        say("opening the window on %s" % demo.relative_to(PROJECT))
        return subprocess.call([python, "-m", "studio", str(demo)])
    say("there is no screen here, so the demo episode's work is done without a window:")
    check([python, "-m", "studio", "findings", str(demo)])
    check([python, "-m", "studio", "pictures", str(demo), "--to", str(OUTPUT / "pictures")])
    say("the demo's pictures lie in %s" % (OUTPUT / "pictures"))
    return 0


def check(command):
    if subprocess.call(command) != 0:
        raise Missing("'%s' failed; the lines above say why" % re.sub(r"\s+", " ", " ".join(command)))


def run_tests(python):
    say("running the tests")
    surroundings = dict(os.environ)
    if not has_screen():
        surroundings["QT_QPA_PLATFORM"] = "offscreen"
    return subprocess.call([python, "-m", "pytest", "-n", "auto", "--dist", "worksteal"], env=surroundings)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
