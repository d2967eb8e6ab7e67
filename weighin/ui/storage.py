"""Static files whose names carry a fingerprint, so that browsers keep them for good and still see a new version."""

import re
from typing import Any

from django.core.files.base import ContentFile
from whitenoise.storage import CompressedManifestStaticFilesStorage

# A comment that has its lines for itself, an indent, an empty line: for who reads the source, not for a tablet
FOR_READERS = re.compile(r"^[ \t]*/\*(?!!).*?\*/[ \t]*\n|^[ \t]+|^\n", re.S | re.M)


TRAILING = re.compile(r"[ \t]{2,}// [^\n]*$", re.M)
ROUND_SIGNS = re.compile(r" ?([{}()\[\];,=<>*?:&|!]+) ?")
ROUND_CSS = re.compile(r" ?([{};]) ?|([:,]) (?=\S)")


def lean(text: str, style: bool = False) -> str:
    """Our scripts and styles without what only readers need; every word and sign that is left is as it was written.

    No text between backticks may run over several lines: its indent would go too (held by a test).
    """
    bare = FOR_READERS.sub("", text)
    if style:
        bare = re.sub(r"[ \t]*/\*(?!!).*?\*/", "", bare, flags=re.S)
        return re.sub(r"(?<=[{};,])\n", "", ROUND_CSS.sub(lambda found: found[1] or found[2], bare))
    *lines, last = TRAILING.sub("", bare).split("\n")
    return "".join(_ended(_close(line)) for line in lines) + _close(last)


def _ended(line: str) -> str:
    """A line of a script with its end, which is not needed behind a sign that ends nothing by itself."""
    return line if line.endswith((";", "{", ",")) and "//" not in line else line + "\n"


def _close(line: str) -> str:
    """A line of a script without the spaces round its signs; one that a pattern or a template may stand in stays as it is."""
    if re.search(r"[`'/\\]", line):
        return line
    return '"'.join(
        ROUND_SIGNS.sub(r"\1", part) if place % 2 == 0 else part for place, part in enumerate(line.split('"'))
    )


class FingerprintedFiles(CompressedManifestStaticFilesStorage):  # type: ignore[misc]
    """Fingerprints for the files that ``serve`` has collected; plain names for all others.

    Tests and a developer's server collect nothing: they find the files where they lie.
    """

    # A module names what it imports by the fingerprint too, whose own changes with it: a pass for each step of the way down
    support_js_module_import_aggregation = True
    max_post_process_passes = 20
    keep_intermediate_files = False

    def save(self, name: str | None, content: Any, max_length: int | None = None) -> str:
        """Keep a collected file; our own scripts and styles as ``lean`` makes them, since a lake's link is thin."""
        if name and re.fullmatch(r"weighin/(?!vendor/)[\w/-]+\.(?:js|css)", name.replace("\\", "/")):
            content = ContentFile(lean(content.read().decode(), name.endswith(".css")).encode())
        return str(super().save(name, content, max_length))

    def post_process(self, paths: dict[str, Any], dry_run: bool = False, **options: Any) -> Any:
        """Fingerprint what was kept, not what it was made of."""
        return super().post_process({name: (self, name) for name in paths}, dry_run, **options)

    def url_converter(self, name: str, *words: Any, **options: Any) -> Any:
        """What others have written imports nothing by name: only our own modules are read for imports."""
        if name.endswith(".js") and not name.replace("\\", "/").startswith("weighin/js/"):
            return lambda found: found["matched"]
        return super().url_converter(name, *words, **options)

    def stored_name(self, name: str) -> str:
        """The name with its fingerprint, or the plain name of a file that is not collected."""
        key = self.hash_key(self.clean_name(name))
        return str(self.hashed_files.get(key, name))
