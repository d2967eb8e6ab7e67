"""Scripts as ES modules: every file is one that some page loads, imports lead somewhere and never in a circle."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from django.contrib.staticfiles import finders
from django.core.files.base import ContentFile

from weighin.ui.modules import files_of, imports_of
from weighin.ui.storage import FingerprintedFiles

JS = Path(finders.find("weighin/js/site/nav.js")).parents[1]
TEMPLATES = Path(__file__).resolve().parents[2] / "templates"
FILES = {f"weighin/js/{path.relative_to(JS).as_posix()}": path for path in sorted(JS.rglob("*.js"))}
IMPORTS = {name: imports_of(path.read_text(encoding="utf-8"), name) for name, path in FILES.items()}
# Asked for by another script, not by a page
BY_SCRIPTS = [
    "weighin/js/device/page-worker.js",
    "weighin/js/roll/worker.js",
    *files_of("scales/port", "device/signing"),
    *files_of("proof/page"),  # one classic script is made of them
]


def named_in_templates() -> Iterator[str]:
    for template in TEMPLATES.rglob("*.html"):
        text = template.read_text(encoding="utf-8")
        yield from re.findall(r"weighin/js/[\w/-]+\.js", text)
        for tag in re.findall(r"{% modules ([^%]+) %}", text):
            yield from files_of(*re.findall(r'"([^"]+)"', tag))


def test_every_script_is_loaded_by_some_page() -> None:
    assert set(named_in_templates()) | set(BY_SCRIPTS) == set(FILES)


def test_every_import_leads_to_a_file() -> None:
    assert {found for imports in IMPORTS.values() for found in imports} <= set(FILES)


@pytest.mark.parametrize("name", FILES)
def test_no_script_imports_itself_by_way_of_others(name: str) -> None:
    seen: set[str] = set()
    ahead = list(IMPORTS[name])
    while ahead:
        one = ahead.pop()
        assert one != name
        if one not in seen:
            seen.add(one)
            ahead += IMPORTS[one]


@pytest.mark.parametrize("name", FILES)
def test_every_import_is_written_so_that_it_is_found(name: str) -> None:
    """Django's fingerprints and the list of a page's files read imports by pattern: both must see what a browser sees."""
    text = re.sub(r"/\*.*?\*/", "", FILES[name].read_text(encoding="utf-8"), flags=re.S)
    assert len(re.findall(r"^\s*import\b(?!\()|^export\b.*\bfrom\b", text, re.M)) == len(IMPORTS[name])


def test_folders_of_scripts_are_small() -> None:
    for folder in {path.parent for path in FILES.values()}:
        assert len(list(folder.iterdir())) <= 15, folder


def test_collected_modules_import_one_another_by_fingerprint(tmp_path: Path) -> None:
    storage = FingerprintedFiles(location=tmp_path)
    for name, path in FILES.items():
        storage.save(name, ContentFile(path.read_bytes()))
    problems = [done for _, _, done in storage.post_process(dict.fromkeys(FILES)) if isinstance(done, Exception)]
    assert not problems
    checked = 0
    for name in FILES:
        collected = (tmp_path / storage.stored_name(name)).read_text(encoding="utf-8")
        assert storage.stored_name(name) != name
        found = imports_of(collected.replace(";import", ";\nimport"), name)
        assert found == [storage.stored_name(one) for one in IMPORTS[name]]
        checked += len(found)
    assert checked > 40
