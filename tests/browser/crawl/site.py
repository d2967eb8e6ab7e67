"""A data folder with the demo, the two events of 40 boats and somebody of every role."""

from pathlib import Path

from served import Site

MAKE = "import sys; sys.path.insert(0, 'tests'); from browser.crawl.long_names import make; make()"


def built(data: Path) -> Site:
    """The site, not started. Raises AssertionError with what a command said that failed."""
    site = Site(data)
    for words in (("migrate", "--verbosity", "0"), ("load_demo",), ("shell", "--verbosity", "0", "-c", MAKE)):
        done = site.manage(*words)
        assert done.returncode == 0, done.stdout + done.stderr
    return site
