"""Lint and types of the site's JavaScript: ``python tests/node/check.py lint`` or ``types``.

eslint and the TypeScript compiler are pinned in package-lock.json and installed beside this file, by npm, once.
"""

import hashlib
import re
import shutil
import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
MODULES = HERE / "node_modules"
STAMP = MODULES / ".installed"
SCRIPTS = "weighin/ui/static/weighin/js"
OLDEST = (20, 19)  # what eslint asks for
PATIENCE = 180
CHECKS = {
    "lint": [["eslint", "--config", "tests/node/eslint.config.js", "--max-warnings", "0", SCRIPTS, "tests/node"]],
    "types": [["tsc", "-p", "tests/node/tsconfig.json"], ["tsc", "-p", "tests/node/tsconfig.workers.json"]],
}


def why_not() -> str:
    """Why the checks cannot run here, after trying to install what they need; empty where they can."""
    node, npm = shutil.which("node"), shutil.which("npm")
    if node is None:
        return "there is no Node here"
    said = subprocess.run([node, "--version"], capture_output=True, text=True, check=False).stdout
    found = re.match(r"v(\d+)\.(\d+)", said)
    if found is None or (int(found[1]), int(found[2])) < OLDEST:
        return f"Node is {said.strip() or 'broken'}, and {'.'.join(map(str, OLDEST))} is needed"
    wanted = hashlib.sha256((HERE / "package-lock.json").read_bytes()).hexdigest()
    if STAMP.exists() and STAMP.read_text() == wanted:
        return ""
    if npm is None:
        return "there is no npm here to install what they need"
    command = [
        npm,
        "ci",
        "--prefix",
        str(HERE),
        "--no-audit",
        "--no-fund",
        "--fetch-retries",
        "1",
        "--fetch-retry-mintimeout",
        "1000",
    ]
    try:
        done = subprocess.run(command, capture_output=True, timeout=PATIENCE, check=False)
    except subprocess.TimeoutExpired:
        return "npm did not end: no registry answers"
    if done.returncode:
        return "npm cannot install what they need: no registry answers"
    STAMP.write_text(wanted)
    return ""


def main(kind: str) -> int:
    missing = why_not()
    if missing:
        print(f"Not checked: {missing}.", file=sys.stderr)
        return 1
    node = str(shutil.which("node"))
    scripts = {"eslint": MODULES / "eslint/bin/eslint.js", "tsc": MODULES / "typescript/bin/tsc"}
    runs = [[node, str(scripts[name]), *words] for name, *words in CHECKS[kind]]
    return max(subprocess.run(words, cwd=ROOT, check=False).returncode for words in runs)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
