"""What ``serve`` collects is this version's, whatever the times of the files say."""

from pathlib import Path

from django.contrib.staticfiles.management.commands.collectstatic import Command
from django.core.management import call_command

from weighin.ui.storage import FingerprintedFiles

STYLE = Path("weighin/css/site/book.css")


def collect(folder: Path) -> str:
    command = Command()
    command.storage = FingerprintedFiles(location=folder)
    call_command(command, interactive=False, verbosity=0)
    (kept,) = (folder / STYLE.parent).glob(f"{STYLE.stem}.*.css")
    return kept.read_text()


def test_an_earlier_versions_file_with_a_later_time_is_replaced(tmp_path: Path) -> None:
    right = collect(tmp_path)
    for file in (tmp_path / STYLE.parent).glob("book.*"):
        file.unlink()
    # Its time is now, later than the source's
    (tmp_path / STYLE).write_text(".an-earlier-version{color:red}")
    assert collect(tmp_path) == right and ".entry" in right
