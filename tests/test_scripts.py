"""The scripts that a person starts: demo/run.py, tests/run.py and .ci/run."""

import importlib
import os
import re
import shutil
import signal
import subprocess
import sys
import urllib.request
from collections.abc import Iterator
from pathlib import Path

import pytest
from node import check
from patience import SECONDS, until
from upgrade.earlier_database import earlier_place

from weighin.safekeeping.database.earlier_layout import RUN_UPGRADE

ROOT = Path(__file__).resolve().parent.parent
LEFT_OUT = shutil.ignore_patterns(".git", ".venv", "var", "__pycache__", ".*_cache", ".hypothesis", "tests")


@pytest.fixture(scope="module")
def copy(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The project elsewhere, in a folder whose name holds a space, with this environment as its own."""
    folder = tmp_path_factory.mktemp("somewhere") / "weighin copy"
    shutil.copytree(ROOT, folder, ignore=LEFT_OUT)
    (folder / ".venv").symlink_to(sys.prefix, target_is_directory=True)
    return folder


@pytest.fixture
def demo(copy: Path, tmp_path: Path) -> Iterator["subprocess.Popen[str]"]:
    env = {
        **os.environ,
        "DATABASE_URL": "nonsense",
        "DJANGO_SETTINGS_MODULE": "nothing",
        "http_proxy": "http://192.0.2.1:9",
    }
    words = [sys.executable, str(copy / "demo" / "run.py"), "--port", "18400"]
    started = subprocess.Popen(
        words,
        cwd=tmp_path,
        env=env,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        start_new_session=True,
        # Whoever starts the tests in the background has them, and all they start, ignore Ctrl-C
        preexec_fn=None if os.name == "nt" else lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),
    )
    yield started
    if started.poll() is None:
        os.killpg(started.pid, signal.SIGKILL)
        started.wait()
    assert started.stdout is not None
    started.stdout.close()


def said_until(process: "subprocess.Popen[str]", words: str) -> str:
    """What the process has said up to and with the line that holds ``words``."""
    said = ""
    assert process.stdout is not None
    for line in process.stdout:
        said += line
        if words in line:
            return said
    raise AssertionError(f"it never said '{words}': {said}")


def refused(address: str) -> bool:
    """Whether nobody listens there any more."""
    try:
        urllib.request.build_opener(urllib.request.ProxyHandler({})).open(address, timeout=SECONDS).close()
    except OSError as found:
        return "refused" in str(found)
    return False


@pytest.mark.skipif(os.name == "nt", reason="ends the demo by a signal")
@pytest.mark.parametrize("signum", [signal.SIGTERM, signal.SIGINT])
def test_the_demo_starts_from_any_folder_and_ends_cleanly(demo, signum):
    said = said_until(demo, "Ctrl-C ends it")
    address = re.search(r"http://127\.0\.0\.1:\d+/", said)
    assert address is not None, said
    assert "osperry-dawn-launch" in said, "the log-ins are printed"
    opener = urllib.request.build_opener(urllib.request.ProxyHandler({}))
    with opener.open(address.group(), timeout=SECONDS) as page:
        assert page.status == 200
    demo.send_signal(signum)
    assert demo.wait(timeout=SECONDS) == 0
    until(lambda: refused(address.group()))


def test_the_last_lines_of_a_run_name_what_was_skipped_and_why(capsys):
    run = importlib.import_module("run")
    ended = [
        run.Outcome("lint", True, 2, "All checks passed!"),
        run._skip("browser tests", "there is no Chromium here"),
    ]
    assert run._say(ended) == 0
    said = capsys.readouterr().out.splitlines()
    assert said[-1].split(maxsplit=4)[-1] == "skipped: there is no Chromium here" and "passed" in said[-2]
    assert all((run.ROOT / sample).exists() for sample in run.BROWSER_SAMPLE + run.POSTGRES_SAMPLE)
    assert run._say([*ended, run.Outcome("types", False, 3, "Found 1 error")]) == 1
    assert "failed: types" in capsys.readouterr().out


def test_demo_data_of_an_earlier_version_is_left_as_it_is(copy):
    data = copy / "var" / "demo"
    shutil.rmtree(data, ignore_errors=True)
    data.mkdir(parents=True)
    place = earlier_place(data)
    before = place.whole()
    words = [sys.executable, str(copy / "demo" / "run.py")]
    done = subprocess.run(words, cwd=copy, capture_output=True, text=True, check=False)
    assert done.returncode == 1 and RUN_UPGRADE in done.stderr
    assert done.stderr.endswith("--fresh starts with new demo data.\n") and place.whole() == before
    shutil.rmtree(data)


@pytest.mark.parametrize("script", ["demo/run.py", "tests/run.py"])
def test_an_old_python_is_refused_in_words(script):
    code = f"import runpy, sys; sys.version_info = (3, 9, 2); runpy.run_path({script!r}, run_name='__main__')"
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 1
    assert done.stderr == "Python 3.11 or newer is needed; this is 3.9. Start this script with a newer one.\n"


@pytest.mark.skipif(os.name == "nt", reason="is a shell script")
def test_the_gate_is_executable_and_finds_a_python(tmp_path):
    gate = ROOT / ".ci" / "run"
    assert os.access(gate, os.X_OK)
    subprocess.run(["bash", "-n", str(gate)], check=True)
    (tmp_path / "python3").write_text("#!/bin/sh\nexit 1\n")
    (tmp_path / "python3").chmod(0o755)
    for name in ("bash", "dirname"):
        (tmp_path / name).symlink_to(shutil.which(name) or name)
    done = subprocess.run([str(gate)], env={"PATH": str(tmp_path)}, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (1, "Python 3.11 or newer is needed.\n")


def test_without_node_or_a_registry_the_checks_of_scripts_say_why(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    for name in ("package.json", "package-lock.json"):
        shutil.copy(check.HERE / name, tmp_path)
    monkeypatch.setattr(check, "HERE", tmp_path)
    monkeypatch.setattr(check, "STAMP", tmp_path / "node_modules" / ".installed")
    if shutil.which("node") and shutil.which("npm"):
        monkeypatch.setenv("npm_config_registry", "http://127.0.0.1:9")
        monkeypatch.setenv("npm_config_cache", str(tmp_path / "cache"))
        assert check.why_not() == "npm cannot install what they need: no registry answers"
    monkeypatch.setenv("PATH", str(tmp_path))
    assert check.why_not() == "there is no Node here"
