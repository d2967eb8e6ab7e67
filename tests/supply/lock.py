#!/usr/bin/env python3
"""Write .lock/ anew from the ranges: what is installed, by name, release and hash, and under which license it comes.

    python tests/supply/lock.py          the newest releases that the ranges allow
    python tests/supply/lock.py --keep   only what changed ranges ask for; everything else stays as it is

Needs the network, or an index of packages. One lock serves Python 3.11 to 3.14 on Linux, macOS and Windows. It names no
index, so that a mirror serves as well. Prints which packages changed.
"""

import argparse
import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))
from demo.environment import LOCKED, RUN, TESTS, NotReady, Packages, prepare, python
from tests.supply import licenses
from tests.supply.pins import pins

PYTHONS = ("3.11", "3.12", "3.13", "3.14")
SYSTEMS = (
    "x86_64-unknown-linux-gnu",
    "aarch64-unknown-linux-gnu",
    "aarch64-apple-darwin",
    "x86_64-apple-darwin",
    "x86_64-pc-windows-msvc",
)
READY_MADE = ["--only-binary", ":all:"]
HEADER = "# Made by tests/supply/lock.py from {ranges}: every file that may be installed, by its hash.\n"


def main() -> int:
    parser = argparse.ArgumentParser(description="Write the locks and the table of licenses anew.")
    parser.add_argument("--keep", action="store_true", help="keep every release that the ranges still allow")
    keep = parser.parse_args().keep
    try:
        before = _all_pins() if RUN.lock.exists() else {}
        # The environment that one is in, where it can write locks; else the project's own.
        interpreter = sys.executable
        if not find_spec("uv"):
            prepare([RUN, TESTS])
            interpreter = str(python())
        RUN.lock.parent.mkdir(exist_ok=True)
        _lock(interpreter, RUN, keep, [])
        _lock(interpreter, TESTS, keep, ["--constraint", _name(RUN.lock)])
        for line in _changes(before, _all_pins()):
            print(line)
        _everywhere(interpreter)
        files = [words for packages in (RUN, TESTS) for words in ("-r", _name(packages.lock))]
        _run([interpreter, "-m", "pip", "install", "--quiet", *LOCKED, *files])
        _run([interpreter, "-m", "pip", "check"])
        _run([interpreter, str(Path(licenses.__file__))])
    except NotReady as error:
        print(error, file=sys.stderr)
        return 1
    return 0


def _lock(interpreter: str, packages: Packages, keep: bool, more: list[str]) -> None:
    words = ["--universal", "--generate-hashes", "--no-header", "--no-annotate"]
    words += [*READY_MADE, "--python-version", PYTHONS[0], *([] if keep else ["--upgrade"]), *more]
    _compile(interpreter, [*words, "--output-file", _name(packages.lock), _name(packages.ranges)])
    text = HEADER.format(ranges=_name(packages.ranges)) + packages.lock.read_text(encoding="utf-8")
    packages.lock.write_text(text, encoding="utf-8", newline="\n")


def _everywhere(interpreter: str) -> None:
    """Raise NotReady where a system that the lock is for has no ready-made file of some package."""
    print(f"Looking whether all is ready made for Python {', '.join(PYTHONS)} on {', '.join(SYSTEMS)} ...", flush=True)
    for release in PYTHONS:
        for system in SYSTEMS:
            words = ["--python-version", release, "--python-platform", system, *READY_MADE]
            _compile(interpreter, [*words, _name(RUN.lock), _name(TESTS.lock)])


def _compile(interpreter: str, words: list[str]) -> None:
    _run([interpreter, "-m", "uv", "pip", "compile", "--quiet", *words], stdout=subprocess.DEVNULL)


def _run(words: list[str], stdout: int | None = None) -> None:
    if subprocess.run(words, cwd=ROOT, stdout=stdout, check=False).returncode:
        raise NotReady("Not everything was written; what stopped it stands above. git restore .lock brings it back.")


def _name(file: Path) -> str:
    return file.relative_to(ROOT).as_posix()


def _all_pins() -> dict[str, str]:
    """Name to releases, in words, over both locks."""
    found: dict[str, set[str]] = {}
    for packages in (RUN, TESTS):
        for pin in pins(packages.lock):
            found.setdefault(pin.name, set()).add(pin.version)
    return {name: " and ".join(sorted(versions)) for name, versions in found.items()}


def _changes(before: dict[str, str], after: dict[str, str]) -> list[str]:
    """A line for each package that came, went or has another release."""
    changed = sorted(name for name in before.keys() | after.keys() if before.get(name) != after.get(name))
    lines = [f"{name}: {before.get(name, 'new')} -> {after.get(name, 'gone')}" for name in changed]
    return lines or ["Every package stays at the release it had."]


if __name__ == "__main__":
    sys.exit(main())
