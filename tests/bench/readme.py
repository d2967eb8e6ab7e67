"""Measure, and write the table into README.md: ``python tests/bench/readme.py`` on a machine that does nothing else.

README keeps what stood there when a measure fails its bar.
"""

import os
import platform
import subprocess
import sys
import tempfile
from datetime import date
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
README = ROOT / "README.md"
BEGIN, END = "<!-- measured: python tests/bench/readme.py -->", "<!-- end of what was measured -->"


def written(text: str, table: str, about: str) -> str:
    """The text with the table between its two marks. Raises ValueError where these are not there once each."""
    before, begin, rest = text.partition(BEGIN)
    _, end, after = rest.partition(END)
    if not begin or not end or BEGIN in after or END in after:
        raise ValueError(f"README.md needs the lines {BEGIN} and {END}, once each")
    return f"{before}{BEGIN}\n\n{about}\n\n{table.strip()}\n\n{END}{after}"


def main() -> int:
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "measured.md"
        words = [
            sys.executable,
            "-m",
            "pytest",
            "-c",
            ".pytest.ini",
            "--rootdir",
            ".",
            "-q",
            "-m",
            "bench",
            "tests/bench",
        ]
        done = subprocess.run(words, cwd=ROOT, env={**os.environ, "WEIGHIN_MEASURED": str(file)}, check=False)
        if done.returncode or not file.exists():
            print("A measure failed: README.md stays as it was.")
            return 1
        about = (
            f"Measured {date.today():%B %-d, %Y}, {os.cpu_count()} cores, Python {platform.python_version()}; a floor is "
            "what the same machine needs in the same run for the least that could do the job."
        )
        README.write_text(
            written(README.read_text(encoding="utf-8"), file.read_text(encoding="utf-8"), about), encoding="utf-8"
        )
    print("README.md has the table.")
    return 0


if __name__ == "__main__":
    sys.exit(main())
