"""Static files whose names carry a fingerprint, so that browsers keep them for good and still see a new version."""

import re
from datetime import datetime
from typing import Any

from django.core.files.base import ContentFile
from whitenoise.storage import CompressedManifestStaticFilesStorage

from weighin.ui.lean import lean_script, lean_style


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
            lean = lean_style if name.endswith(".css") else lean_script
            content = ContentFile(lean(content.read().decode()).encode())
        return str(super().save(name, content, max_length))

    def get_modified_time(self, name: str) -> datetime:
        """None is told, so that each start collects every file anew.

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
