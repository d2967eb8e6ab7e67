"""What ``serve`` collects is this version's, whatever the times of the files say."""

from pathlib import Path
from typing import Any

from django.contrib.staticfiles.management.commands.collectstatic import Command
from django.core.management import call_command

from weighin.ui.storage import FingerprintedFiles
from weighin.ui.storage import collect as collect_once

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


def test_what_is_there_already_is_left_alone_for_those_who_serve_it(tmp_path: Path, settings: Any) -> None:
    settings.STATIC_ROOT = tmp_path / "static"
    settings.STORAGES = {**settings.STORAGES, "staticfiles": {"BACKEND": "weighin.ui.storage.FingerprintedFiles"}}
    collect_once(settings.STATIC_ROOT)
    (style,) = (settings.STATIC_ROOT / STYLE.parent).glob(f"{STYLE.stem}.*.css")
    style.write_text("/* still served */")
    collect_once(settings.STATIC_ROOT)
    assert style.read_text() == "/* still served */"
    (settings.STATIC_ROOT / "made-of").write_text("an earlier version")
    collect_once(settings.STATIC_ROOT)
    assert ".entry" in style.read_text()
