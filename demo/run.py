#!/usr/bin/env python3
"""Start the demo: make the environment, load the invented club's season, serve it on this machine.

    python demo/run.py [--port 8000] [--fresh] [--by-ranges]

Needs only Python 3.11 or newer. The demo keeps its data in var/demo; Ctrl-C ends it.
"""

import sys

if sys.version_info < (3, 11):
    sys.exit(
        "Python 3.11 or newer is needed; this is %d.%d. Start this script with a newer one." % sys.version_info[:2]
    )

import argparse
import os
import shutil
import signal
import socket
import subprocess
import time
import urllib.error
import urllib.request
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))
from demo.environment import BY_RANGES, ROOT, RUN, NotReady, prepare, python, variables

DATA = ROOT / "var" / "demo"
HOST = "127.0.0.1"
PORTS = 50
WAIT_SECONDS = 60


def main() -> int:
    options = _options()
    # A signal ends the demo as Ctrl-C does, whatever it is doing.
    signal.signal(signal.SIGTERM, _interrupt)
    try:
        prepare([RUN], options.by_ranges)
        if options.fresh:
            _forget()
        print("Setting the database up ...", flush=True)
        _manage("migrate", "--verbosity", "0")
        _manage("load_demo")
        _serve(_free_port(options.port))
    except NotReady as error:
        print(f"\n{error}", file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("\nThe demo has ended.")
    return 0


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description="Start the demo on this machine.")
    parser.add_argument("--port", type=int, default=8000, help="the first port to try (default 8000)")
    parser.add_argument("--fresh", action="store_true", help="start from new demo data")
    parser.add_argument(BY_RANGES, action="store_true", help="install what requirements.txt allows, without the lock")
    options = parser.parse_args()
    if not 1 <= options.port <= 65535:
        parser.error("--port takes a number from 1 to 65535")
    return options


def _interrupt(signum: int, frame: Any) -> None:
    raise KeyboardInterrupt


def _forget() -> None:
    """Take the demo's own data away, and nothing else."""
    if not DATA.exists():
        return
    print("Taking the old demo data away ...", flush=True)
    try:
        shutil.rmtree(DATA)
    except OSError as error:
        raise NotReady(f"The old demo data in {DATA} cannot be taken away ({error}): end what uses it.") from None


def _command(*words: str) -> list[str]:
    return [str(python()), str(ROOT / "manage.py"), *words]


def _manage(*words: str) -> None:
    """Run a management command on the demo's data. Raises NotReady when it fails."""
    done = subprocess.run(_command(*words), cwd=ROOT, env=variables(WEIGHIN_DATA=str(DATA)), check=False)
    if done.returncode:
        raise NotReady(
            f"'manage.py {' '.join(words)}' failed; what it said stands above. --fresh starts with new demo data."
        )


def _free_port(first: int) -> int:
    """The first port from ``first`` on at which nobody listens."""
    last = min(first + PORTS - 1, 65535)
    for port in range(first, last + 1):
        with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as probe:
            # The server asks for the same, so that the port of a demo just ended is free at once.
            if os.name != "nt":
                probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            try:
                probe.bind((HOST, port))
            except OSError:
                continue
            return port
    raise NotReady(f"No port from {first} to {last} is free: name another with --port.")


def _serve(port: int) -> None:
    """Serve until the server ends or this script is interrupted; then both have ended."""
    words = _command("serve", "--host", HOST, "--port", str(port))
    server = subprocess.Popen(words, cwd=ROOT, env=variables(WEIGHIN_DATA=str(DATA)), stdout=subprocess.DEVNULL)
    try:
        address = f"http://{HOST}:{port}/"
        _wait(address, server)
        print(f"\nThe demo is at {address}\n", flush=True)
        _manage("load_demo", "--log-ins")
        print("\nCtrl-C ends it.", flush=True)
        if server.wait():
            raise NotReady("The server has stopped; what it said stands above.")
    finally:
        _end(server)


def _wait(address: str, server: "subprocess.Popen[bytes]") -> None:
    """Wait until the first page answers."""
    # A proxy that the shell names is no way to this machine itself.
    opener = urllib.request.build_opener(urllib.request.ProxyHandler({}))
    until = time.monotonic() + WAIT_SECONDS
    while time.monotonic() < until:
        if server.poll() is not None:
            raise NotReady("The server stopped at once; what it said stands above.")
        try:
            with opener.open(address, timeout=5):
                return
        except urllib.error.HTTPError as error:
            raise NotReady(f"The first page answers with {error.code}; what the server said stands above.") from None
        except OSError:
            time.sleep(0.1)
    raise NotReady(f"The server did not answer within {WAIT_SECONDS} seconds.")


def _end(server: "subprocess.Popen[bytes]") -> None:
    if server.poll() is not None:
        return
    server.terminate()
    try:
        server.wait(timeout=10)
    except subprocess.TimeoutExpired:
        server.kill()
        server.wait()


if __name__ == "__main__":
    sys.exit(main())
