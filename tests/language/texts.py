"""The texts for people as the sources have them, found in plain Python: a machine without GNU gettext holds the catalogues too.

``makemessages`` finds the same (``test_catalogue.py`` says so where ``xgettext`` is).
"""

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

from django.conf import settings
from django.utils.translation.template import templatize

# Where the arguments of a call stand: its context, its text and its plural
PLACES = {
    "_": (None, 0, None),
    "gettext": (None, 0, None),
    "ngettext": (None, 0, 1),
    "pgettext": (0, 1, None),
    "npgettext": (0, 1, 2),
}
CALL = re.compile(r"(_|n?p?gettext)(?:_lazy|_noop)?")
IN_SCRIPT = re.compile(r'\b(n?gettext)\(\s*("(?:[^"\\]|\\.)*")(?:\s*,\s*("(?:[^"\\]|\\.)*"))?', re.S)
IN_TEMPLATE = re.compile(r"\b(_|n?p?gettext)\(")


class Text(NamedTuple):
    """A text of the sources: its context, itself, and its plural where it has one."""

    context: str
    text: str
    plural: str


@cache
def in_pages_and_code() -> dict[Text, tuple[str, ...]]:
    """The texts of domain ``django``, each with the files that have it."""
    found: dict[Text, list[str]] = {}
    for folder, ending, reads in (
        ("weighin", "py", _of_code),
        ("weighin", "html", _of_template),
        ("templates", "*", _of_template),
    ):
        for file in sorted((settings.BASE / folder).rglob(f"*.{ending}")):
            if "static" in file.parts or not file.is_file():
                continue
            for text in reads(file):
                found.setdefault(text, []).append(str(file.relative_to(settings.BASE)))
    return {text: tuple(dict.fromkeys(files)) for text, files in found.items()}


@cache
def in_scripts() -> dict[Text, tuple[str, ...]]:
    """The texts of domain ``djangojs``, each with the scripts that have it."""
    found: dict[Text, list[str]] = {}
    for file in sorted((settings.BASE / "weighin").rglob("*.js")):
        for name, text, plural in IN_SCRIPT.findall(file.read_text(encoding="utf-8")):
            read = Text("", ast.literal_eval(text), ast.literal_eval(plural) if name == "ngettext" else "")
            found.setdefault(read, []).append(str(file.relative_to(settings.BASE)))
    return {text: tuple(dict.fromkeys(files)) for text, files in found.items()}


def _of_code(file: Path) -> Iterator[Text]:
    for call in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(call, ast.Call):
            yield from _of_call(call)


def _of_template(file: Path) -> Iterator[Text]:
    source = templatize(file.read_text(encoding="utf-8"), origin=str(file))
    for start in IN_TEMPLATE.finditer(source):
        call = _parsed(source, start.start())
        if call is not None:
            yield from _of_call(call)


def _parsed(source: str, start: int) -> ast.Call | None:
    """The call that begins at ``start`` of what Django made of a template; its texts may hold brackets."""
    end = source.find(")", start)
    while end != -1:
        try:
            read = ast.parse(source[start : end + 1], mode="eval").body
        except SyntaxError:
            end = source.find(")", end + 1)
            continue
        return read if isinstance(read, ast.Call) else None
    return None


def _of_call(call: ast.Call) -> Iterator[Text]:
    name = call.func.attr if isinstance(call.func, ast.Attribute) else getattr(call.func, "id", "")
    is_ours = CALL.fullmatch(name)
    if is_ours is None:
        return
    texts = [ast_text(place, call) for place in PLACES[is_ours[1]]]
    if all(text is not None for text in texts) and texts[1]:
        yield Text(*map(str, texts))


def ast_text(place: int | None, call: ast.Call) -> str | None:
    """The text that an argument is; "" where the call has none there, None where it is no text as it stands."""
    if place is None:
        return ""
    if place >= len(call.args):
        return None
    given = call.args[place]
    return given.value if isinstance(given, ast.Constant) and isinstance(given.value, str) else None
