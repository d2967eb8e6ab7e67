"""The production server in a process of its own, on its own data folder and port: what a tablet talks to."""

import os
import socket
import subprocess
import sys
import urllib.error
import urllib.request
from pathlib import Path

from patience import SECONDS, until

ROOT = Path(__file__).resolve().parent.parent
OWN = (
    "DATABASE_URL",
    "WEIGHIN_DATA",
    "WEIGHIN_HOSTS",
    "WEIGHIN_PROXY",
    "WEIGHIN_DEBUG",
    "WEIGHIN_BACKUP_TO",
    "DJANGO_SETTINGS_MODULE",
)


class Site:
    """One site on SQLite in ``data``; ``variables`` are further environment variables. It keeps its port."""

    def __init__(self, data: Path, **variables: str) -> None:
        self.data = data
        self.port = free_port()
        self.address = f"http://127.0.0.1:{self.port}"
        shell = {name: value for name, value in os.environ.items() if name not in OWN}
        self.env = {**shell, "WEIGHIN_DATA": str(data), **variables}
        self.server: subprocess.Popen[str] | None = None

    def manage(self, *words: str) -> "subprocess.CompletedProcess[str]":
        """Run a management command to its end."""
        return subprocess.run(
            self._command(*words), env=self.env, capture_output=True, text=True, check=False, cwd=ROOT
        )

    def start(self, host: str = "127.0.0.1", *more: str) -> None:
        """Start the server and wait until it answers. Raises RuntimeError with what it said when it does not."""
        words = self._command("serve", "--host", host, "--port", str(self.port), *more)
        with (self.data / "served.txt").open("a") as said:
            self.server = subprocess.Popen(words, env=self.env, cwd=ROOT, stdout=said, stderr=said, text=True)
        until(lambda: self._answers() or (self.server and self.server.poll() is not None))
        if self.server.poll() is not None:
            self.kill()
            raise RuntimeError(f"The server did not start: {self.said()}")

    def stop(self) -> int:
        """End the server as a service manager does; its exit code."""
        return self._end(gently=True)

    def kill(self) -> int:
        """End the server as a power cut does."""
        return self._end(gently=False)

    def said(self) -> str:
        """Everything the server has printed."""
        return (self.data / "served.txt").read_text()

    def ask(self, path: str, **headers: str) -> "tuple[int, dict[str, str], str]":
        """Ask for a page without following where it points: status, headers by lower-case name, text."""
        request = urllib.request.Request(self.address + path, headers=headers)
        try:
            with _opener.open(request, timeout=SECONDS) as answer:
                return answer.status, _lower(answer.headers), answer.read().decode()
        except urllib.error.HTTPError as error:
            return error.code, _lower(error.headers), error.read().decode()

    def _answers(self) -> bool:
        try:
            return bool(self.ask("/"))
        except OSError:
            return False

    def _command(self, *words: str) -> list[str]:
        return [sys.executable, str(ROOT / "manage.py"), *words]

    def _end(self, gently: bool) -> int:
        assert self.server is not None
        if gently:
            self.server.terminate()
        else:
            self.server.kill()
        code = self.server.wait(timeout=SECONDS)
        self.server = None
        return code


class _StayHere(urllib.request.HTTPRedirectHandler):
    def redirect_request(self, *words: object) -> None:
        return None


_opener = urllib.request.build_opener(urllib.request.ProxyHandler({}), _StayHere)


def _lower(headers: "object") -> dict[str, str]:
    return {name.lower(): value for name, value in headers.items()}  # type: ignore[attr-defined]


def free_port() -> int:
    """A port at which nobody listens just now."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])
