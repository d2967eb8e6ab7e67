"""The scripts of a page: ES modules, each with the ones it imports."""

import posixpath
import re
from functools import cache
from pathlib import Path

from django.conf import settings
from django.contrib.staticfiles import finders

# ``import … from "./x.js";``, ``import "./x.js";`` and ``export … from "./x.js";``; what is imported only when it is needed
# (``import("./x.js")``) is no part of a page
IMPORT = re.compile(r"""^(?:import|export)\b[^"'();]*?["'](\.{1,2}/[^"']+)["'];""", re.M)


def module(name: str) -> str:
    """The static file of the module ``name``, such as table/page."""
    return f"weighin/js/{name}.js"


def files_of(*names: str) -> tuple[str, ...]:
    """The static files of these modules and of all that they import, those that import others behind what they import.

    Raises FileNotFoundError where one is missing.
    """
    return _files_anew(names) if settings.DEBUG else _files_of(names)


def imports_of(text: str, file: str) -> list[str]:
    """The static files that the module ``text``, itself ``file``, imports."""
    return [posixpath.normpath(posixpath.join(posixpath.dirname(file), found)) for found in IMPORT.findall(text)]


def _files_anew(names: tuple[str, ...]) -> tuple[str, ...]:
    files: dict[str, None] = {}

    def add(file: str) -> None:
        if file in files:
            return
        path = finders.find(file)
        if path is None:
            raise FileNotFoundError(f"No script {file}.")
        for other in imports_of(Path(path).read_text(encoding="utf-8"), file):
            add(other)
        files[file] = None

    for name in names:
        add(module(name))
    return tuple(files)


_files_of = cache(_files_anew)
