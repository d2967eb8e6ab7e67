"""The command that gathers texts into catalogues finds the sentences of faults, plurals too."""

import shutil
from pathlib import Path

import pytest
from django.core.management import call_command
from django.test import override_settings


@pytest.mark.skipif(shutil.which("xgettext") is None, reason="gettext's tools are not on this machine")
def test_sentences_come_into_the_catalogue_with_both_forms(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "locale").mkdir()
    (tmp_path / "faults.py").write_text(
        'LEFT = Sentence("left", ngettext_noop("%(n)s fish is left", "%(n)s fish are left"))\n'
        'NONE = Sentence("none", gettext_noop("no fish: %(why)s"))\n'
    )
    with override_settings(LOCALE_PATHS=[str(tmp_path / "locale")]):  # the site's own folder would be made
        call_command("makemessages", locale=["de"], verbosity=0)
    catalogue = (tmp_path / "locale" / "de" / "LC_MESSAGES" / "django.po").read_text()
    assert 'msgid "%(n)s fish is left"\nmsgid_plural "%(n)s fish are left"' in catalogue
    assert 'python-format\nmsgid "no fish: %(why)s"' in catalogue
