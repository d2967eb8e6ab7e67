"""What a process of its own takes.

``python alone.py WORDS`` runs the words and prints their seconds of work and peak memory in MB after what they said. It
stands between, since Linux counts among a process's memory what its parent had when it was started (getrusage(2)).
"""

import os
import resource
import subprocess
import sys
from pathlib import Path

from served import OWN, ROOT


def cost(data: Path, *words: str) -> tuple[float, float, str]:
    """Seconds of work (what else the machine does is left out), peak memory in MB and what a command of its own said."""
    env = {name: value for name, value in os.environ.items() if name not in OWN}
    env |= {"WEIGHIN_DATA": str(data), "DJANGO_SETTINGS_MODULE": "weighin.settings"}
    env["PYTHONPATH"] = f"{ROOT}{os.pathsep}{ROOT / 'tests'}"
    done = subprocess.run([sys.executable, __file__, *words], env=env, cwd=ROOT, stdout=subprocess.PIPE, text=True)
    assert done.returncode == 0, words
    *said, figures = done.stdout.splitlines()
    seconds, memory = map(float, figures.split())
    return seconds, memory, "\n".join(said)


if __name__ == "__main__":
    subprocess.run([sys.executable, *sys.argv[1:]], check=True)
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    print(used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)
