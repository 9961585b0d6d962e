"""Renew the lock: find the newest versions, see that every system has them, run the tests on them, say what changed.

    .venv/bin/python resources/renew_lock.py            tests the newest versions; the lock follows if they pass
    .venv/bin/python resources/renew_lock.py --look     only says what would change

The whole tests run in an environment made for that from the new files alone. Unless they pass, ``resources/lock`` is
put back as it was. It needs ``uv`` (pip install uv) and the package index.
"""

import argparse
import os
import re
import shutil
import subprocess
import sys
import tomllib
from collections.abc import Iterable
from pathlib import Path

from set_up import fitting_versions
from setting_up import LOCK, PROJECT, Missing, has_screen, install, make

FRESH = PROJECT / "build" / "lock"
SYSTEMS = ("x86_64-manylinux_2_34", "aarch64-manylinux_2_39", "x86_64-pc-windows-msvc", "aarch64-apple-darwin")
"""The systems for which everything must be had ready-made, as uv names them; the README names the same."""
MACOS = "15.0"
HEAD = """\
# Exact versions with hashes: {what}.
# Made by resources/renew_lock.py from the ranges in pyproject.toml, for CPython {oldest} to {newest}. Not to be edited.
"""
WHAT = {"run": "what the studio needs, movies and its own build included", "test": "the same with what the tests need"}
Versions = dict[str, str]


