"""The sentences of scripts: makemessages finds every one, and a page in another language names their catalogue."""

import re
import shutil
import struct
from contextlib import chdir
from pathlib import Path

import pytest
from django.conf import settings
from django.core.management import call_command
from django.template import engines
from django.test import Client, override_settings
from django.utils.translation import override

from weighin.ui import catalogue
from weighin.ui.views.offline import worker_of

JS = settings.BASE / "weighin/ui/static/weighin/js"
CALL = re.compile(r'\bn?gettext\((?:/\*.*?\*/ ?)?"((?:[^"\\]|\\.)*)"')
ENTRY = re.compile(r'^msgid ((?:"(?:[^"\\]|\\.)*"\s*)+)', re.M)
SAID = {"": "Content-Type: text/plain; charset=UTF-8\nPlural-Forms: nplurals=2; plural=n != 1;\n", "Next": "Suivant"}


def in_scripts() -> set[str]:
    return {text for file in JS.rglob("*.js") for text in CALL.findall(file.read_text(encoding="utf-8"))}


def test_makemessages_finds_every_sentence_of_the_scripts(tmp_path: Path) -> None:
    if shutil.which("xgettext") is None:
        pytest.skip("xgettext is not installed: apt-get install gettext")
    shutil.copytree(JS, tmp_path / "js")
    (tmp_path / "locale").mkdir()
    with override_settings(LOCALE_PATHS=[str(tmp_path / "locale")]), chdir(tmp_path):
        call_command("makemessages", domain="djangojs", locale=["en"], verbosity=0)
    text = (tmp_path / "locale/en/LC_MESSAGES/djangojs.po").read_text(encoding="utf-8")
    found = {"".join(re.findall(r'"((?:[^"\\]|\\.)*)"', one)) for one in ENTRY.findall(text)}
    assert found - {""} == in_scripts() and len(found) > 350


def test_english_needs_no_catalogue() -> None:
    assert catalogue.address() == ""
    assert engines["django"].from_string("{% load ui %}{% catalogue %}").render({}) == ""


@pytest.mark.django_db
def test_another_language_is_named_by_its_pages_and_kept_by_their_workers(tmp_path: Path) -> None:
    folder = tmp_path / "fr/LC_MESSAGES"
    folder.mkdir(parents=True)
    (folder / "djangojs.mo").write_bytes(machine_readable(SAID))
    languages = [("en", "English"), ("fr", "French")]
    with override_settings(LOCALE_PATHS=[str(tmp_path)], LANGUAGES=languages), override("fr"):
        catalogue.script.cache_clear()
        address = catalogue.address()
        assert re.fullmatch(r"/text/fr\.[0-9a-f]{12}\.js", address)
        assert (
            engines["django"]
            .from_string("{% load ui %}{% catalogue %}")
            .render({})
            .startswith(f'<script src="{address}')
        )
        assert f'"{address}"' in worker_of("/page/", "text", ()).content.decode()
        answer = Client().get(address)
        assert answer["Content-Type"].startswith("text/javascript") and "immutable" in answer["Cache-Control"]
        assert '"Next": "Suivant"' in answer.content.decode()
        assert Client().get("/text/fr.000000000000.js")["Cache-Control"] == "no-cache"
        assert Client().get("/text/xx.000000000000.js").status_code == 404
    catalogue.script.cache_clear()


def machine_readable(texts: dict[str, str]) -> bytes:
    """A .mo file, as the GNU manual describes it."""
    pairs = [(one.encode(), other.encode()) for one, other in sorted(texts.items())]
    at, tables, data = 28 + 16 * len(pairs), ([], []), b""  # type: ignore[var-annotated]
    for side, table in enumerate(tables):
        for pair in pairs:
            table += [len(pair[side]), at + len(data)]
            data += pair[side] + b"\0"
    head = struct.pack("<7I", 0x950412DE, 0, len(pairs), 28, 28 + 8 * len(pairs), 0, 28 + 16 * len(pairs))
    return head + struct.pack(f"<{4 * len(pairs)}I", *tables[0], *tables[1]) + data
