"""Modules put together into one classic script, for pages that are also opened from a disk, where browsers load no modules."""

import posixpath
import re
from functools import cache
from pathlib import Path

from django.conf import settings
from django.contrib.staticfiles import finders

from weighin.ui.lean import lean_script
from weighin.ui.modules import files_of, module

IMPORT = re.compile(r"""^import \{([^}]*)\} from "(\.{1,2}/[^"]+)";\n""", re.M)
DECLARED = re.compile(r"^export ((?:async )?function\*?|const|class) (\w+)", re.M)
LISTED = re.compile(r"^export \{([^}]*)\};\n", re.M)
LEFT = re.compile(r"^(?:import|export)\b|\bimport\(", re.M)
# Under Node the same is a module, and a program
IN_NODE = 'if(typeof module==="object"&&module.exports){module.exports=%s;if(require.main===module)%s.run(process,require("fs"))}\n'


class NotClassic(Exception):
    """A module says something that cannot stand in a classic script."""


def classic_script(entry: str, name: str) -> str:
    """The module ``entry`` (such as proof/page) and all that it imports as one script, the same for the same files.

    What the entry exports is the global ``name``. Raises NotClassic for an import or export in a form that is not known.
    """
    return _anew(entry, name) if settings.DEBUG else _made(entry, name)


def _anew(entry: str, name: str) -> str:
    files = files_of(entry)
    parts = [_part(file) for file in files]
    whole = "\n".join(['"use strict";', "const parts = {};", *parts, f'return parts["{module(entry)}"];'])
    script = lean_script(f"globalThis.{name} = (function () {{\n{whole}\n}})();\n")
    return script + "\n" + IN_NODE % (name, name)


_made = cache(_anew)


def _part(file: str) -> str:
    """One module as a function that gives its exports."""
    text = Path(str(finders.find(file))).read_text(encoding="utf-8")
    names: list[str] = [found[2] for found in DECLARED.finditer(text)]

    def imported(found: re.Match[str]) -> str:
        other = posixpath.normpath(posixpath.join(posixpath.dirname(file), found[2]))
        return f'const {{{found[1].replace(" as ", ": ")}}} = parts["{other}"];\n'

    def listed(found: re.Match[str]) -> str:
        names.extend(one.strip() for one in found[1].split(",") if one.strip())
        return ""

    text = DECLARED.sub(r"\1 \2", LISTED.sub(listed, IMPORT.sub(imported, text)))
    if LEFT.search(re.sub(r"/\*.*?\*/", "", text, flags=re.S)) or any(" " in name for name in names):
        raise NotClassic(file)
    return f'parts["{file}"] = (function () {{\n{text}\nreturn {{ {", ".join(names)} }};\n}})();'
