"""Under which license everything comes that weighin installs or brings along: .lock/licenses.md.

tests/supply/lock.py runs this; what this machine has no use for, such as a package for Windows, is fetched for its
license alone.
"""

import subprocess
import sys
import tempfile
import zipfile
from email.message import Message
from email.parser import Parser
from importlib.metadata import PackageNotFoundError, distribution
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))
from demo.environment import RUN, TESTS
from tests.supply.pins import Pin, pins

TABLE = ROOT / ".lock" / "licenses.md"
# A package whose metadata do not say it, read from the license file that it brings along.
READ_BY_HAND = {"axe-playwright-python": "MIT AND MPL-2.0"}
# The words of older metadata, as the names that the newer have (SPDX).
SPDX = {
    "BSD License": "BSD-3-Clause",
    "MIT License": "MIT",
    "Apache Software License": "Apache-2.0",
    "Mozilla Public License 2.0 (MPL 2.0)": "MPL-2.0",
    "Python Software Foundation License": "PSF-2.0",
    "Zope Public License": "ZPL-2.1",
    "BSD 2-Clause License": "BSD-2-Clause",
    "2-clause BSD": "BSD-2-Clause",
    "BSD-3-Clause, Apache-2.0, dependency licenses": "BSD-3-Clause AND Apache-2.0",
}
# What stands in the tree itself: file, release, license, where its text is.
BROUGHT = (
    (
        "weighin/ui/static/weighin/vendor/qrcode-generator.js",
        "2.0.4",
        "MIT",
        "weighin/ui/static/weighin/vendor/qrcode-generator.LICENSE.txt",
    ),
    ("weighin/reports/writers/fonts/", "2.37", "Bitstream-Vera", "weighin/reports/writers/fonts/LICENCE.txt"),
)
HEADER = """# Licenses

Made by `tests/supply/lock.py` from what each package says of itself; names are those of SPDX. weighin installs the
packages and changes none of them. htmx comes in django-htmx, axe in axe-playwright-python, Chromium not at all. What
checks the scripts stands with its licenses in `tests/node/package-lock.json`.
"""


def licensed_here(name: str, version: str) -> str | None:
    """The license in SPDX's words, empty where the package does not say it; None where that release is not here."""
    try:
        found = distribution(name)
    except PackageNotFoundError:
        return None
    return said_in(found.metadata, name) if found.version == version else None


def license_of(pin: Pin) -> str:
    """The license in SPDX's words; empty where the package does not say it.

    Raises subprocess.CalledProcessError where a package that is not here cannot be fetched.
    """
    here = licensed_here(pin.name, pin.version)
    return said_in(_fetched(pin), pin.name) if here is None else here


def said_in(metadata: Message, name: str) -> str:
    """The license that the metadata name: as an expression, in a word, or as a classifier."""
    word = str(metadata.get("License") or "")
    last = [entry.split(" :: ")[-1] for entry in metadata.get_all("Classifier", []) if entry.startswith("License")]
    word = SPDX.get(word, word)
    named = word if word in {*SPDX.values(), "BSD-3-Clause", "Apache-2.0", "MIT"} else ""
    return (
        READ_BY_HAND.get(name)
        or str(metadata.get("License-Expression") or "")
        or named
        or " AND ".join(SPDX.get(entry, entry) for entry in last)
    )


def _fetched(pin: Pin) -> Message:
    """The metadata of a package that is not installed here."""
    with tempfile.TemporaryDirectory() as folder:
        words = ["download", "-qq", "--no-deps", "--only-binary", ":all:", "--dest", folder]
        subprocess.run([sys.executable, "-m", "pip", *words, f"{pin.name}=={pin.version}"], check=True)
        with zipfile.ZipFile(next(Path(folder).iterdir())) as wheel:
            name = next(entry for entry in wheel.namelist() if entry.endswith(".dist-info/METADATA"))
            return Parser().parsestr(wheel.read(name).decode())


def rows(lock: Path) -> list[tuple[str, str, str]]:
    """Name, release and license of each line of the lock."""
    return [(pin.name, pin.version, license_of(pin)) for pin in pins(lock)]


def table(heading: str, lines: list[tuple[str, str, str]]) -> str:
    """A heading and its rows, as Markdown."""
    body = "\n".join(f"| {name} | {version} | {license} |" for name, version, license in lines)
    return f"\n## {heading}\n\n| What | Release | License |\n|---|---|---|\n{body}\n"


def main() -> None:
    run, tests = rows(RUN.lock), rows(TESTS.lock)
    brought = [(f"`{path}`", release, f"{name}, `{text}`") for path, release, name, text in BROUGHT]
    parts = [
        HEADER,
        table("What the site runs on", run),
        table("What comes in the tree", brought),
        table("What the tests need beside it", [row for row in tests if row not in run]),
    ]
    TABLE.write_text("".join(parts), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
