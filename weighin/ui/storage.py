"""Static files whose names carry a fingerprint, so that browsers keep them for good and still see a new version."""

import re
from datetime import datetime
from hashlib import sha256
from pathlib import Path
from typing import Any

from django.contrib.staticfiles.finders import get_finders
from django.core.files.base import ContentFile
from django.core.management import call_command
from whitenoise.storage import CompressedManifestStaticFilesStorage

from weighin.ui import lean


class FingerprintedFiles(CompressedManifestStaticFilesStorage):  # type: ignore[misc]
    """Fingerprints for the files that ``serve`` has collected; plain names for all others.

    Tests and a developer's server collect nothing: they find the files where they lie.
    """

    # A module names what it imports by the fingerprint too, whose own changes with it: a pass for each step of the way down
    support_js_module_import_aggregation = True
    max_post_process_passes = 20
    keep_intermediate_files = False

    def save(self, name: str | None, content: Any, max_length: int | None = None) -> str:
        """Keep a collected file; our own scripts and styles without what only readers need."""
        if name and re.fullmatch(r"weighin/(?!vendor/)[\w/-]+\.(?:js|css)", name.replace("\\", "/")):
            shorter = lean.lean_style if name.endswith(".css") else lean.lean_script
            content = ContentFile(shorter(content.read().decode()).encode())
        return str(super().save(name, content, max_length))

    def file_hash(self, name: str, content: Any = None) -> str | None:
        """Eight figures: enough to tell a file from its other versions; every page and script of ours names many."""
        whole: str | None = super().file_hash(name, content)
        return whole and whole[:8]

    def get_modified_time(self, name: str) -> datetime:
        """None is told, so that whoever collects takes every file anew.

        Files of an update that was unpacked, or of a data folder that was copied, have times that say nothing: pages
        of the new version would stand beside scripts and styles of the old one.
        """
        raise NotImplementedError

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


def collect(folder: Path) -> None:
    """Collect the files into ``folder``, STATIC_ROOT, unless it holds these very ones: others may be serving from it."""
    stamp, made_of = folder / "made-of", _made_of()
    if stamp.is_file() and stamp.read_text() == made_of:
        return
    stamp.unlink(missing_ok=True)
    call_command("collectstatic", interactive=False, verbosity=0)
    stamp.write_text(made_of)


def _made_of() -> str:
    """What the collected files are made of: all sources, and what is done to them."""
    whole = sha256()
    for finder in get_finders():
        for name, where in sorted(finder.list([]), key=lambda one: str(one[0])):
            with where.open(name) as file:
                whole.update(f"{name} {sha256(file.read()).hexdigest()}\n".encode())
    for module in (__file__, lean.__file__):
        whole.update(Path(module).read_bytes())
    return whole.hexdigest()
