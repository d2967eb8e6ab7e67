#!/usr/bin/env python3
"""Run every kind of check: lint, format, types, templates, scripts, import order, migrations, and the tests.

    python tests/run.py           the quick one: all tests on SQLite, a sample on PostgreSQL and in a browser
    python tests/run.py --all     everything, on SQLite with coverage, on PostgreSQL, in a browser, and the measurements
    python tests/run.py WORDS     only the tests that pytest's own words name (-k standings, tests/rules), on SQLite

Needs only Python 3.11 or newer; makes the environment like demo/run.py, and takes its --by-ranges too.
"""

import sys

if sys.version_info < (3, 11):
    sys.exit(
        "Python 3.11 or newer is needed; this is %d.%d. Start this script with a newer one." % sys.version_info[:2]
    )

import os
import shutil
import signal
import subprocess
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))
from demo.environment import BY_RANGES, RUN, TESTS, NotReady, prepare, python, variables
from tests.node.check import why_not

CHROMIUM = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
PYTEST = ["-m", "pytest", "-c", ".pytest.ini", "--rootdir", ".", "-q", "-p", "no:cacheprovider"]
GATES = {
    "lint": ["-m", "ruff", "check", "--config", ".ruff.toml", "."],
    "format": ["-m", "ruff", "format", "--check", "--config", ".ruff.toml", "."],
    "types": ["-m", "mypy", "--config-file", ".mypy.ini"],
    "templates": ["-m", "djlint", "templates", "--lint", "--configuration", ".djlintrc"],
    "import order": [
        "-c",
        "from importlinter.cli import lint_imports_command as run; run()",
        "--no-logo",
        ".importlinter",
    ],
    "migrations": ["manage.py", "makemigrations", "--check", "--dry-run"],
}
# They need Node, and npm once
SCRIPT_GATES = {"script lint": ["tests/node/check.py", "lint"], "script types": ["tests/node/check.py", "types"]}

# What the quick run tries where it costs most: the ledger's triggers and locks, and one page driven from end to end.
POSTGRES_SAMPLE = ["tests/faults", "tests/slips/test_slips_locks.py"]
BROWSER_SAMPLE = ["tests/browser/table/test_table.py"]


@dataclass(frozen=True)
class Outcome:
    """How one step ended; ``closing`` is the last line it printed, pytest's count, or why it was skipped."""

    name: str
    passed: bool
    seconds: float
    closing: str


def main() -> int:
    # A signal ends the tests as Ctrl-C does, servers and browsers included.
    signal.signal(signal.SIGTERM, _interrupt)
    try:
        words = [word for word in sys.argv[1:] if word != BY_RANGES]
        prepare([RUN, TESTS], by_ranges=BY_RANGES in sys.argv)
        with tempfile.TemporaryDirectory(prefix="weighin-tests-", ignore_cleanup_errors=True) as data:
            env = variables(WEIGHIN_DATA=data, PYTHONDONTWRITEBYTECODE="1")
            if words and words != ["--all"]:
                return 0 if _run("tests", [*PYTEST, *words], env).passed else 1
            return _say([*_gates(env), *_tests(env, whole=bool(words))])
    except NotReady as error:
        print(error, file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("\nStopped before the end.", file=sys.stderr)
        return 130


def _interrupt(signum: int, frame: Any) -> None:
    raise KeyboardInterrupt


def _gates(env: dict[str, str]) -> list[Outcome]:
    outcomes = [_run(name, words, env) for name, words in GATES.items()]
    missing = why_not()
    if missing:
        _skip("script lint and types", missing)
        return outcomes
    return outcomes + [_run(name, words, env) for name, words in SCRIPT_GATES.items()]


def _tests(env: dict[str, str], whole: bool) -> list[Outcome]:
    """The tests on SQLite, in a browser and on PostgreSQL: the ``whole`` of them with measurements, or samples."""
    sample = "" if whole else ", a sample"
    covered = ["--cov", "--cov-config", ".coveragerc", "--cov-report", "term:skip-covered"] if whole else []
    covered_env = env | {"COVERAGE_FILE": str(Path(env["WEIGHIN_DATA"]) / "coverage")}
    # First, since a machine that was busy for half an hour is slower, and mostly in what is not its disk
    if whole:
        outcomes = [_run("measurements", [*PYTEST, "-m", "bench"], env)]
    else:
        outcomes = [_skip("measurements", "--all takes them, since they want the machine alone")]
    words = [*PYTEST, "-n", "2", "-m", "not browser and not bench", *covered]
    outcomes.append(_run("tests on SQLite", words, covered_env))
    name, browser = f"browser tests{sample}", _browser()
    if browser:
        words = [*PYTEST, "-m", "browser", *([] if whole else BROWSER_SAMPLE)]
        outcomes.append(_run(name, words, {**env, "WEIGHIN_CHROMIUM": browser}))
    else:
        outcomes.append(_skip(name, "there is no Chromium here, and only root on Debian may install one"))
    name = f"tests on PostgreSQL{sample}"
    if os.name == "nt":
        outcomes.append(_skip(name, "it is started on a unix socket, which this system does not offer"))
    else:
        words = [*PYTEST, "-n", "2", "-m", "database and not browser and not bench"]
        words += [] if whole else POSTGRES_SAMPLE
        outcomes.append(_run(name, ["tests/postgres.py", str(python()), *words], env))
    return outcomes


def _browser() -> str | None:
    """A Chromium to drive; on Debian, as root, it is installed when it is missing."""
    found = next(filter(None, map(shutil.which, CHROMIUM)), None)
    if found is None and os.name != "nt" and os.geteuid() == 0 and shutil.which("apt-get"):
        print("\n== installing Chromium ==", flush=True)
        for words in (["update"], ["install", "-y", "--no-install-recommends", "chromium"]):
            subprocess.run(
                ["apt-get", "-qq", *words],
                env={**os.environ, "DEBIAN_FRONTEND": "noninteractive"},
                stdout=subprocess.DEVNULL,
                stderr=subprocess.DEVNULL,
                check=False,
            )
        found = shutil.which("chromium")
    return found


def _run(name: str, words: list[str], env: dict[str, str]) -> Outcome:
    """Run one step with the environment's Python, passing on what it prints."""
    print(f"\n== {name} ==", flush=True)
    started = time.monotonic()
    closing = ""
    command = [str(python()), *words]
    with subprocess.Popen(
        command, cwd=ROOT, env=env, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, encoding="utf-8", errors="replace"
    ) as step:
        assert step.stdout is not None
        try:
            for line in step.stdout:
                print(line, end="", flush=True)
                closing = line.strip() or closing
        except KeyboardInterrupt:
            step.terminate()
            raise
    return Outcome(name, step.returncode == 0, time.monotonic() - started, closing)


def _skip(name: str, why: str) -> Outcome:
    print(f"\n== {name}: skipped, {why} ==", flush=True)
    return Outcome(name, True, 0, f"skipped: {why}")


def _say(outcomes: list[Outcome]) -> int:
    """Print how every step ended, pytest's closing lines last; the exit code."""
    failed = [outcome.name for outcome in outcomes if not outcome.passed]
    print(f"\n== {'failed: ' + ', '.join(failed) if failed else 'everything passed'} ==")
    for outcome in outcomes:
        gate = outcome.name in GATES | SCRIPT_GATES
        words = outcome.closing if not gate else "passed" if outcome.passed else "FAILED"
        print(f"{outcome.name:<29} {outcome.seconds:4.0f} s  {words}")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
