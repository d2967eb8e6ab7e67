"""Static files whose names carry a fingerprint, so that browsers keep them for good and still see a new version."""

from whitenoise.storage import CompressedManifestStaticFilesStorage


class FingerprintedFiles(CompressedManifestStaticFilesStorage):
    """Fingerprints for the files that ``serve`` has collected; plain names for all others.

    Tests and a developer's server collect nothing: they find the files where they lie.
    """

    def stored_name(self, name: str) -> str:
        """The name with its fingerprint, or the plain name of a file that is not collected."""
        key = self.hash_key(self.clean_name(name))
        return self.hashed_files.get(key, name)
