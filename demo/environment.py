"""The project's own virtual environment: made once, filled by the locks with hashes, standard library only."""

import hashlib
import os
import re
import subprocess
import sys
import sysconfig
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
# What a developer's shell may hold and what must not reach the demo or the tests.
FOREIGN = (
    "DATABASE_URL",
    "WEIGHIN_DATA",
    "WEIGHIN_HOSTS",
    "WEIGHIN_DEBUG",
    "DJANGO_SETTINGS_MODULE",
    "PYTHONPATH",
    "PYTHONHOME",
)


BY_RANGES = "--by-ranges"
# Ready-made files alone: one that has to be compiled fails late, in words that only its maker understands.
LOCKED = ["--require-hashes", "--only-binary", ":all:"]


@dataclass(frozen=True)
class Packages:
    """What a part of the project needs: ``ranges`` written by people, ``lock`` the very files that were tested."""

    ranges: Path
    lock: Path


RUN = Packages(ROOT / "requirements.txt", ROOT / ".lock" / "run.txt")
TESTS = Packages(ROOT / "tests" / "requirements.txt", ROOT / ".lock" / "tests.txt")


class NotReady(RuntimeError):
    """The environment cannot be made here; the message says what to do."""


def python() -> Path:
    """The environment's interpreter."""
    return VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def variables(**more: str) -> dict[str, str]:
    """The environment variables for a command of the project: this shell's, less what is foreign, and ``more``."""
    kept = {name: value for name, value in os.environ.items() if name not in FOREIGN}
    return kept | {"PYTHONUNBUFFERED": "1", "PYTHONUTF8": "1"} | more


def prepare(wanted: Sequence[Packages], by_ranges: bool = False) -> None:
    """Make the environment and install what is ``wanted``; does nothing when all of it is there.

    Every file is held against its hash in the lock, and no other release is taken. ``by_ranges``, which a person has
    to ask for, installs whatever the ranges allow, unproven.

    Raises NotReady with a sentence that says what to do.
    """
    if not _works():
        print("Making a virtual environment in .venv ...", flush=True)
        _make()
    for packages in wanted:
        file = packages.ranges if by_ranges else packages.lock
        stamp = VENV / f".installed-{packages.lock.stem}"
        state = hashlib.sha256(file.read_bytes() + (VENV / "pyvenv.cfg").read_bytes()).hexdigest()
        if stamp.exists() and stamp.read_text() == state:
            continue
        name = file.relative_to(ROOT).as_posix()
        print(f"Installing what {name} lists; the first time this takes a minute or so ...", flush=True)
        stamp.unlink(missing_ok=True)
        _install(packages, by_ranges)
        stamp.write_text(state)


def _works() -> bool:
    """Whether the environment is there, new enough and able to install."""
    if not python().exists():
        return False
    test = "import sys, pip; sys.exit(sys.version_info < (3, 11))"
    return subprocess.run([python(), "-c", test], capture_output=True, env=variables(), check=False).returncode == 0


def _make() -> None:
    done = _quietly([sys.executable, "-m", "venv", "--clear", str(VENV)])
    if done.returncode:
        raise NotReady(
            "The virtual environment could not be made. On Debian and Ubuntu install the package python3-venv; "
            "elsewhere use a Python that has the modules venv and ensurepip.\n" + _tail(done)
        )


def _install(packages: Packages, by_ranges: bool) -> None:
    words = ["-r", str(packages.ranges)] if by_ranges else [*LOCKED, "-r", str(packages.lock)]
    done = _quietly([str(python()), "-m", "pip", "install", "--quiet", "--disable-pip-version-check", *words])
    if done.returncode:
        raise NotReady(f"{_why_not(done.stdout, packages.ranges)}\npip said:\n{_tail(done)}")


def _why_not(said: str, ranges: Path) -> str:
    """What pip's output means, and what to do."""
    if "DO NOT MATCH THE HASHES" in said:
        return (
            "Nothing was installed: a package that the index offers is not the file that weighin was tested with. "
            "Somebody may have altered it. Try another network or another index; if it stays so, tell who keeps "
            "weighin, and do not install it by hand."
        )
    missing = re.search(r"No matching distribution found for ([^\s;]+)", said)
    if missing and not re.search(r"connection|Retrying", said):
        ranges_name = ranges.relative_to(ROOT).as_posix()
        version = ".".join(map(str, sys.version_info[:2]))
        return (
            f"Nothing was installed: the index of packages that pip is set up for has no ready-made {missing[1]} for "
            f"Python {version} on {sysconfig.get_platform()}. If the index is a mirror, it may lack that release: use "
            "one that has it. Else take Python 3.11 to 3.14 for a 64-bit processor (on Windows the one for x64): the "
            f"packages are ready made for these. Or start again with {BY_RANGES}: then pip takes whatever "
            f"{ranges_name} allows, without checking that it is what was tested, and may have to compile it."
        )
    return (
        "The packages could not be installed. The first start needs the network, or an index of packages that "
        "pip is set up for; later starts need neither. Start again when it is there."
    )


def _quietly(words: list[str]) -> "subprocess.CompletedProcess[str]":
    return subprocess.run(
        words,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        errors="replace",
        env=variables(),
        check=False,
    )


def _tail(done: "subprocess.CompletedProcess[str]") -> str:
    return "\n".join(done.stdout.strip().splitlines()[-12:])
