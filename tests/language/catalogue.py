"""The texts that makemessages finds, and those that packages bring along."""

import ast
import re
import shutil
from collections.abc import Iterator
from contextlib import chdir
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import django
import django_tables2
import pytest
from django.conf import settings
from django.core.management import call_command
from django.test import override_settings
from language.pseudo import Message

QUOTED = r'((?:"(?:[^"\\]|\\.)*"\s*)+)'
ENTRY = re.compile(rf"^(?:msgctxt {QUOTED})?^msgid {QUOTED}", re.M)


def messages(catalogue: str) -> Iterator[Message]:
    """Context and text of every entry of a .po file."""
    for context, text in ENTRY.findall(catalogue):
        yield _unquoted(context), _unquoted(text)


def _unquoted(quoted: str) -> str:
    return "".join(ast.literal_eval(line) for line in re.findall(r'"(?:[^"\\]|\\.)*"', quoted))


@cache
def catalogue() -> frozenset[Message]:
    """What ``makemessages`` gathers from the site; skips the test where the tools are missing."""
    if shutil.which("xgettext") is None:
        pytest.skip("xgettext is not installed: apt-get install gettext")
    with TemporaryDirectory() as folder, override_settings(LOCALE_PATHS=[f"{folder}/locale"]), chdir(folder):
        # In a copy: it puts files of its own beside the templates while it works.
        for part in ("weighin", "templates"):
            shutil.copytree(
                settings.BASE / part, Path(folder) / part, ignore=shutil.ignore_patterns("static", "fonts", "locale")
            )
        (Path(folder) / "locale").mkdir()
        call_command("makemessages", locale=["en"], verbosity=0)
        return frozenset(messages(Path("locale/en/LC_MESSAGES/django.po").read_text(encoding="utf-8")))


@cache
def of_packages() -> frozenset[Message]:
    """What Django and its tables have in catalogues of their own."""
    found: set[Message] = set()
    for package in (django, django_tables2):
        for file in Path(package.__path__[0]).rglob("locale/en/LC_MESSAGES/django.po"):
            found.update(messages(file.read_text(encoding="utf-8")))
    return frozenset(found)
