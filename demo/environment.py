"""The project's own virtual environment: made once, filled from its requirement files, standard library only."""

import hashlib
import os
import subprocess
import sys
from collections.abc import Sequence
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


class NotReady(RuntimeError):
    """The environment cannot be made here; the message says what to do."""


def python() -> Path:
    """The environment's interpreter."""
    return VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def variables(**more: str) -> dict[str, str]:
    """The environment variables for a command of the project: this shell's, less what is foreign, and ``more``."""
    kept = {name: value for name, value in os.environ.items() if name not in FOREIGN}
    return kept | {"PYTHONUNBUFFERED": "1", "PYTHONUTF8": "1"} | more


def prepare(requirement_files: Sequence[Path]) -> None:
    """Make the environment and install what the files ask for; does nothing when all of it is there.

    Raises NotReady with a sentence that says what to do.
    """
    if not _works():
        print("Making a virtual environment in .venv ...", flush=True)
        _make()
    for file in requirement_files:
        stamp = VENV / f".installed-{file.parent.name}"
        wanted = hashlib.sha256(file.read_bytes() + (VENV / "pyvenv.cfg").read_bytes()).hexdigest()
        if stamp.exists() and stamp.read_text() == wanted:
            continue
        name = file.relative_to(ROOT).as_posix()
        print(f"Installing what {name} lists; the first time this takes a minute or so ...", flush=True)
        _install(file)
        stamp.write_text(wanted)


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


def _install(file: Path) -> None:
    done = _quietly([str(python()), "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "-r", str(file)])
    if done.returncode:
        raise NotReady(
            "The packages could not be installed. The first start needs the network, or an index of packages that "
            "pip is set up for; later starts need neither. Start again when it is there. pip said:\n" + _tail(done)
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
