"""The project's own virtual environment: made once, filled from its requirement files, standard library only."""

import hashlib
import os
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
LEAST = (3, 11)


class NotReady(RuntimeError):
    """The environment cannot be made here; the message says what to do."""


def python() -> Path:
    """The environment's interpreter."""
    return VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def prepare(requirement_files: Sequence[Path]) -> None:
    """Make the environment and install what the files ask for; does nothing when all of it is there.

    Raises NotReady with a sentence that says what to do.
    """
    if sys.version_info < LEAST:
        found = ".".join(map(str, sys.version_info[:3]))
        raise NotReady(f"Python 3.11 or newer is needed; this is {found}. Start this script with a newer one.")
    if not _works():
        print("Making a virtual environment in .venv ...", flush=True)
        _make()
    for file in requirement_files:
        stamp = VENV / f".installed-{file.parent.name}-{file.stem}"
        digest = hashlib.sha256(file.read_bytes() + sys.version.encode()).hexdigest()
        if stamp.exists() and stamp.read_text() == digest:
            continue
        print(f"Installing what {file.relative_to(ROOT).as_posix()} lists (the first time takes a minute) ...", flush=True)
        _install(file)
        stamp.write_text(digest)


def manage(*words: str, env: dict[str, str] | None = None) -> None:
    """Run a management command. Raises NotReady when it fails."""
    done = subprocess.run([str(python()), str(ROOT / "manage.py"), *words], cwd=ROOT, env=env or dict(os.environ), check=False)
    if done.returncode:
        raise NotReady(f"'manage.py {' '.join(words)}' failed; what it said stands above.")


def _works() -> bool:
    if not python().exists():
        return False
    test = "import sys, pip; sys.exit(sys.version_info < (3, 11))"
    return subprocess.run([str(python()), "-c", test], capture_output=True, check=False).returncode == 0


def _make() -> None:
    done = subprocess.run([sys.executable, "-m", "venv", "--clear", str(VENV)], capture_output=True, text=True, check=False)
    if done.returncode:
        raise NotReady(
            f"The virtual environment could not be made. On Debian and Ubuntu install the package python3-venv.\n{done.stdout}{done.stderr}"
        )


def _install(file: Path) -> None:
    words = [str(python()), "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "-r", str(file)]
    done = subprocess.run(words, capture_output=True, text=True, check=False)
    if done.returncode:
        raise NotReady(
            "The packages could not be installed. The first start needs the network (or a local package index); "
            f"later ones do not. pip said:\n{done.stderr.strip()[-1500:]}"
        )
