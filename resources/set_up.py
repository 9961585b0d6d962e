"""Set the studio up on a fresh machine: make an environment beside the project, install, then open it or test it.

    python3 resources/set_up.py window     opens the window on the demo episode
    python3 resources/set_up.py tests      runs the tests

Safe to run again: what is there and up to date is kept. Only the standard library is used.

This file is the door: any Python from 2.7 on can read it. It sees that a Python that fits goes on with the work, which
``setting_up.py`` does: the one that was called, or else one that is found on this machine.
"""

import glob
import os
import re
import subprocess
import sys

RESOURCES = os.path.dirname(os.path.abspath(__file__))
PROJECT = os.path.dirname(RESOURCES)
TASKS = ("window", "tests")
ABOUT = "import struct, sys; print('%d.%d %d %s' % (sys.version_info[:2] + (struct.calcsize('P') * 8, sys.platform)))"
"""What a Python says of itself: its version, 32 or 64 bit, the system it was made for."""
COMPLETE = "import ensurepip, venv"
GIVE_UP = (
    "this is Python %s, and no Python %s was found on this machine; install one (from python.org or your system's "
    "packages), then run this command again"
)


def say(text):
    sys.stdout.write("set up: " + text + "\n")
    sys.stdout.flush()


def main(arguments):
    if len(arguments) != 1 or arguments[0] not in TASKS:
        sys.stdout.write(__doc__)
        return 2
    versions = fitting_versions()
    if version_of([sys.executable]) in versions:
        sys.path.insert(0, RESOURCES)
        import setting_up

        return setting_up.main(arguments[0])
    own, span = "%d.%d" % sys.version_info[:2], versions[-1] + " to " + versions[0]
    found = find(versions)
    if found is None:
        say(GIVE_UP % (own, span))
        return 2
    say("this is Python %s; going on with the Python %s found as %s" % (own, version_of(found), " ".join(found)))
    try:
        return subprocess.call(found + [os.path.abspath(__file__)] + arguments)
    except KeyboardInterrupt:
        return 130


def fitting_versions():
    """The versions for which everything can be had, the newest first: what pyproject.toml says."""
    with open(os.path.join(PROJECT, "pyproject.toml"), "rb") as file:
        told = re.search(r'^requires-python = ">=3\.(\d+),<3\.(\d+)"', file.read().decode("utf-8"), re.MULTILINE)
    return ["3.%d" % minor for minor in reversed(range(int(told.group(1)), int(told.group(2))))]


def find(versions):
    """The command of a Python of one of these versions, one that can make environments before others; or None."""
    fitting = [command for command in candidates(versions) if version_of(command) in versions]
    return next((command for command in fitting if runs(command, COMPLETE)), fitting[0] if fitting else None)


def candidates(versions):
    """Commands that may start such a Python: that of our own environment, by name, by launcher, where they are kept."""
    home = os.path.expanduser("~")
    kept = [
        os.environ.get("PYENV_ROOT", os.path.join(home, ".pyenv")) + "/versions/%s*/bin/python3",
        home + "/.local/share/uv/python/cpython-%s*/bin/python3",
        "/usr/bin/python%s", "/usr/local/bin/python%s", "/opt/homebrew/bin/python%s",
        "/Library/Frameworks/Python.framework/Versions/%s/bin/python3",
    ]  # fmt: skip
    yield [our_base()]
    for version in versions:
        yield ["python" + version]
        if os.name == "nt":
            yield ["py", "-" + version]
            folder = os.path.expandvars(r"%LOCALAPPDATA%\Programs\Python\Python") + version.replace(".", "")
            yield [os.path.join(folder, "python.exe")]
        for pattern in kept:
            for path in sorted(glob.glob(pattern % version), reverse=True):
                yield [path]


def our_base():
    """The Python from which our environment was made, if there is one."""
    try:
        with open(os.path.join(PROJECT, ".venv", "pyvenv.cfg")) as file:
            told = re.search(r"^home *= *(.*)$", file.read(), re.MULTILINE)
    except (OSError, IOError, UnicodeDecodeError):
        told = None
    folder = told.group(1).strip() if told else os.path.join(PROJECT, ".venv")
    return os.path.join(folder, "python.exe" if os.name == "nt" else "python3")


def version_of(command):
    """Such as ``3.12``; empty where nothing answers or it is a 32-bit one, for which nothing is offered."""
    told = answer(command, ABOUT).split()
    return told[0] if len(told) == 3 and told[1:] == ["64", sys.platform.replace("linux2", "linux")] else ""


def runs(command, code):
    return answer(command, code + "; print('yes')") == "yes"


def answer(command, code):
    """What a Python prints; empty where it is none or fails."""
    try:
        with open(os.devnull, "w") as nowhere:
            child = subprocess.Popen(command + ["-c", code], stdout=subprocess.PIPE, stderr=nowhere)
            told = child.communicate()[0]
    except (OSError, ValueError):
        return ""
    return told.decode("utf-8", "replace").strip() if child.returncode == 0 else ""


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
