#!/usr/bin/env python3
"""Run every gate: lint, format, types, import order, migrations, and all tests on SQLite and PostgreSQL.

    python tests/run.py [pytest's own words, such as -k standings]

Needs only Python 3.11 or newer; makes the environment like demo/run.py. With words of pytest's only the tests run,
on SQLite.
"""

import os
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path[:0] = [str(ROOT / "demo"), str(ROOT / "tests")]
from environment import VENV, NotReady, prepare, python

CHROMIUM = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
PYTEST = ["-m", "pytest", "-c", str(ROOT / ".pytest.ini"), "--rootdir", str(ROOT), "-q", "-p", "no:cacheprovider"]


def main() -> int:
    started = time.monotonic()
    try:
        prepare([ROOT / "requirements.txt", ROOT / "tests" / "requirements.txt"])
    except NotReady as error:
        print(error, file=sys.stderr)
        return 1
    with tempfile.TemporaryDirectory(prefix="weighin-tests-") as folder:
        env = {**os.environ, "WEIGHIN_DATA": folder, "PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": "1"}
        for name in ("DATABASE_URL", "WEIGHIN_HOSTS", "WEIGHIN_DEBUG"):
            env.pop(name, None)
        if sys.argv[1:]:
            return _run("tests", [*PYTEST, *sys.argv[1:]], env)
        failed = [name for name, words in _gates() if _run(name, words, env)]
        failed += _tests(env)
    print(f"\n{time.monotonic() - started:.0f} seconds in all.")
    if failed:
        print(f"Failed: {', '.join(failed)}.")
        return 1
    print("All gates passed.")
    return 0


def _gates() -> list[tuple[str, list[str]]]:
    return [
        ("lint", ["-m", "ruff", "check", "--config", str(ROOT / ".ruff.toml"), "."]),
        ("format", ["-m", "ruff", "format", "--check", "--config", str(ROOT / ".ruff.toml"), "."]),
        ("types", ["-m", "mypy", "--config-file", str(ROOT / ".mypy.ini")]),
        ("import order", ["-c", "from importlinter.cli import lint_imports_command as c; c()", "--config", ".importlinter"]),
        ("migrations", ["manage.py", "makemigrations", "--check", "--dry-run"]),
    ]


def _tests(env: dict[str, str]) -> list[str]:
    failed = []
    browser = _browser()
    parts = "not bench and not browser"
    if _run("tests on SQLite", [*PYTEST, "-n", "2", "-m", parts], env):
        failed.append("tests on SQLite")
    if _run("measurements", [*PYTEST, "-m", "bench"], env):
        failed.append("measurements")
    if browser:
        if _run("browser tests", [*PYTEST, "-m", "browser"], {**env, "WEIGHIN_CHROMIUM": browser}):
            failed.append("browser tests")
    else:
        print("\n== browser tests: skipped, no Chromium was found and this script may not install one here ==")
    failed += _on_postgres(env)
    return failed


def _on_postgres(env: dict[str, str]) -> list[str]:
    from postgres import NoPostgres, postgres

    # The package with PostgreSQL's binaries lies in the environment, not beside the interpreter that runs this script.
    sys.path += [str(path) for path in VENV.glob("lib/python*/site-packages")]
    try:
        with postgres() as url:
            words = [*PYTEST, "-n", "2", "-m", "database and not bench and not browser"]
            return ["tests on PostgreSQL"] if _run("tests on PostgreSQL", words, {**env, "DATABASE_URL": url}) else []
    except NoPostgres as error:
        print(f"\n== tests on PostgreSQL: not run, {error} ==")
        return ["tests on PostgreSQL"]


def _browser() -> str | None:
    """A Chromium to drive; on Debian, as root, it is installed when it is missing."""
    found = next((path for name in CHROMIUM if (path := shutil.which(name))), None)
    if found is None and hasattr(os, "geteuid") and os.geteuid() == 0 and shutil.which("apt-get"):
        print("\n== installing Chromium ==", flush=True)
        quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.STDOUT}
        calm = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
        for words in (["update", "-qq"], ["install", "-y", "-qq", "--no-install-recommends", "chromium"]):
            subprocess.run(["apt-get", *words], env=calm, check=False, **quiet)  # type: ignore[call-overload]
        found = shutil.which("chromium")
    return found


def _run(name: str, words: list[str], env: dict[str, str]) -> int:
    print(f"\n== {name} ==", flush=True)
    return subprocess.run([str(python()), *words], cwd=ROOT, env=env, check=False).returncode


if __name__ == "__main__":
    sys.exit(main())
