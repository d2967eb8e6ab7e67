"""Setting up installs the tested files alone, by a folder of tiny packages in the place of an index."""

import base64
import hashlib
import subprocess
import zipfile

import pytest

from demo import environment
from demo.environment import NotReady, Packages


def _wheel(folder, version, body="VALUE = 1\n"):
    """A package of one module, as an index would offer it."""
    info = f"tiny-{version}.dist-info"
    files = {
        "tiny.py": body,
        f"{info}/METADATA": f"Metadata-Version: 2.1\nName: tiny\nVersion: {version}\n",
        f"{info}/WHEEL": "Wheel-Version: 1.0\nGenerator: tests\nRoot-Is-Purelib: true\nTag: py3-none-any\n",
    }
    record = [
        f"{name},sha256={base64.urlsafe_b64encode(hashlib.sha256(text.encode()).digest()).rstrip(b'=').decode()},{len(text)}"
        for name, text in files.items()
    ]
    files[f"{info}/RECORD"] = "\n".join([*record, f"{info}/RECORD,,", ""])
    path = folder / f"tiny-{version}-py3-none-any.whl"
    with zipfile.ZipFile(path, "w") as wheel:
        for name, text in files.items():
            wheel.writestr(name, text)
    return hashlib.sha256(path.read_bytes()).hexdigest()


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """An environment of its own, made once; each test begins without the package."""
    root = tmp_path_factory.mktemp("checkout")
    before = environment.ROOT, environment.VENV
    environment.ROOT, environment.VENV = root, root / ".venv"
    environment._make()
    yield root
    environment.ROOT, environment.VENV = before


@pytest.fixture
def place(made, tmp_path, monkeypatch):
    """A checkout with a lock and ranges for tiny, and an index that is a folder."""
    index = tmp_path / "index"
    index.mkdir()
    monkeypatch.setenv("PIP_NO_INDEX", "1")
    monkeypatch.setenv("PIP_FIND_LINKS", str(index))
    pip = [str(environment.python()), "-m", "pip", "uninstall", "--quiet", "--yes", "tiny"]
    subprocess.run(pip, capture_output=True, check=True)
    for stamp in environment.VENV.glob(".installed-*"):
        stamp.unlink()
    (made / "requirements.txt").write_text("tiny>=1,<2\n")
    return index


def _packages(root, version, digest):
    lock = root / "run.txt"
    lock.write_text(f"tiny=={version} \\\n    --hash=sha256:{digest}\n")
    return Packages(root / "requirements.txt", lock)


def _installed():
    code = "import importlib.metadata as m; print(m.version('tiny'))"
    done = subprocess.run([environment.python(), "-c", code], capture_output=True, text=True, check=False)
    return done.stdout.strip()


def test_the_locked_file_is_installed_once_though_a_newer_one_is_offered(made, place, monkeypatch):
    wanted = _packages(made, "1.0", _wheel(place, "1.0"))
    _wheel(place, "1.5")
    environment.prepare([wanted])
    assert _installed() == "1.0"
    monkeypatch.setattr(environment, "_install", lambda *_: pytest.fail("installed again"))
    environment.prepare([wanted])


def test_an_altered_file_is_not_installed(made, place):
    digest = _wheel(place, "1.0")
    _wheel(place, "1.0", "VALUE = 'not what was tested'\n")
    with pytest.raises(NotReady, match="not the file that weighin was tested with") as raised:
        environment.prepare([_packages(made, "1.0", digest)])
    assert _installed() == "" and "--by-ranges" not in str(raised.value)


def test_an_index_without_the_locked_release_is_said_and_nothing_else_is_taken(made, place):
    _wheel(place, "1.5")
    wanted = _packages(made, "1.0", "0" * 64)
    with pytest.raises(NotReady, match=r"has no ready-made tiny==1\.0 for Python .*mirror.*--by-ranges"):
        environment.prepare([wanted])
    assert _installed() == ""
    environment.prepare([wanted], by_ranges=True)
    assert _installed() == "1.5"


def test_without_a_network_it_asks_for_one(made, place, monkeypatch):
    monkeypatch.delenv("PIP_NO_INDEX")
    monkeypatch.setenv("PIP_CONFIG_FILE", "/dev/null")
    monkeypatch.setenv("PIP_INDEX_URL", "http://127.0.0.1:9/simple")
    monkeypatch.setenv("PIP_RETRIES", "1")
    with pytest.raises(NotReady, match="The first start needs the network"):
        environment.prepare([_packages(made, "1.0", "0" * 64)])