def main() -> int:
    """Run the steps; 0 when the lock is or has become the newest, 1 when the tests failed, 2 when a step could not."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--look", action="store_true", help="only say what would change")
    look = parser.parse_args().look
    try:
        return renew(look)
    except Missing as missing:
        print(missing, file=sys.stderr)
        return 2


def renew(look: bool) -> int:
    """Compile, check, compare, test, replace."""
    uv = find_uv()
    compile_locks(uv)
    check_packages(uv)
    changes = list(changed(versions(LOCK / "test.txt"), versions(FRESH / "test.txt")))
    print("\n".join(changes) or "every version is the newest that pyproject.toml allows", flush=True)
    for line in held_back(uv):
        print(line, flush=True)
    if look or same():
        return 0
    failed = test_in_place()
    if failed:
        print(f"\nthe tests FAILED on these versions (exit code {failed}): resources/lock is as it was before; "
              f"the new files lie in {FRESH.relative_to(PROJECT)}")  # fmt: skip
        return 1
    print("\nthe tests passed on these versions: resources/lock was replaced")
    return 0


def find_uv() -> list[str]:
    """The command of uv."""
    for command in (["uv"], [sys.executable, "-m", "uv"]):
        if shutil.which(command[0]) and subprocess.call([*command, "--version"], stdout=subprocess.DEVNULL) == 0:
            return command
    raise Missing("uv is missing: pip install uv, then run this again")


def compile_locks(uv: list[str]) -> None:
    """Write both files; what is for running is a part of what is for testing, in the same versions."""
    shutil.rmtree(FRESH, ignore_errors=True)
    FRESH.mkdir(parents=True)
    builder = FRESH / "builder.in"
    project = tomllib.loads((PROJECT / "pyproject.toml").read_text("utf-8"))
    builder.write_text("\n".join(project["build-system"]["requires"]), "utf-8")
    fitting = fitting_versions()
    for name, more in (("test", ["--extra", "test"]), ("run", ["--constraint", str(FRESH / "test.txt")])):
        lock = FRESH / f"{name}.txt"
        run([*uv, "pip", "compile", "--quiet", "--universal", "--generate-hashes", "--no-header", "--no-annotate",
             "--fork-strategy", "fewest", "--only-binary", ":all:", "--python-version", fitting[-1],
             "--extra", "clips", *more, "--output-file", str(lock), "pyproject.toml", str(builder)])  # fmt: skip
        head = HEAD.format(what=WHAT[name], oldest=fitting[-1], newest=fitting[0])
        lock.write_text(head + lock.read_text("utf-8"), "utf-8")
        if "://" in lock.read_text("utf-8"):
            raise Missing(f"{lock.name} names an address: it must hold names, versions and hashes alone")


def check_packages(uv: list[str]) -> None:
    """See that each system and Python can be served without building anything."""
    surroundings = {"MACOSX_DEPLOYMENT_TARGET": MACOS}
    for version in fitting_versions():
        for system in SYSTEMS:
            run([*uv, "pip", "install", "--quiet", "--dry-run", "--only-binary", ":all:", "--require-hashes",
                 "--python-version", version, "--python-platform", system, "--target", str(FRESH / "nowhere"),
                 "--requirements", str(FRESH / "test.txt")], **surroundings)  # fmt: skip


def held_back(uv: list[str]) -> list[str]:
    """Newer versions that pyproject.toml does not allow, one line each."""
    project = tomllib.loads((PROJECT / "pyproject.toml").read_text("utf-8"))["project"]
    extras = project["optional-dependencies"].values()
    ranges = [*project["dependencies"], *(each for extra in extras for each in extra)]
    names, newest = FRESH / "names.in", FRESH / "newest.txt"
    names.write_text("\n".join(sorted({re.split(r"[<>=!~ ;]", each)[0] for each in ranges})), "utf-8")
    run([*uv, "pip", "compile", "--quiet", "--no-deps", "--no-header", "--no-annotate", "--only-binary", ":all:",
         "--python-version", fitting_versions()[-1], "--output-file", str(newest), str(names)])  # fmt: skip
    ours = versions(FRESH / "test.txt")
    return [
        f"  {name} {version} exists; pyproject.toml holds it to {ours[name]}"
        for name, version in versions(newest).items()
        if ours[name] != version
    ]


def versions(lock: Path) -> Versions:
    """Package -> version of a lock; nothing where there is no such file."""
    if not lock.is_file():
        return {}
    found = re.findall(r"^([A-Za-z0-9._-]+)==([^\s;\\]+)", lock.read_text("utf-8"), re.MULTILINE)
    return dict(sorted(found))


def changed(old: Versions, new: Versions) -> Iterable[str]:
    """One line for each package that is another, new or gone."""
    for name in sorted({*old, *new}):
        if old.get(name) != new.get(name):
            yield f"  {name} {old.get(name, '(not there)')} -> {new.get(name, '(no longer needed)')}"


def same() -> bool:
    """Whether the new files are those that are there."""
    locks = [(LOCK / f"{name}.txt", FRESH / f"{name}.txt") for name in WHAT]
    return all(old.is_file() and old.read_bytes() == new.read_bytes() for old, new in locks)


def test_in_place() -> int:
    """The tests' exit code with the new files in the lock's place, where they stay only if it is 0."""
    before = {path: path.read_bytes() for path in LOCK.glob("*.txt")}
    failed = 1
    LOCK.mkdir(exist_ok=True)
    for name in WHAT:
        shutil.copyfile(FRESH / f"{name}.txt", LOCK / f"{name}.txt")
    try:
        failed = test()
    finally:
        for path, content in before.items() if failed else ():
            path.write_bytes(content)
    return failed


def test() -> int:
    """The exit code of the whole tests in an environment made of the new files alone."""
    environment = FRESH / "environment"
    make(environment)
    python = str(environment / ("Scripts/python.exe" if os.name == "nt" else "bin/python"))
    install(python, FRESH / "test.txt")
    surroundings = dict(os.environ) if has_screen() else {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
    tests = [python, "-m", "pytest", "-q", "-n", "auto", "--dist", "worksteal"]
    return subprocess.call(tests, cwd=PROJECT, env=surroundings)


def run(command: list[str], **extra: str) -> None:
    """Run a step whose failure ends everything; what it says is shown."""
    if subprocess.call(command, cwd=PROJECT, env={**os.environ, **extra}) != 0:
        raise Missing(f"'{' '.join(command)}' failed; the lines above say why. resources/lock stays as it was")


if __name__ == "__main__":
    sys.exit(main())
