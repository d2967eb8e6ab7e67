"""The catalogues that are kept: whole, made of their files, and saying in each language what the English says."""

from pathlib import Path

import pytest
from language.agreement import faults
from language.catalogue import catalogue
from language.po import LOCALE, Entry, compiled, entries
from language.texts import Text, in_pages_and_code, in_scripts

FOUND = {"django": in_pages_and_code, "djangojs": in_scripts}
FILES = sorted(LOCALE.glob("*/LC_MESSAGES/*.po"))


@pytest.fixture(params=FILES, ids=lambda file: f"{file.parts[-3]}-{file.stem}")
def file(request: pytest.FixtureRequest) -> Path:
    return request.param  # type: ignore[no-any-return]


def _kept(file: Path) -> list[Entry]:
    return list(entries(file.read_text(encoding="utf-8")))


def test_spanish_is_kept_of_pages_and_of_scripts() -> None:
    assert {file.stem for file in FILES if "es" in file.parts} == set(FOUND)


def test_every_text_has_its_translation_and_nothing_else_is_kept(file: Path) -> None:
    kept, found = {Text(*entry.key): entry for entry in _kept(file) if entry.text}, FOUND[file.stem]()
    assert not [(text, found[text]) for text in found if text not in kept], "run makemessages, and translate"
    assert not set(kept) - set(found), "run makemessages: no source has these any more"
    assert not [text for text, entry in kept.items() if not entry.is_said]


def test_a_translation_has_the_names_tags_and_ends_of_its_text(file: Path) -> None:
    wrong = {entry.text: faults(entry) for entry in _kept(file) if entry.text and any(entry.said.values())}
    assert not {text: found for text, found in wrong.items() if found}


def test_what_is_read_is_made_of_what_is_written(file: Path) -> None:
    assert file.with_suffix(".mo").read_bytes() == compiled(_kept(file)), "run tests/language/po.py"


def test_makemessages_finds_the_same() -> None:
    found = {(text.context, text.text) for text in in_pages_and_code()}
    assert catalogue() - {("", "")} == found


def test_a_text_has_one_plural_or_none_wherever_it_stands() -> None:
    for found in (in_pages_and_code(), in_scripts()):
        by_text: dict[tuple[str, str], list[str]] = {}
        for text in found:
            by_text.setdefault((text.context, text.text), []).append(text.plural)
        assert not {text: plurals for text, plurals in by_text.items() if len(plurals) > 1}, "give one a context"


@pytest.mark.parametrize(
    ("text", "plural", "said"),
    [
        ("Boat %(boat)s", "", {0: "Lancha %(lancha)s"}),
        ("Boat %(boat)s", "", {0: "Lancha"}),
        ("Boat %(boat)s", "", {}),
        ("<b>%(n)s</b> boat", "<b>%(n)s</b> boats", {0: "<b>%(n)s</b> lancha", 1: "%(n)s lanchas"}),
        ("%(n)s boat", "%(n)s boats", {0: "una lancha", 1: "lanchas"}),
        ("%(n)s boat", "%(n)s boats", {0: "una lancha"}),
        (" to %(date)s", "", {0: "a %(date)s"}),
        ("all", "", {0: "100 % de todo"}),
    ],
)
def test_a_translation_that_lacks_something_is_found(text: str, plural: str, said: dict[int, str]) -> None:
    assert faults(Entry(text=text, plural=plural, said=said))


def test_one_of_a_number_may_be_said_in_a_word() -> None:
    assert not faults(Entry(text="%(n)s boat", plural="%(n)s boats", said={0: "una lancha", 1: "%(n)s lanchas"}))
