#!/usr/bin/env python3
"""Start the demo: make the environment, load the invented club's season, serve it on this machine.

    python demo/run.py [--port 8000] [--fresh]

Needs only Python 3.11 or newer. The demo keeps its data in var/demo; Ctrl-C ends it.
"""

import argparse
import os
import shutil
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))
from environment import ROOT, NotReady, manage, prepare, python

DATA = ROOT / "var" / "demo"
HOST = "127.0.0.1"
PORTS = 50
WAIT_SECONDS = 60


def main() -> int:
    options = _options()
    try:
        prepare([ROOT / "requirements.txt"])
        if options.fresh and DATA.exists():
            print("Taking the old demo data away ...", flush=True)
            shutil.rmtree(DATA)
        env = {**os.environ, "WEIGHIN_DATA": str(DATA), "PYTHONUNBUFFERED": "1"}
        env.pop("DATABASE_URL", None)
        print("Setting the database up ...", flush=True)
        manage("migrate", "--verbosity", "0", env=env)
        manage("load_demo", env=env)
        port = _free_port(options.port)
        return _serve(port, env)
    except NotReady as error:
        print(f"\n{error}", file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("\nStopped.")
        return 0


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description="Start the demo on this machine.")
    parser.add_argument("--port", type=int, default=8000, help="the first port to try (default 8000)")
    parser.add_argument("--fresh", action="store_true", help="start from new demo data")
    options = parser.parse_args()
    if not 1 <= options.port <= 65535:
        parser.error("--port takes a number from 1 to 65535")
    return options


def _free_port(first: int) -> int:
    """The first port from ``first`` on that nobody listens at."""
    for port in range(first, min(first + PORTS, 65536)):
        with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as probe:
            if os.name != "nt":
                probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            try:
                probe.bind((HOST, port))
            except OSError:
                continue
            return port
    raise NotReady(f"No port from {first} to {first + PORTS - 1} is free: name another with --port.")


def _serve(port: int, env: dict[str, str]) -> int:
    words = [str(python()), str(ROOT / "manage.py"), "serve", "--host", HOST, "--port", str(port)]
    server = subprocess.Popen(words, cwd=ROOT, env=env)
    # Ending this script by a signal ends the server too, as Ctrl-C does.
    signal.signal(signal.SIGTERM, lambda *_: (_ for _ in ()).throw(KeyboardInterrupt()))
    try:
        address = f"http://{HOST}:{port}/"
        _wait(address, server)
        print(f"\nThe demo is at {address}", flush=True)
        manage("load_demo", "--log-ins", env=env)
        print("Ctrl-C ends it.", flush=True)
        return server.wait()
    except KeyboardInterrupt:
        print("\nStopping ...", flush=True)
        return 0
    finally:
        _end(server)


def _wait(address: str, server: "subprocess.Popen[bytes]") -> None:
    """Wait until the first page answers."""
    until = time.monotonic() + WAIT_SECONDS
    while time.monotonic() < until:
        if server.poll() is not None:
            raise NotReady("The server stopped at once; what it said stands above.")
        try:
            with urllib.request.urlopen(address, timeout=5):
                return
        except urllib.error.HTTPError as error:
            raise NotReady(f"The first page answers with {error.code}: this is a fault of ours.") from None
        except OSError:
            time.sleep(0.1)
    raise NotReady(f"The server did not answer within {WAIT_SECONDS} seconds.")


def _end(server: "subprocess.Popen[bytes]") -> None:
    if server.poll() is None:
        server.terminate()
        try:
            server.wait(timeout=10)
        except subprocess.TimeoutExpired:
            server.kill()
            server.wait()


if __name__ == "__main__":
    sys.exit(main())
